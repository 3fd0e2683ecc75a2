import { columnLetters } from '../functions/cell-address';
import { cellAddress, fixedAddress, rowAddress, sheetInFormula } from './addresses';
import { call, Formula, joined } from './formula-parts';
import type { Area } from './workbook-model';

/** Cells of the sheet that a formula stands on. */

/** B5: moves with the formula when it is copied. */
export const cellRef = (row: number, column: number): Formula =>
  new Formula(cellAddress(row, column));

/** $B5: the column stays when the formula is copied. */
export const rowRef = (row: number, column: number): Formula =>
  new Formula(rowAddress(row, column));

/** B$5: the row stays when the formula is copied. */
export const columnRef = (row: number, column: number): Formula =>
  new Formula(`${columnLetters(column)}$${row + 1}`);

/** $B$5:$D$9 */
export const fixedRef = (area: Area): Formula => new Formula(fixedAddress(area));

/** From one cell to another. */
export const span = (from: Formula, to: Formula): Formula => new Formula(`${from.text}:${to.text}`);

/** A cell that leads to the first one of a row, and says what stands there, after a sign. */
export function linkTo(sheet: string, row: number, sign: string): Formula {
  const cell = fixedAddress({ row, column: 0, rows: 1, columns: 1 });
  // As the workbench writes it: in quotes where the name needs them.
  const there = new Formula(`${/^[a-z]+$/i.test(sheet) ? sheet : sheetInFormula(sheet)}!${cell}`);
  return call(
    'HYPERLINK',
    joined(`#${sheetInFormula(sheet)}!A`, call('ROW', there)),
    joined(sign, ' ', there),
  );
}
