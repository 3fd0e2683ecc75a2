import { describe, expect, it } from 'vitest';
import { countedFarm } from '../../src/experience/taken-over';
import { cellAddress, covers } from '../../src/plan/addresses';
import { planWorkbook } from '../../src/plan/plan';
import { DEFAULT_WIDTH } from '../../src/plan/row-height';
import { type Area, repeatedColumns, type SheetModel } from '../../src/plan/workbook-model';
import { sampleFarm } from '../tools/farms';
import { columnPixels } from '../tools/text-width';
import { valuesOf } from '../tools/values-of';

/** Inches of an A4 sheet between margins of half an inch, at 96 pixels an inch. */
const PAGE = { upright: (8.27 - 1) * 96, across: (11.69 - 1) * 96 };
/** Letters of 11 points are still read at half their size. */
const SMALLEST = 0.5;

/** Sheets of which something is looked up on the screen alone. */
const NOT_ALL: readonly string[] = ['Crops', 'Species', 'Week'];

/** What of a sheet is printed, each part on pages of its own. */
function partsOf({ print, rows, columnWidths, folded }: SheetModel): readonly Area[] {
  const columns = folded?.column ?? Math.max(columnWidths.length, ...rows.map((row) => row.length));
  return print.areas ?? [{ row: 0, column: 0, rows: rows.length, columns }];
}

const within = (part: Area, { row, column, rows, columns }: Area): boolean =>
  covers(part, row, column) && covers(part, row + rows - 1, column + columns - 1);

const meets = (part: Area, { row, column, rows, columns }: Area): boolean =>
  row < part.row + part.rows &&
  part.row < row + rows &&
  column < part.column + part.columns &&
  part.column < column + columns;

/** Whether a cell stands among the rows that the pages of a part repeat above it. */
const repeats = ({ print }: SheetModel, part: Area, row: number, column: number): boolean => {
  const from = print.headFrom ?? 0;
  return (
    row >= from &&
    row < Math.min(from + print.headRows, part.row) &&
    column >= part.column &&
    column < part.column + part.columns
  );
};

/** How much smaller the part is printed, the columns beside it that are repeated on its pages included. */
function scaleOf(sheet: SheetModel, part: Area): number {
  const repeated = repeatedColumns(sheet);
  const columns = [
    ...Array.from({ length: part.column > 0 ? repeated : 0 }, (_, i) => i),
    ...Array.from({ length: part.columns }, (_, i) => part.column + i),
  ];
  const pixels = columns.reduce(
    (sum, column) => sum + columnPixels(sheet.columnWidths[column] ?? DEFAULT_WIDTH),
    0,
  );
  return Math.min(1, PAGE[sheet.print.landscape ? 'across' : 'upright'] / pixels);
}

describe.each(['quillwater', 'larkfield-school', 'aldermoor-springs'] as const)('%s', (name) => {
  const model = planWorkbook(countedFarm(sampleFarm(name)), { formulas: 'plain' });
  const values = valuesOf(model);

  it('tears no chart and no text over several cells at the end of a printed part', () => {
    for (const sheet of model.sheets) {
      const parts = partsOf(sheet);
      for (const block of [...sheet.merges, ...sheet.charts.map(({ place }) => place)]) {
        const torn = parts.filter((part) => meets(part, block) && !within(part, block));
        expect(torn, `${sheet.name}!${cellAddress(block.row, block.column)}`).toEqual([]);
      }
      for (const { place, title } of sheet.charts)
        expect(
          parts.some((part) => within(part, place)),
          `${sheet.name}: ${title}`,
        ).toBe(true);
    }
  });

  it('prints all that shows something, but for ranges and sources of the tables and what Week counts with', () => {
    for (const sheet of model.sheets.filter((one) => !NOT_ALL.includes(one.name))) {
      const parts = partsOf(sheet);
      const end = sheet.folded?.column ?? Infinity;
      const missing = sheet.rows.flatMap((cells, row) =>
        cells.flatMap((cell, column) =>
          cell &&
          column < end &&
          (values(sheet.name, row, column) ?? '') !== '' &&
          !parts.some((part) => covers(part, row, column) || repeats(sheet, part, row, column))
            ? [cellAddress(row, column)]
            : [],
        ),
      );
      expect(missing, sheet.name).toEqual([]);
    }
  });

  it('prints nothing smaller than half its size', () => {
    for (const sheet of model.sheets) {
      for (const part of partsOf(sheet)) {
        expect(scaleOf(sheet, part), `${sheet.name} ${part.column}`).toBeGreaterThan(SMALLEST);
      }
    }
  });
});
