import { expect, it } from 'vitest';
import { packingThen, unpackingThen } from '../../../src/hosts/workbench/packed-then';
import { atOnce } from '../../../src/plan/in-steps';
import { largeWorkbook } from '../../tools/large-workbook';
import { openOnGrid } from '../../tools/workbench-file';

it('keeps what the grid held when its file was opened, in many small texts', async () => {
  const { opened } = await openOnGrid(largeWorkbook('records', 0.2));
  const texts = atOnce(packingThen(opened.before));
  const read = atOnce(unpackingThen(texts));
  const { frame, cells } = opened.before;
  expect(read.frame).toEqual(JSON.parse(JSON.stringify(frame)));
  // Lists end with the last of their entries.
  const filled = <Entry>(columns: readonly (readonly (Entry | undefined)[])[]): string[] =>
    columns.flatMap((entries, column) =>
      entries.flatMap((entry, row) =>
        entry === undefined ? [] : [`${column} ${row} ${JSON.stringify(entry)}`],
      ),
    );
  for (const [sheetId, sheet] of Object.entries(cells)) {
    const now = read.cells[sheetId];
    expect(now?.hasFormulas).toBe(sheet.hasFormulas);
    for (const list of ['contents', 'styles', 'formats'] as const) {
      expect(filled<unknown>(now?.[list] ?? [])).toEqual(filled<unknown>(sheet[list]));
    }
  }
  expect(Math.max(...texts.map(({ length }) => length))).toBeLessThan(200_000);
});
