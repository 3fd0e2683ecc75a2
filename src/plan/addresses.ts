import { columnLetters } from '../functions/cell-address';
import type { Area } from './workbook-model';

export { columnLetters };

/** A cell by numbers, row and column from 0. */
export interface Place {
  readonly row: number;
  readonly column: number;
}

/** A column by its letters, from 0. */
export const columnNumber = (letters: string): number =>
  [...letters.toUpperCase()].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;

export const cellAddress = (row: number, column: number): string =>
  `${columnLetters(column)}${row + 1}`;

/** "B2:D9", or "B2" for one cell. */
export function areaAddress({ row, column, rows, columns }: Area): string {
  const from = cellAddress(row, column);
  const to = cellAddress(row + rows - 1, column + columns - 1);
  return from === to ? from : `${from}:${to}`;
}

const fixed = (row: number, column: number): string => `$${columnLetters(column)}$${row + 1}`;

/** A sheet's name as it stands in a formula. */
export const sheetInFormula = (name: string): string => `'${name.replaceAll("'", "''")}'`;

/** "$B$2:$D$9": the same from every cell of its sheet. */
export function fixedAddress({ row, column, rows, columns }: Area): string {
  const from = fixed(row, column);
  const to = fixed(row + rows - 1, column + columns - 1);
  return from === to ? from : `${from}:${to}`;
}

/** "'Tanks'!$B$2:$D$9": the same from every sheet. */
export const fullAddress = (sheet: string, area: Area): string =>
  `${sheetInFormula(sheet)}!${fixedAddress(area)}`;

/** "$B5": the column stays when the formula is copied down. */
export const rowAddress = (row: number, column: number): string =>
  `$${columnLetters(column)}${row + 1}`;

export const covers = (area: Area, row: number, column: number): boolean =>
  row >= area.row &&
  row < area.row + area.rows &&
  column >= area.column &&
  column < area.column + area.columns;

export const placeAddress = ({ row, column }: Place): string => cellAddress(row, column);

const REFERENCE = /^\$?([A-Z]{1,3})\$?(\d{1,7})(?::\$?([A-Z]{1,3})\$?(\d{1,7}))?$/i;

/** "B5" or "B5:D9" without a sheet, dollars or not, as numbers; undefined where it is neither. */
export function readArea(reference: string): Area | undefined {
  const match = REFERENCE.exec(reference);
  if (!match) return undefined;
  const [, column = '', row = '', lastColumn = column, lastRow = row] = match;
  const rows = [Number(row) - 1, Number(lastRow) - 1];
  const columns = [columnNumber(column), columnNumber(lastColumn)];
  return {
    row: Math.min(...rows),
    column: Math.min(...columns),
    rows: Math.max(...rows) - Math.min(...rows) + 1,
    columns: Math.max(...columns) - Math.min(...columns) + 1,
  };
}

const ON_SHEET = /^(?:'((?:[^']|'')+)'|([^'!]+))!([^!]*)$/;

/** The sheet that a reference names, without its quotes, and what stands behind it. */
export function splitSheet(reference: string): { sheet?: string; address: string } {
  const [, quoted, bare, address] = ON_SHEET.exec(reference) ?? [];
  const sheet = quoted?.replaceAll("''", "'") ?? bare;
  return sheet === undefined || address === undefined ? { address: reference } : { sheet, address };
}
