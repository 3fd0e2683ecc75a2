import { columnLetters } from '../functions/cell-address';
import { areaAddress, cellAddress } from '../plan/addresses';

/** Cell addresses as numbers, rows and columns from 0. */
export interface Place {
  readonly row: number;
  readonly column: number;
}
export interface Block extends Place {
  readonly rows: number;
  readonly columns: number;
}

export { columnLetters };
export const addressOf = ({ row, column }: Place): string => cellAddress(row, column);

export const columnNumber = (letters: string): number =>
  [...letters.toUpperCase()].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;

/** "B5" or "B5:D9" (dollars ignored) as a block; undefined where it is neither. */
export function blockOf(reference: string): Block | undefined {
  const match = /^\$?([A-Za-z]{1,3})\$?(\d{1,7})(?::\$?([A-Za-z]{1,3})\$?(\d{1,7}))?$/.exec(
    reference,
  );
  if (!match) return undefined;
  const row = Number(match[2]) - 1;
  const column = columnNumber(match[1] ?? '');
  const lastRow = match[4] ? Number(match[4]) - 1 : row;
  const lastColumn = match[3] ? columnNumber(match[3]) : column;
  return {
    row: Math.min(row, lastRow),
    column: Math.min(column, lastColumn),
    rows: Math.abs(lastRow - row) + 1,
    columns: Math.abs(lastColumn - column) + 1,
  };
}

export const referenceOf = (block: Block): string => areaAddress(block);

/** A sheet name as it stands in a formula, in quotes where it needs them. */
export const sheetInFormula = (name: string): string =>
  /^[\p{L}_][\p{L}\d_.]*$/u.test(name) &&
  !/^[A-Za-z]{1,3}\d+$/.test(name) &&
  !/^r\d*c\d*$/i.test(name)
    ? name
    : `'${name.replaceAll("'", "''")}'`;
