/** How full each tank gets through the year, as the Tank year sheet of a workbook has it. */
import type { Cells } from './book-snapshot';
import { placeKey } from './registers-of-farm';

export interface TankYear {
  readonly sheet: string;
  readonly tanks: readonly {
    readonly name: string;
    /** kg/m3, as the Tanks sheet has it; undefined where it knows none. */
    readonly limit: number | undefined;
    /** In the farm's units, a week after the other from the day of the plan on; undefined where the sheet shows none. */
    readonly density: readonly (number | undefined)[];
  }[];
}

const numberIn = (value: unknown): number | undefined =>
  typeof value === 'number' && Number.isFinite(value) ? value : undefined;

/** `names`: of the farm's tanks. Undefined where the workbook has no such sheet or shows nothing there. */
export function tankYearOf(
  cells: Cells,
  names: readonly string[],
  suffix = '',
): TankYear | undefined {
  const weeks = cells.name(`Ahead_feed${suffix}`);
  const known = cells.name(`Tanks_name${suffix}`);
  const limits = cells.name(`Tanks_limit${suffix}`);
  if (!weeks || !known || !limits) return undefined;
  const { sheet, area } = weeks;
  const columns = new Map<string, number>();
  for (let column = area.column - 1; column >= 0; column--) {
    const { value } = cells.at({ sheet, row: area.row - 1, column });
    if (typeof value === 'string' && value !== '') columns.set(placeKey(value), column);
  }
  const limitOf = new Map<string, number | undefined>();
  for (let i = 0; i < known.area.rows; i++) {
    const at = (name: typeof known) =>
      cells.at({ sheet: name.sheet, row: name.area.row + i, column: name.area.column }).value;
    limitOf.set(placeKey(String(at(known))), numberIn(at(limits)));
  }
  const tanks = names.flatMap((name) => {
    const column = columns.get(placeKey(name));
    if (column === undefined) return [];
    const density = Array.from({ length: area.rows }, (_, week) =>
      numberIn(cells.at({ sheet, row: area.row + week, column }).value),
    );
    return [{ name, limit: limitOf.get(placeKey(name)), density }];
  });
  const isShown = tanks.some(({ density }) => density.some((value) => value !== undefined));
  return isShown ? { sheet, tanks } : undefined;
}
