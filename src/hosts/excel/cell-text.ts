import type { CellModel } from '../../plan/workbook-model';

/** Excel reads what is written to a cell as if it were typed: "3-4" would become a date. */
const PLAIN_WORDS = /^\p{L}[^\d]*$/u;
const TRUTH = /^(true|false)$/i;

/** Text as it must be written so that it stays text; an apostrophe in front is not part of the value. */
export const typedText = (text: string): string =>
  text === '' || (PLAIN_WORDS.test(text) && !TRUTH.test(text)) ? text : `'${text}`;

/** What to write into a cell: its formula or its value; "" leaves it empty. */
export function typedCell(cell: CellModel | undefined): string | number | boolean {
  if (cell?.formula !== undefined) return `=${cell.formula}`;
  const value = cell?.value ?? '';
  return typeof value === 'string' ? typedText(value) : value;
}
