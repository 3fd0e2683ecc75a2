/** What a renewed plan is to have more, or otherwise, than the farm that its workbook holds. */
import { placeKey } from '../plan/registers-of-farm';

export interface FarmChanges {
  /** So many tanks, and beds, in all: new ones are like the last. */
  readonly tanks?: number | undefined;
  readonly beds?: number | undefined;
  /** The day of the plan, as an ISO date. */
  readonly day?: string | undefined;
  /** A farm file that takes the place of the one that is read. */
  readonly farm?: Readonly<Record<string, unknown>> | undefined;
}

/** Changes that cannot be made, with a sentence. */
export class WrongChange extends Error {}

type Row = Readonly<Record<string, unknown>>;
type File = Readonly<Record<string, unknown>>;

const rowsOf = (file: File, list: string): readonly Row[] =>
  (file[list] as Row[] | undefined) ?? [];

/** "Tank 9" after "Tank 8", "R10" after "R09", "Tank C" after "Tank B"; with a number behind it where there was none. */
function nextName(last: string, taken: ReadonlySet<string>): string {
  const [, before, letter = ''] = /^(.*\s)([A-Y])$/.exec(last) ?? [];
  if (before !== undefined) {
    const name = before + String.fromCharCode(letter.charCodeAt(0) + 1);
    if (!taken.has(placeKey(name))) return name;
  }
  const [, stem = '', digits] = /^(.*?)(\d*)$/.exec(last) ?? [];
  for (let n = Number(digits === '' ? '1' : digits) + 1; ; n++) {
    const number = String(n).padStart(digits?.length ?? 0, '0');
    const name = digits === '' ? `${stem} ${number}` : `${stem}${number}`;
    if (!taken.has(placeKey(name))) return name;
  }
}

/** What of the last tank or bed its followers do not have: what stands in it. */
const PASSING: Readonly<Record<string, readonly string[]>> = {
  tanks: ['fish', 'weight', 'stocked'],
  beds: ['crop', 'plants', 'sown', 'planted'],
};

function grown(file: File, list: 'tanks' | 'beds', count: number | undefined): readonly Row[] {
  const rows = rowsOf(file, list);
  if (count === undefined || count === rows.length) return rows;
  if (!Number.isInteger(count) || count < 0)
    throw new WrongChange(`--${list} takes a whole number; got ${count}.`);
  if (count < rows.length)
    throw new WrongChange(
      `The workbook has ${rows.length} ${list}, more than ${count}: which are to go is for you to say. Clear their lines on the sheet first, or give a farm file with --farm.`,
    );
  const last = rows.at(-1);
  if (!last)
    throw new WrongChange(
      `The workbook has no ${list} yet, so that nothing says what new ones are like: type the first one on its sheet.`,
    );
  const lasting = Object.fromEntries(
    Object.entries(last).filter(([field]) => !PASSING[list]?.includes(field)),
  );
  const all = [...rows];
  const taken = new Set(rows.map(({ name }) => placeKey(String(name))));
  while (all.length < count) {
    const name = nextName(String(all.at(-1)?.['name']), taken);
    taken.add(placeKey(name));
    all.push({ ...lasting, name });
  }
  return all;
}

/** The farm file with the changes in it. Throws WrongChange. */
export function changedFarm(file: File, { tanks, beds, day, farm }: FarmChanges): File {
  const base = farm ?? file;
  if (farm !== undefined && (farm['units'] ?? 'metric') !== file['units'])
    throw new WrongChange(
      `The farm file is in ${String(farm['units'])} units and the workbook in ${String(file['units'])}: a workbook keeps its units.`,
    );
  return {
    ...base,
    ...(base['tanks'] !== undefined && { tanks: grown(base, 'tanks', tanks) }),
    ...(base['beds'] !== undefined && { beds: grown(base, 'beds', beds) }),
    ...(day !== undefined && { asOf: day }),
  };
}

/** Where the rows of the older file's lists are in the newer one's: by name, or else as they stand. */
export function entryPlaces(
  before: File,
  after: File,
): (list: string, index: number) => number | undefined {
  const known = new Map<string, ReadonlyMap<number, number>>();
  const placesOf = (list: string): ReadonlyMap<number, number> => {
    const [old, now] = [rowsOf(before, list), rowsOf(after, list)];
    const keyOf = (row: Row): string =>
      list === 'tanks' || list === 'beds'
        ? placeKey(String(row['name']))
        : list === 'ownFigures'
          ? JSON.stringify([row['figure'], row['of'], row['part']])
          : JSON.stringify(row);
    const free = new Map<string, number[]>();
    now.forEach((row, i) => free.set(keyOf(row), [...(free.get(keyOf(row)) ?? []), i]));
    const found = new Map<number, number>();
    old.forEach((row, i) => {
      const place = free.get(keyOf(row))?.shift();
      if (place !== undefined) found.set(i, place);
      else if (list !== 'tanks' && list !== 'beds' && now[i] !== undefined && !found.has(i))
        found.set(i, i);
    });
    return found;
  };
  return (list, index) => {
    let places = known.get(list);
    if (!places) known.set(list, (places = placesOf(list)));
    return places.get(index);
  };
}
