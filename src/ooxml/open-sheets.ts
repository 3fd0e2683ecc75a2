import type { OpenSheet, SheetValue } from '../check/open-sheet';
import { displayedCalls } from '../functions/gill-calls';
import { placeAddress } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { withPlainRanges } from './file-formula';
import { Package } from './package';
import { readStyles } from './read-styles';
import { readSheetCells, type SheetCell } from './sheet-cells';
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

export function sheetsOf(
  file: Package,
  book: WorkbookParts,
  { traced = false }: Reading = {},
): OpenSheet[] {
  const texts = sharedTexts(file, book.part);
  const styles = traced ? readStyles(file, book.part).cells : [];
  return book.sheets.map(({ name, part }) => {
    const { rows } = readSheetCells(file, part);
    // Cells that were only coloured in may reach to the end of the sheet.
    const cells = rows
      .flatMap((row) => row.cells)
      .filter((cell) => cell.formula !== undefined || valueOf(cell, texts) !== '');
    const height = cells.reduce((most, cell) => Math.max(most, cell.row + 1), 0);
    const width = cells.reduce((most, cell) => Math.max(most, cell.column + 1), 0);
    if (height * width > MAX_CELLS) {
      throw new UnreadableFile(
        `The sheet "${name}" spreads over ${height} lines and ${width} columns, more than can be checked; clear the stray cells far out.`,
      );
    }
    const values: SheetValue[][] = Array.from({ length: height }, () =>
      Array<SheetValue>(width).fill(''),
    );
    const formulas = values.map((row) => [...row]);
    const blocks: Area[] = [];
    const formats = new Map<string, string>();
    const asTyped = (formula: string, cell: SheetCell): string =>
      `=${displayedCalls(traced ? withPlainRanges(formula, name, cell, book) : formula)}`;
    for (const cell of cells) {
      const value = valueOf(cell, texts);
      (values[cell.row] as SheetValue[])[cell.column] = value;
      (formulas[cell.row] as SheetValue[])[cell.column] =
        cell.formula === undefined ? value : asTyped(cell.formula, cell);
      if (!traced) continue;
      if (cell.area && cell.area.rows * cell.area.columns > 1) blocks.push(cell.area);
      const format = styles[Number(cell.element.attributes['s'] ?? 0)]?.format;
      if (format !== undefined) formats.set(placeAddress(cell), format);
    }
    return { name, from: 'A1', values, formulas, ...(traced && { blocks, formats }) };
  });
}
