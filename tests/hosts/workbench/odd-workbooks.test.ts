import { describe, expect, it } from 'vitest';
import { checkSheets } from '../../../src/check/check';
import { handOver } from '../../../src/handover/hand-over';
import { repair } from '../../../src/handover/repair';
import { followedFormula } from '../../../src/ooxml/follow/followed-formula';
import { openTraced } from '../../../src/ooxml/open-book';
import { openSheets } from '../../../src/ooxml/open-sheets';
import { Package } from '../../../src/ooxml/package';
import { readWorkbookParts } from '../../../src/ooxml/workbook-parts';
import { cellAddress } from '../../../src/plan/addresses';
import { changedElsewhere } from '../../tools/changed-elsewhere';
import { changedParts } from '../../tools/foreign-workbooks';
import { gridDifferences } from '../../tools/grid-contents';
import { oddWorkbooks, type OddWorkbook } from '../../tools/odd-workbooks';
import { openOnGrid, type OnGrid } from '../../tools/workbench-file';

/** Broken files, and the sentence that says so. */
const refused: Readonly<Record<string, string>> = {
  'values: no place for cells': 'The file is damaged: xl/worksheets/sheet1.xml holds no cells.',
  'names and sheets: sheets of one name':
    'The file is damaged: two of its sheets are called "Data".',
  'names and sheets: sheets of one name in other capitals':
    'The file is damaged: two of its sheets are called "DATA".',
  'names and sheets: one part for two sheets':
    'The file is damaged: its sheets "Data" and "Sums" are the same part.',
};

/** Letters that stand for one byte each become several where something is typed: the first line says another writing. */
const WRITTEN_ANEW = 'writing: one byte a letter';

const odd = oddWorkbooks();
const sound = odd.filter(({ what }) => !(what in refused));
const bytesOf = (what: string): Uint8Array => {
  const found = odd.find((one) => one.what === what);
  if (!found) throw new Error(`There is no odd workbook "${what}"`);
  return found.bytes;
};

/** A cell of a sheet in which nothing stands. */
function emptyCell({ model: { getters } }: OnGrid, sheet: number): string {
  const sheetId = getters.getSheetIds()[sheet] ?? '';
  const col = getters.getNumberCols(sheetId) - 2;
  let row = 9;
  while (getters.isInMerge({ sheetId, row, col })) row += 1;
  return cellAddress(row, col);
}

async function changedWithoutAsking({ what, bytes }: OddWorkbook): Promise<string[]> {
  const parts = readWorkbookParts(Package.open(bytes)).sheets;
  const wrong: string[] = [];
  const untouched = await openOnGrid(bytes);
  wrong.push(...changedParts(bytes, untouched.save().bytes).map((part) => `${part}: untouched`));
  // The second sheet is like the first but for its name.
  const count = what.startsWith('names and sheets') ? 2 : 1;
  for (const [sheet, { part }] of parts.slice(0, count).entries()) {
    const grid = await openOnGrid(bytes);
    const address = emptyCell(grid, sheet);
    grid.type(sheet, address, 'x0042y');
    const { bytes: saved } = grid.save();
    if (what !== WRITTEN_ANEW) wrong.push(...changedElsewhere(bytes, saved, part, address));
    const again = await openOnGrid(saved);
    wrong.push(...gridDifferences(grid.model, again.model));
    if (again.shown(sheet, address) !== 'x0042y') wrong.push(`${address} is lost`);
  }
  return wrong.map((one) => `${what}: ${one}`);
}

