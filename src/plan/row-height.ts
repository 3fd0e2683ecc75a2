import { FONT_SIZE, looks } from './looks';
import { covers } from './addresses';
import type { Area, SheetModel } from './workbook-model';
import type { ComputedValues } from './computed-values';

export const DEFAULT_WIDTH = 12;
const DEFAULT_HEIGHT = 15;
/** Bold letters against plain ones. */
const BOLD = 1.07;

const widthOf = (sheet: SheetModel, { column, columns }: Area): number =>
  Array.from({ length: columns }, (_, i) => sheet.columnWidths[column + i] ?? DEFAULT_WIDTH).reduce(
    (sum, width) => sum + width,
    0,
  );

/** Lines that words take in `width` characters, a word never broken. */
function linesOf(text: string, width: number): number {
  let lines = 1;
  let used = 0;
  for (const word of text.split(' ')) {
    if (used > 0 && used + 1 + word.length > width) {
      lines += 1;
      used = word.length;
    } else used += (used > 0 ? 1 : 0) + word.length;
  }
  return lines;
}

/** Where the text of a row breaks into lines: over one row of merged columns, or in one cell by its look. */
function wrappedAreas(sheet: SheetModel, row: number): Area[] {
  const single = (sheet.rows[row] ?? []).flatMap((cell, column): Area[] => {
    if (!cell || looks[cell.look].wrap !== true) return [];
    const isMerged = sheet.merges.some((area) => covers(area, row, column));
    return isMerged ? [] : [{ row, column, rows: 1, columns: 1 }];
  });
  return [...single, ...sheet.merges.filter((area) => area.row === row && area.rows === 1)];
}

/**
 * Height in points of a row whose text breaks into several lines, which not every spreadsheet finds by
 * itself; undefined where one line is enough.
 */
export function wrappedHeight(
  sheet: SheetModel,
  row: number,
  contents: ComputedValues,
): number | undefined {
  const heights = wrappedAreas(sheet, row).map((area) => {
    const cell = sheet.rows[row]?.[area.column];
    const content = cell && contents(sheet.name, row, area.column);
    if (!cell || typeof content !== 'string') return DEFAULT_HEIGHT;
    const { size = FONT_SIZE, bold } = looks[cell.look];
    const scale = (size / FONT_SIZE) * (bold ? BOLD : 1);
    const lines = content
      .split('\n')
      .map((part) => linesOf(part, widthOf(sheet, area) / scale))
      .reduce((sum, count) => sum + count, 0);
    return Math.ceil(lines * size * (DEFAULT_HEIGHT / FONT_SIZE));
  });
  const least = (sheet.minLines?.[row] ?? 1) * DEFAULT_HEIGHT;
  const highest = Math.max(least, ...heights);
  return highest > DEFAULT_HEIGHT ? highest : undefined;
}
