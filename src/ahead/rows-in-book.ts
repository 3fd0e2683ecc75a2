/** Rows of the planner into the registers of a planning workbook and out of them, cell by cell. */
import type { Farm, FishLogEntry, PlantingEntry } from '../plan/farm';
import { toShown } from '../plan/quantities';
import type { BookReading, TypedPlace } from '../plan/read-book';
import type { RowPlaces } from './planner-rows';
import type { WrittenRows } from './written-rows';

type List = 'fishLog' | 'plantings';
type Line = ReadonlyMap<string, TypedPlace>;

export interface TypedChange {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  /** Undefined where the cell is emptied. */
  readonly value: string | number | undefined;
}

export interface BookChange {
  readonly cells: readonly TypedChange[];
  /** For each register the rows that found no line in it; the first of them in their order are in. */
  readonly left: Readonly<Record<List, number>>;
}

/** The cells of a row that is there. */
function lineOf({ places }: Pick<BookReading, 'places'>, list: List, at: number): Line {
  const start = `${list}[${at}].`;
  return new Map(
    [...places].flatMap(([path, place]) =>
      path.startsWith(start) ? [[path.slice(start.length), place] as const] : [],
    ),
  );
}

const rowOfLine = (line: Line): number => [...line.values()][0]?.row ?? Infinity;

/**
 * Which cells change. Lines of rows that go take the first of the new rows, the free ones below the last typed row
 * the others; `room` says how many lines of a register, counted from its first free one, can be written to.
 */
export function bookChange(
  reading: Pick<BookReading, 'places' | 'free'>,
  farm: Farm,
  gone: RowPlaces,
  rows: WrittenRows,
  { dayShift = 0 }: { readonly dayShift?: number | undefined } = {},
): BookChange {
  const cells: TypedChange[] = [];
  const left = { fishLog: 0, plantings: 0 };
  const valueFor = (
    row: FishLogEntry | PlantingEntry,
    field: string,
    place: TypedPlace,
  ): string | number | undefined => {
    const value = (row as Readonly<Record<string, string | number | undefined>>)[field];
    if (typeof value !== 'number') return value;
    if (place.holds === 'date') return value - dayShift;
    return place.quantity === undefined ? value : toShown(value, place.quantity, farm.units);
  };
  for (const list of ['fishLog', 'plantings'] as const) {
    const emptied = gone[list].map((at) => lineOf(reading, list, at));
    const lines = [...emptied, ...(reading.free.get(list) ?? [])].sort(
      (a, b) => rowOfLine(a) - rowOfLine(b),
    );
    const wanted = rows[list];
    left[list] = Math.max(0, wanted.length - lines.length);
    lines.forEach((line, at) => {
      const row = wanted[at];
      if (row === undefined && !emptied.includes(line)) return;
      for (const [field, place] of line) {
        const { sheet, row: line, column } = place;
        const value = row && valueFor(row, field, place);
        // A prepared cell that stays empty is no change.
        if (value === undefined && place.value === '') continue;
        cells.push({ sheet, row: line, column, value });
      }
    });
  }
  return { cells, left };
}