describe('workbooks of odd kinds', () => {
  it('take one more cell, and nothing else of them changes', async () => {
    const wrong: string[] = [];
    for (const one of sound) wrong.push(...(await changedWithoutAsking(one)));
    expect(wrong).toEqual([]);
  });

  it('are checked and traced, and go through hand-over and repair to the byte', () => {
    const wrong = sound.flatMap(({ what, bytes }) => {
      checkSheets(openSheets(bytes));
      openTraced(bytes);
      const copies = [handOver(bytes).bytes, repair(bytes).bytes];
      return copies.flatMap((copy) => changedParts(bytes, copy).map((part) => `${what}: ${part}`));
    });
    expect(wrong).toEqual([]);
  });

  it.each(Object.entries(refused))('%s: refused with a sentence', async (what, sentence) => {
    const bytes = bytesOf(what);
    await expect(openOnGrid(bytes)).rejects.toThrow(sentence);
    for (const act of [openSheets, handOver, repair]) expect(() => act(bytes)).toThrow(sentence);
  });

  it.each(['chart sheets alone', 'dialog sheets alone'])(
    '%s: an empty sheet comes into the file once something stands in it',
    async (what) => {
      const bytes = bytesOf(`names and sheets: ${what}`);
      const grid = await openOnGrid(bytes);
      const [sheetId = ''] = grid.model.getters.getSheetIds();
      grid.model.dispatch('UPDATE_CELL', { sheetId, row: 1, col: 1, content: '=1+1' });
      const again = await openOnGrid(grid.save().bytes);
      expect(again.shown(0, 'B2')).toBe(2);
      expect(gridDifferences(grid.model, again.model)).toEqual([]);
    },
  );

  it('take a sheet beside parts whose names are all in capitals', async () => {
    const bytes = bytesOf('part names: all names in capitals');
    const grid = await openOnGrid(bytes);
    const sheetId = 'added-here';
    grid.model.dispatch('CREATE_SHEET', { sheetId, position: 2, name: 'Added here' });
    grid.model.dispatch('UPDATE_CELL', { sheetId, row: 0, col: 0, content: '=1+1' });
    const again = await openOnGrid(grid.save().bytes);
    expect(gridDifferences(grid.model, again.model)).toEqual([]);
  });

  const firstLines = (dimension: 'ROW' | 'COL') => ({
    ...{ sheetId: 'file-1', dimension, base: 2, quantity: 1, position: 'before' as const },
  });

  it('refuse lines of a sheet whose name no formula can call', async () => {
    const said: string[] = [];
    const grid = await openOnGrid(
      bytesOf('names and sheets: sheets with forbidden signs'),
      (sentence) => said.push(sentence),
    );
    const sheetName = grid.model.getters.getSheetName('file-1');
    const done = grid.model.dispatch('ADD_COLUMNS_ROWS', { ...firstLines('ROW'), sheetName });
    expect(done.isSuccessful).toBe(false);
    expect(said[0]).toMatch(/^The name of the sheet "a\/b\[c\]:d\*e\?" holds signs/);
  });

  it('refuse lines that would push what a formula reads off the end of its sheet', () => {
    const place = { sheet: 'Data', where: 'Data!A1', order: ['Data'] };
    const step = { kind: 'lines', sheet: 'Data', dimension: 'column', at: 2, count: 1, like: 1 };
    const follow = (formula: string): string => followedFormula(formula, step as never, place);
    expect(follow('D1+B1')).toBe('E1+B1');
    expect(() => follow('A1+XFD1')).toThrow(
      'Data!A1 reads XFD1 of "Data", which would fall off the end of the sheet. Change that formula first.',
    );
  });

  it('show nothing where a cell names no text of the list', async () => {
    const grid = await openOnGrid(bytesOf('values: texts that are not there'));
    const shown = ['A1', 'B1', 'C1', 'D1', 'E1'].map((address) => grid.shown(0, address));
    expect(shown).toEqual([null, null, null, null, null]);
  });

  it('say that a signature does not hold any more once something is changed', async () => {
    const grid = await openOnGrid(bytesOf('other parts: a signature'));
    expect(grid.save().losses).toEqual([]);
    grid.type(0, 'A9', '5');
    expect(grid.save().losses.join()).toMatch(/^The file was signed as it was/);
  });

  it('compute what names for constants and formulas mean', async () => {
    const grid = await openOnGrid(bytesOf('names and sheets: names that stand for anything'));
    grid.type(0, 'B2', '200');
    const shown = ['A4', 'B4', 'C4', 'D4', 'F4', 'I4'].map((address) => grid.shown(0, address));
    expect(shown).toEqual([4, 318, 'a,b', 961, 600, 0.02]);
  });

  it('keep values of formulas with letters of their own, which read nothing that was changed', async () => {
    const grid = await openOnGrid(
      bytesOf('formulas: functions with letters and steps of their own'),
    );
    grid.type(0, 'H9', '200');
    expect([grid.shown(0, 'A1'), grid.shown(0, 'B1')]).toEqual([6, 3]);
  });

  it('follow a range to the end of the sheet', async () => {
    const grid = await openOnGrid(bytesOf('formulas: references of all sorts'));
    grid.type(0, 'C9', '6');
    expect(grid.shown(0, 'J1')).toBe(10);
  });
});
