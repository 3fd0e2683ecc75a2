import { GillError } from '../core/errors';
import { cellAddress, covers } from '../plan/addresses';
import type { Area, CellModel, SheetModel, WorkbookModel } from '../plan/workbook-model';
import type { ComputedValues } from '../plan/computed-values';

export type Content = number | string | boolean | GillError | undefined;

/** What every cell of a workbook shows: typed values, computed ones, and what spills over it. */
export type Contents = (sheet: string, row: number, column: number) => Content;

/** A value that must never reach a file. */
function refuse(value: Content, sheet: string, row: number, column: number): Content {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    const where = `${sheet}!${cellAddress(row, column)}`;
    throw new Error(`${where} holds ${value}, which is no number that a file can hold`);
  }
  return value;
}

/** The blocks that formulas of a sheet fill, each with the cell that it starts from. */
export function spillsOf(sheet: SheetModel): Area[] {
  const spills: Area[] = [];
  sheet.rows.forEach((row, r) =>
    row.forEach((cell, c) => {
      if (cell?.formula !== undefined && cell.spill) {
        spills.push({ row: r, column: c, ...cell.spill });
      }
    }),
  );
  return spills;
}

/** The blocks that reach into each row, so that a cell need not look at all of its sheet's. */
export function areasByRow(blocks: readonly Area[]): ReadonlyMap<number, readonly Area[]> {
  const found = new Map<number, Area[]>();
  for (const block of blocks) {
    for (let row = block.row; row < block.row + block.rows; row++) {
      const there = found.get(row);
      if (there) there.push(block);
      else found.set(row, [block]);
    }
  }
  return found;
}

export function contentsOf(model: Pick<WorkbookModel, 'sheets'>, values: ComputedValues): Contents {
  const sheets = new Map(
    model.sheets.map((sheet) => [
      sheet.name,
      { rows: sheet.rows, spillsIn: areasByRow(spillsOf(sheet)) },
    ]),
  );
  return (name, row, column) => {
    const sheet = sheets.get(name);
    if (!sheet) throw new Error(`There is no sheet called "${name}"`);
    const cell: CellModel | undefined = sheet.rows[row]?.[column];
    const isComputed =
      cell?.formula !== undefined ||
      sheet.spillsIn.get(row)?.some((area) => covers(area, row, column)) === true;
    const value = isComputed ? values(name, row, column) : cell?.value;
    return refuse(value, name, row, column);
  };
}
