import type { OpenSheet, SheetValue } from '../check/open-sheet';
import { displayedCalls } from '../functions/gill-calls';
import { placeAddress } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { withPlainRanges } from './file-formula';
import { atOnce, partly, type Steps } from '../plan/in-steps';
import { Package } from './package';
import { readStyles } from './read-styles';
import { eachRow, type SheetCell } from './sheet-cells';
import { sharedTexts, valueOf } from './stored-cell';
import { UnreadableFile } from './unreadable-file';
import { readWorkbookParts, type WorkbookParts } from './workbook-parts';

/** Sheets larger than this are no records of a farm. */
const MAX_CELLS = 2_000_000;

/** Every sheet of an .xlsx file as the checks read it. Throws UnreadableFile with a sentence. */
export function openSheets(bytes: Uint8Array): OpenSheet[] {
  const file = Package.open(bytes);
  return sheetsOf(file, readWorkbookParts(file));
}

interface Reading {
  /** With the blocks that formulas fill, the number formats, and formulas whose references are all plain ranges. */
  readonly traced?: boolean;
}

export const sheetsOf = (file: Package, book: WorkbookParts, reading?: Reading): OpenSheet[] =>
  atOnce(readingSheets(file, book, reading));

/** As `sheetsOf`, in steps. */
export function* readingSheets(
  file: Package,
  book: WorkbookParts,
  { traced = false }: Reading = {},
): Steps<OpenSheet[]> {
  const texts = sharedTexts(file, book.part);
  const styles = traced ? readStyles(file, book.part).cells : [];
  const sheets: OpenSheet[] = [];
  for (const [n, { name, part }] of book.sheets.entries()) {
    const values: SheetValue[][] = [];
    const formulas: SheetValue[][] = [];
    let width = 0;
    const blocks: Area[] = [];
    const formats = new Map<string, string>();
    const asTyped = (formula: string, cell: SheetCell): string =>
      `=${displayedCalls(traced ? withPlainRanges(formula, name, cell, book) : formula)}`;
    const look = (cell: SheetCell): void => {
      const value = valueOf(cell, texts);
      // Cells that were only coloured in may reach to the end of the sheet.
      if (cell.formula === undefined && value === '') return;
      const { row, column } = cell;
      width = Math.max(width, column + 1);
      (values[row] ??= [])[column] = value;
      (formulas[row] ??= [])[column] =
        cell.formula === undefined ? value : asTyped(cell.formula, cell);
      if (!traced) return;
      if (cell.area && cell.area.rows * cell.area.columns > 1) blocks.push(cell.area);
      const format = styles[Number(cell.element.attributes['s'] ?? 0)]?.format;
      if (format !== undefined) formats.set(placeAddress(cell), format);
    };
    const rows = eachRow(file, part, ({ cells }) => cells.forEach(look));
    yield* partly(rows, n / book.sheets.length, (n + 1) / book.sheets.length);
    file.forget(part);
    const height = values.length;
    // Where cells stray far out, lines end with their last cell.
    const isStray = height * width > MAX_CELLS;
    const filled = values.reduce((sum, line) => sum + line.length, 0);
    if (isStray && filled > MAX_CELLS) {
      throw new UnreadableFile(
        `The sheet "${name}" spreads over ${height} lines and ${width} columns, more than can be checked; clear the stray cells far out.`,
      );
    }
    const blank: SheetValue[] = [];
    const whole = (rows: SheetValue[][]): SheetValue[][] =>
      Array.from({ length: height }, (_, row) => {
        const line = rows[row];
        if (isStray && !line) return blank;
        const length = isStray ? (line?.length ?? 0) : width;
        return Array.from({ length }, (__, column) => line?.[column] ?? '');
      });
    sheets.push({
      name,
      from: 'A1',
      values: whole(values),
      formulas: whole(formulas),
      ...(traced && { blocks, formats }),
    });
  }
  return sheets;
}
