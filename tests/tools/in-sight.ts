import { DEFAULT_WIDTH, wrappedHeight } from '../../src/plan/row-height';
import type { ComputedValues } from '../../src/plan/computed-values';
import type { SheetModel } from '../../src/plan/workbook-model';
import { columnPixels } from './text-width';

/** Pixels of a row that holds one line of text. */
const LINE = 20;
const PIXELS_PER_POINT = 96 / 72;

/** How much of a screen the rows and columns take that stay in sight, in pixels. */
export function inSight(
  sheet: SheetModel,
  values: ComputedValues,
): { readonly height: number; readonly width: number } {
  const rows = Array.from({ length: sheet.frozen.rows }, (_, row) =>
    Math.max(LINE, (wrappedHeight(sheet, row, values) ?? 0) * PIXELS_PER_POINT),
  );
  const columns = Array.from({ length: sheet.frozen.columns }, (_, column) =>
    columnPixels(sheet.columnWidths[column] ?? DEFAULT_WIDTH),
  );
  const sum = (sizes: readonly number[]): number => sizes.reduce((all, one) => all + one, 0);
  return { height: sum(rows), width: sum(columns) };
}

/** How far from the left, in pixels, figures end that stand beside labels in the first column; 0 where none do. */
export function figuresEnd(sheet: SheetModel): number {
  const beside = sheet.rows.some(
    ([label, figure]) =>
      label?.look === 'label' &&
      figure !== undefined &&
      ['computed', 'result'].includes(figure.look),
  );
  if (!beside || sheet.frozen.columns > 0) return 0;
  return [0, 1].reduce(
    (sum, column) => sum + columnPixels(sheet.columnWidths[column] ?? DEFAULT_WIDTH),
    0,
  );
}
