import { columnNumber } from '../plan/addresses';

/** Letters of any script, figures, "_", "." and what else a name of cells may hold (ECMA-376, part 1, 18.2.5). */
const NAME = /^[\p{L}_\\][\p{L}\p{M}\p{N}_.\\?]{0,254}$/u;
const CELL = /^([A-Z]{1,3})(\d{1,7})$/i;
const ROW_AND_COLUMN = /^(?:R\d*(?:C\d*)?|C\d*)$/i;

function isCell(name: string): boolean {
  const [, letters, digits] = CELL.exec(name) ?? [];
  if (letters === undefined || digits === undefined) return false;
  const row = Number(digits);
  return columnNumber(letters) < 16_384 && row >= 1 && row <= 1_048_576;
}

/** Whether a spreadsheet takes a text as the name of cells or of a table. */
export const isExcelName = (name: string): boolean =>
  NAME.test(name) && !isCell(name) && !ROW_AND_COLUMN.test(name) && !/^(?:TRUE|FALSE)$/i.test(name);
