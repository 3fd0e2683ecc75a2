import { describe, expect, it } from 'vitest';
import { exportedData } from '../../../src/engine/patches/exported-data';
import { quietly } from '../../../src/engine/quietly';
import { gridNow, type GridThen } from '../../../src/hosts/workbench/cells-then';
import { readingThen } from '../../../src/hosts/workbench/earlier-work';
import { savingIntoFile } from '../../../src/hosts/workbench/save-into-file';
import { atOnce } from '../../../src/plan/in-steps';
import { Package } from '../../../src/ooxml/package';
import { largeWorkbook } from '../../tools/large-workbook';
import { openOnGrid } from '../../tools/workbench-file';

const byRow = (columns: readonly (readonly unknown[])[]): unknown[][] => {
  const rows: unknown[][] = [];
  columns.forEach((entries, column) =>
    entries.forEach((entry, row) => {
      if (entry !== undefined) (rows[row] ??= [])[column] = entry;
    }),
  );
  return rows;
};

/** As a page kept it that had lists by row. */
const keptByRow = ({ frame, cells }: GridThen) => ({
  frame,
  cells: Object.fromEntries(
    Object.entries(cells).map(([id, { contents, styles, formats, hasFormulas }]) => [
      id,
      { contents: byRow(contents), styles: byRow(styles), formats: byRow(formats), hasFormulas },
    ]),
  ),
});

describe('work that an earlier build of the page kept in the browser', () => {
  it('is taken for what it was, and saved into its file as if it had been kept by this one', async () => {
    const bytes = largeWorkbook('records', 0.002);
    const { model, opened } = await openOnGrid(bytes);
    const first = exportedData(model);
    // As the browser gives it back.
    const forms = [opened.before, keptByRow(opened.before), first].map((form) =>
      structuredClone(form),
    );
    const now = atOnce(gridNow(model));
    for (const form of forms) {
      const { cells } = atOnce(readingThen(form as never));
      expect(Object.keys(cells)).toEqual(Object.keys(now.cells));
      for (const [id, sheet] of Object.entries(cells)) {
        expect(byRow(sheet.contents)).toEqual(byRow(now.cells[id]?.contents ?? []));
        expect(byRow(sheet.formats)).toEqual(byRow(now.cells[id]?.formats ?? []));
        expect(sheet.hasFormulas).toBe(true);
      }
    }
    const cell = { sheetId: 'file-1', row: 3, col: 12, content: 'typed' };
    quietly(() => model.dispatch('UPDATE_CELL', cell));
    const saved = forms.map((form) => {
      const { bytes: after } = atOnce(
        savingIntoFile({ ...opened, before: atOnce(readingThen(form as never)) }, model),
      );
      return Package.open(after).text('xl/worksheets/sheet1.xml');
    });
    expect(saved[0]).toMatch(/<c r="M4" t="(?:s|str|inlineStr)"/);
    expect(saved[1]).toBe(saved[0]);
    expect(saved[2]).toBe(saved[0]);
  });
});
