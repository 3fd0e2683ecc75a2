import { FONT_SIZE, looks } from '../../plan/looks';
import type { Area, SheetModel } from '../../plan/model';
import type { Contents } from './content';

export const DEFAULT_WIDTH = 12;
const DEFAULT_HEIGHT = 15;
/** Bold letters against plain ones. Plain ones are narrower than the digit by which widths are counted, by
 * about as much as broken lines leave empty. */
const BOLD = 1.07;

const widthOf = (sheet: SheetModel, { column, columns }: Area): number =>
  Array.from({ length: columns }, (_, i) => sheet.columnWidths[column + i] ?? DEFAULT_WIDTH).reduce(
    (sum, width) => sum + width,
    0,
  );

/**
 * Height in points of a row that holds text over merged columns, which no spreadsheet finds by itself;
 * undefined where the spreadsheet's own choice is right.
 */
export function wrappedHeight(
  sheet: SheetModel,
  row: number,
  contents: Contents,
): number | undefined {
  const heights = sheet.merges
    .filter((area) => area.row === row && area.rows === 1)
    .map((area) => {
      const cell = sheet.rows[row]?.[area.column];
      const text = cell && String(contents(sheet.name, row, area.column) ?? '');
      if (!cell || text === undefined) return DEFAULT_HEIGHT;
      const { size = FONT_SIZE, bold } = looks[cell.look];
      const scale = (size / FONT_SIZE) * (bold ? BOLD : 1);
      const lines = text
        .split('\n')
        .map((part) => Math.max(1, Math.ceil((part.length * scale) / widthOf(sheet, area))))
        .reduce((sum, count) => sum + count, 0);
      return Math.ceil(lines * size * (DEFAULT_HEIGHT / FONT_SIZE));
    });
  const highest = Math.max(DEFAULT_HEIGHT, ...heights);
  return highest > DEFAULT_HEIGHT ? highest : undefined;
}
