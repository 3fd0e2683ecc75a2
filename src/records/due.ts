/** What is due: planned rows whose day has come or comes by Sunday, and the tasks that the sheets give beds and crops. */
import { isoText, isoWeekday } from '../core/serial-date';
import type { CellPlace, Cells } from '../plan/book-snapshot';
import type { Farm } from '../plan/farm';
import { toShown } from '../plan/quantities';
import type { HappeningId } from './happenings';
import { type Entries, rowMark } from './note';

/** A planned row that wants an answer. */
export interface DueRow {
  readonly list: 'fishLog' | 'plantings';
  readonly at: number;
  readonly date: number;
  readonly says: string;
  /** What is noted down where it was done otherwise. */
  readonly happening: HappeningId;
  readonly entries: Entries;
}

/** Something to do that no row plans: noting it down is its answer. */
export interface DueTask {
  readonly says: string;
  readonly happening: HappeningId;
  readonly entries: Entries;
}

/** The Sunday of the week of the plan. */
export const sundayOf = ({ asOf }: Pick<Farm, 'asOf'>): number => asOf - isoWeekday(asOf) + 7;

const text = (value: number | undefined): string | undefined =>
  value === undefined ? undefined : String(value);

/** Planned rows that are due, by day and then by row, those of the fish first: as Week lists them. */
export function dueRows(farm: Farm): DueRow[] {
  const sunday = sundayOf(farm);
  const fish = farm.fishLog.flatMap((row, at): DueRow[] => {
    const { date, tank, what, fish: count, weight, toTank, planned } = row;
    if (planned !== 'planned' || date > sunday) return [];
    return [
      {
        list: 'fishLog',
        at,
        date,
        says: `${isoText(date)}: ${what}${count === undefined ? '' : ` ${count}`}, ${tank.trim()}${toTank === undefined ? '' : ` to ${toTank.trim()}`}`,
        happening: what,
        entries: {
          tank,
          toTank,
          fish: text(count),
          ...(weight !== undefined &&
            what !== 'weighed' && {
              weight: String(toShown(weight, 'fishWeight', farm.units)),
            }),
        },
      },
    ];
  });
  const plants = farm.plantings.flatMap((row, at): DueRow[] => {
    const { crop, bed, sown, planted, planned, seeds, plants: count, batch } = row;
    const begins = sown ?? planted;
    if (planned !== 'planned' || begins === undefined || begins > sunday) return [];
    return [
      {
        list: 'plantings',
        at,
        date: begins,
        says: `${isoText(begins)}: ${sown === undefined ? 'plant out' : 'sow'} ${crop}${bed === undefined ? '' : `, ${bed.trim()}`}`,
        happening: sown === undefined ? 'planted' : 'sown',
        entries:
          sown === undefined
            ? { batch: rowMark(at), bed, plants: text(count) }
            : { crop, bed, batch, seeds: text(seeds) },
      },
    ];
  });
  const byDay = (a: DueRow, b: DueRow): number => a.date - b.date || a.at - b.at;
  return [...fish.sort(byDay), ...plants.sort(byDay)];
}

const tasks = {
  clear: ['cleared', 'clear'],
  cut: ['cut', 'cut'],
  'plant out': ['planted', 'plant out'],
} as const satisfies Readonly<Record<string, readonly [HappeningId, string]>>;

/** Cells of a column by its name, from its first row on until `count`. */
function column(cells: Cells, name: string, suffix: string, count: number): CellPlace[] {
  const found = cells.name(name + suffix);
  if (!found) return [];
  const { sheet, area } = found;
  return Array.from({ length: Math.min(count, area.rows) }, (_, i) => ({
    sheet,
    row: area.row + i,
    column: area.column,
  }));
}

/** What the Beds and Sowing sheets ask for by Sunday. */
export function dueTasks(farm: Farm, cells: Cells, suffix = ''): DueTask[] {
  const value = (place: CellPlace | undefined): string | number | boolean =>
    place === undefined ? '' : cells.at(place).value;
  const rows = farm.beds.length + 40;
  const names = column(cells, 'Beds_name', suffix, rows);
  const codes = column(cells, 'Beds_task_code', suffix, rows);
  const crops = column(cells, 'Beds_crop', suffix, rows);
  const beds = codes.flatMap((place, i): DueTask[] => {
    const code = String(value(place));
    if (!(code in tasks)) return [];
    const [happening, verb] = tasks[code as keyof typeof tasks];
    const bed = String(value(names[i]));
    const crop = String(value(crops[i]));
    const waiting =
      happening === 'planted'
        ? farm.plantings.findIndex(
            (row) =>
              row.planned === undefined &&
              row.planted === undefined &&
              row.crop === crop &&
              row.bed?.trim() === bed,
          )
        : -1;
    return [
      {
        says: `${bed}: ${verb} ${crop}`,
        happening,
        entries: {
          bed,
          ...(waiting >= 0 && {
            batch: rowMark(waiting),
            plants: text(farm.plantings[waiting]?.plants),
          }),
        },
      },
    ];
  });
  const sunday = sundayOf(farm);
  const markets = farm.markets.length + 20;
  const sowing = column(cells, 'Sowing_next', suffix, markets);
  const sown = column(cells, 'Sowing_crop', suffix, markets);
  const seeds = column(cells, 'Sowing_seeds', suffix, markets);
  const toSow = sowing.flatMap((place, i): DueTask[] => {
    const day = value(place);
    const many = value(seeds[i]);
    if (typeof day !== 'number' || day <= 0 || day + (cells.dayShift ?? 0) > sunday) return [];
    const crop = String(value(sown[i]));
    return [
      {
        says: `Sow ${crop} by ${isoText(day + (cells.dayShift ?? 0))}${typeof many === 'number' ? `, ${Math.round(many)} seeds` : ''}`,
        happening: 'sown',
        entries: { crop, ...(typeof many === 'number' && { seeds: String(Math.round(many)) }) },
      },
    ];
  });
  return [...beds, ...toSow];
}
