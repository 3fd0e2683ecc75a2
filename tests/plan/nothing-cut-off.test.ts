import { describe, expect, it } from 'vitest';
import { computedValues } from '../../src/engine/engine';
import { cellAddress, covers } from '../../src/plan/addresses';
import { FONT_SIZE, looks } from '../../src/plan/looks';
import { planWorkbook } from '../../src/plan/plan';
import { DEFAULT_WIDTH } from '../../src/plan/row-height';
import type { SheetModel } from '../../src/plan/workbook-model';
import { sampleFarm } from '../tools/farms';

/** Small letters are narrower than the figures by which widths are counted. */
const NARROW = 1.12;

/** Lines of `text` in so many characters, its words unbroken. */
function linesIn(text: string, characters: number): number {
  let lines = 1;
  let used = 0;
  for (const word of text.split(' ')) {
    const next = used === 0 ? word.length : used + 1 + word.length;
    if (used > 0 && next > characters) {
      lines += 1;
      used = word.length;
    } else used = next;
  }
  return lines;
}

/** Texts that a reader of the grid does not see whole: those that meet a filled cell, or need more lines than they have. */
function cutOff(sheet: SheetModel, valueOf: (row: number, column: number) => unknown): string[] {
  const end = sheet.folded?.column ?? Infinity;
  const widthOf = (from: number, columns: number): number =>
    Array.from({ length: columns }, (_, i) => sheet.columnWidths[from + i] ?? DEFAULT_WIDTH).reduce(
      (sum, one) => sum + one,
      0,
    );
  return sheet.rows.flatMap((cells, row) =>
    cells.flatMap((cell, column) => {
      const text = cell && column < end ? valueOf(row, column) : undefined;
      if (!cell || typeof text !== 'string' || text === '') return [];
      const { size = FONT_SIZE, bold, wrap } = looks[cell.look];
      const scale = (size / FONT_SIZE) * (bold ? 1.07 : 1);
      const at = `${sheet.name}!${cellAddress(row, column)}: ${text}`;
      const merged = sheet.merges.find((area) => covers(area, row, column));
      if (merged) {
        // Constant texts over one row get the height that they need; a formula's are not known before.
        if (merged.rows === 1 && cell.formula === undefined) return [];
        const lines = linesIn(text, (widthOf(column, merged.columns) * NARROW) / scale);
        return lines > merged.rows ? [at] : [];
      }
      if (wrap) return [];
      const isEmpty = (c: number): boolean => {
        const value = valueOf(row, c);
        return value === undefined || value === '';
      };
      // A frozen column cuts off what runs over its edge.
      const edge = column < sheet.frozen.columns ? sheet.frozen.columns : end;
      let columns = 1;
      while (columns < 40 && column + columns < edge && isEmpty(column + columns)) columns += 1;
      return text.length * scale > widthOf(column, columns) * NARROW + 1 ? [at] : [];
    }),
  );
}

describe('no text is cut off on the grid', () => {
  const model = planWorkbook(sampleFarm('quillwater'), { formulas: 'live' });
  const values = computedValues(model);
  // Remarks and sources of each crop and fish stand behind their figures, to be read in their cell.
  const sheets = model.sheets.filter(({ name }) => name !== 'Crops' && name !== 'Species');
  it.each(sheets.map((sheet) => [sheet.name, sheet] as const))('%s', (name, sheet) => {
    expect(cutOff(sheet, (row, column) => values(name, row, column))).toEqual([]);
  });

  it('and a text cut off by a filled cell would be noticed', () => {
    const [sheet] = sheets as [SheetModel];
    const rows = [
      [
        { value: 'x'.repeat(60), look: 'label' as const },
        { value: 1, look: 'input' as const },
      ],
    ];
    const planted = { ...sheet, rows, merges: [] };
    expect(cutOff(planted, (row, column) => rows[row]?.[column]?.value)).toHaveLength(1);
  });
});
