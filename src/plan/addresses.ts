import { columnLetters } from '../functions/cell-address';
import type { Area } from './model';

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
