import { cellAddress, covers } from '../../src/plan/addresses';
import { FONT_SIZE, looks } from '../../src/plan/looks';
import { DEFAULT_WIDTH } from '../../src/plan/row-height';
import type { CellModel, SheetModel } from '../../src/plan/workbook-model';
import { columnPixels, textWidth } from './text-width';

/** What a reader of the grid does not see whole. */

/** Pixels that a cell keeps between its text and its edges, and those of an indent. */
const EDGE = 3;
const INDENT = 9;

/** A number as its format shows it; undefined where the format makes it as long as there is room. */
function shown(value: number, format: CellModel['format'] = 'general'): string | undefined {
  const fixed = (digits: number): string =>
    value.toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits });
  switch (format) {
    case 'whole':
      return fixed(0);
    case 'one':
      return fixed(1);
    case 'two':
    case 'money':
      return fixed(2);
    case 'three':
      return fixed(3);
    case 'percent':
      return `${Math.round(value * 100)} %`;
    case 'date':
      return '2026-03-08';
    default:
      return undefined;
  }
}

/** Lines of a text in so many pixels, its words unbroken. */
function linesIn(text: string, pixels: number, points: number, bold: boolean): number {
  const space = textWidth(' ', points, bold);
  return text.split('\n').reduce((sum, part) => {
    let lines = 1;
    let used = 0;
    for (const word of part.split(' ')) {
      const width = textWidth(word, points, bold);
      if (used > 0 && used + space + width > pixels) {
        lines += 1;
        used = width;
      } else used += (used > 0 ? space : 0) + width;
    }
    return sum + lines;
  }, 0);
}

/**
 * Cells that show less than they hold: texts that meet a filled cell or the edge of what stays in sight, texts over
 * merged cells that need more lines than there are, and numbers too wide for their column.
 */
export function cutOff(
  sheet: SheetModel,
  valueOf: (row: number, column: number) => unknown,
): string[] {
  const end = sheet.folded?.column ?? Infinity;
  const pixelsOf = (from: number, columns: number): number =>
    Array.from({ length: columns }, (_, i) =>
      columnPixels(sheet.columnWidths[from + i] ?? DEFAULT_WIDTH),
    ).reduce((sum, one) => sum + one, 0) -
    2 * EDGE;
  return sheet.rows.flatMap((cells, row) =>
    cells.flatMap((cell, column) => {
      const value = cell && column < end ? valueOf(row, column) : undefined;
      if (!cell || value === undefined || value === '') return [];
      const { size = FONT_SIZE, bold = false, wrap, indent } = looks[cell.look];
      const text = typeof value === 'string' ? value : undefined;
      const merged = sheet.merges.find((area) => covers(area, row, column));
      const told = `${sheet.name}!${cellAddress(row, column)}: ${String(value)}`;
      if (text === undefined) {
        const number = typeof value === 'number' ? shown(value, cell.format) : undefined;
        const room = pixelsOf(column, merged?.columns ?? 1) + 2 * EDGE;
        return number !== undefined && textWidth(number, size, bold) > room ? [told] : [];
      }
      const inset = indent ? INDENT : 0;
      if (merged) {
        // Constant texts over one row get the height that they need; a formula's are not known before.
        if (merged.rows === 1 && cell.formula === undefined) return [];
        const room = pixelsOf(column, merged.columns) - inset;
        return linesIn(text, room, size, bold) > merged.rows ? [told] : [];
      }
      if (wrap) {
        // A single word that is wider than its column is broken, wherever it ends.
        const widest = Math.max(...text.split(/\s/).map((word) => textWidth(word, size, bold)));
        return widest > pixelsOf(column, 1) - inset + 2 * EDGE ? [`${told} (a word)`] : [];
      }
      const isEmpty = (c: number): boolean => {
        const beside = valueOf(row, c);
        return beside === undefined || beside === '';
      };
      // A frozen column cuts off what runs over its edge.
      const edge = column < sheet.frozen.columns ? sheet.frozen.columns : end;
      let columns = 1;
      while (columns < 40 && column + columns < edge && isEmpty(column + columns)) columns += 1;
      return textWidth(text, size, bold) > pixelsOf(column, columns) - inset + EDGE ? [told] : [];
    }),
  );
}
