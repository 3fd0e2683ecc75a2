import type { OpenSheet, SheetValue } from '../check/open-sheet';
import { displayedCalls } from '../functions/gill-calls';
import { Package } from './package';
import { readSheetCells } from './sheet-cells';
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

export function sheetsOf(file: Package, book: WorkbookParts): OpenSheet[] {
  const texts = sharedTexts(file, book.part);
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
    for (const cell of cells) {
      const value = valueOf(cell, texts);
      (values[cell.row] as SheetValue[])[cell.column] = value;
      (formulas[cell.row] as SheetValue[])[cell.column] =
        cell.formula === undefined ? value : `=${displayedCalls(cell.formula)}`;
    }
    return { name, from: 'A1', values, formulas };
  });
}
