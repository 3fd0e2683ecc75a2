import { cropTable } from '../../functions/crop-table';
import { baseNames, type Farm, marketUnits } from '../../plan/farm';
import { isoText } from '../../core/serial-date';
import type { NoteField } from '../../records/happenings';
import { rowMark } from '../../records/note';
import { batchName } from '../../records/register-row';

export type Choice = readonly [value: string, text: string];

const plain = (names: readonly string[]): Choice[] => names.map((name) => [name, name]);

/** Batches that wait in the nursery, or are planned for a bed. */
const inNursery = ({ plantings }: Farm): Choice[] =>
  plantings.flatMap((row, at): Choice[] => {
    const { planned, planted, cleared, sown, crop, bed, seeds } = row;
    const waits = planned === undefined && planted === undefined && cleared === undefined;
    if (!waits && planned !== 'planned') return [];
    if (cropTable.book.find(crop)?.start === 'in place' && sown !== undefined) return [];
    const facts = [
      planned === 'planned' ? 'planned' : sown === undefined ? '' : `sown ${isoText(sown)}`,
      seeds === undefined ? '' : `${seeds} seeds`,
      bed === undefined ? '' : `for ${bed.trim()}`,
    ].filter(Boolean);
    return [[rowMark(at), [batchName(row), crop, ...facts].join(', ')]];
  });

/** Names that a field offers, those that are likely first; undefined where it is typed. */
export function choicesOf({ takes }: NoteField, farm: Farm): readonly Choice[] | undefined {
  if ('words' in takes) return plain(takes.words === 'units' ? marketUnits : baseNames);
  if (!('names' in takes)) return undefined;
  const tanks = farm.tanks.map(({ name }) => name.trim());
  const beds = farm.beds.map(({ name }) => name.trim());
  switch (takes.names) {
    case 'tanks':
      return plain(tanks);
    case 'beds':
      return plain(beds);
    case 'places':
      return plain([...beds, ...tanks]);
    case 'everywhere':
      return [['all', 'All of the water'], ...plain([...tanks, ...beds])];
    case 'crops': {
      const own = [...farm.markets, ...farm.plantings].map(({ crop }) => crop);
      return plain([...new Set([...own, ...cropTable.rows.map((crop) => cropTable.nameOf(crop))])]);
    }
    case 'nursery':
      return inNursery(farm);
  }
}

type Row = Readonly<Record<string, string | number | undefined>>;

/** What the last rows of the same kind said in a field, the newest first; those of the same place alone where one is chosen. */
export function lastSaid(
  farm: Farm,
  { list, id }: { readonly list: keyof Farm; readonly id: string },
  field: string,
  place: string | undefined,
): string | number | undefined {
  const rows = farm[list] as readonly unknown[] as readonly Row[];
  for (let at = rows.length - 1; at >= 0; at--) {
    const row = rows[at];
    if (!row || row[field] === undefined || row['planned'] !== undefined) continue;
    if (list === 'fishLog' && row['what'] !== id) continue;
    const where = row['tank'] ?? row['where'] ?? row['bed'];
    if (place !== undefined && where !== undefined && String(where).trim() !== place) continue;
    return row[field];
  }
  return undefined;
}
