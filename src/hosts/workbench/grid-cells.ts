import { helpers, type CellPosition, type Model } from '@odoo/o-spreadsheet';
import { cellAddress } from '../../plan/addresses';
import type { Area } from '../../plan/workbook-model';

export type CellContent = number | string | boolean;

/** The block that a zone of the engine covers. */
export const areaOf = (zone: ReturnType<typeof helpers.toZone>): Area => ({
  row: zone.top,
  column: zone.left,
  rows: zone.bottom - zone.top + 1,
  columns: zone.right - zone.left + 1,
});

/** What a cell shows: its value, an error's code, empty text for a blank. */
export const shownValue = (model: Model, position: CellPosition): CellContent =>
  model.getters.getEvaluatedCell(position).value ?? '';

/** A formula with its "=", otherwise the value; what a spill put into a cell is a value. */
export function typedContent(model: Model, position: CellPosition): CellContent {
  const cell = model.getters.getCell(position);
  return cell?.isFormula
    ? cell.compiledFormula.toFormulaString(model.getters)
    : shownValue(model, position);
}

/** The smallest block with every cell that holds or shows something; undefined for an empty sheet. */
export function usedArea(model: Model, sheetId: string): Area | undefined {
  let [top, left, bottom, right] = [Infinity, Infinity, -1, -1];
  for (const position of model.getters.getEvaluatedCellsPositions(sheetId)) {
    const { row, col } = position;
    if (row >= top && row <= bottom && col >= left && col <= right) continue;
    if (model.getters.getEvaluatedCell(position).value === null) continue;
    top = Math.min(top, row);
    left = Math.min(left, col);
    bottom = Math.max(bottom, row);
    right = Math.max(right, col);
  }
  return bottom < 0
    ? undefined
    : { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}

/** The part that two blocks share. */
export function overlap(a: Area, b: Area): Area | undefined {
  const row = Math.max(a.row, b.row);
  const column = Math.max(a.column, b.column);
  const rows = Math.min(a.row + a.rows, b.row + b.rows) - row;
  const columns = Math.min(a.column + a.columns, b.column + b.columns) - column;
  return rows > 0 && columns > 0 ? { row, column, rows, columns } : undefined;
}

/** Rows of whatever `read` gives for the cells of a block. */
export const readArea = <T>(
  sheetId: string,
  area: Area,
  read: (position: CellPosition) => T,
): T[][] =>
  Array.from({ length: area.rows }, (_, r) =>
    Array.from({ length: area.columns }, (_, c) =>
      read({ sheetId, row: area.row + r, col: area.column + c }),
    ),
  );

/** Every cell of the zones that carry an entry, by address. */
export function spread<T>(
  zones: Record<string, number>,
  entries: Record<number, T>,
): Map<string, T> {
  const cells = new Map<string, T>();
  for (const [zone, id] of Object.entries(zones)) {
    const { top, left, bottom, right } = helpers.toZone(zone);
    const entry = entries[id] as T;
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) cells.set(cellAddress(row, column), entry);
    }
  }
  return cells;
}
