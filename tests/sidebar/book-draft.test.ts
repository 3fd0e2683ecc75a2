import { beforeEach, describe, expect, it } from 'vitest';
import { withBlocks } from '../../src/hosts/excel/followed-book';
import { openBook } from '../../src/ooxml/open-book';
import { BookCells, type BookSnapshot } from '../../src/plan/book-snapshot';
import type { CellChange } from '../../src/plan/change-typed';
import { readBook } from '../../src/plan/read-book';
import type { OpenFarm } from '../../src/sidebar/open-farm';
import { BookDraft } from '../../src/sidebar/plan/book-draft';
import { sampleFarm } from '../tools/farms';
import { fileOf } from '../tools/there-and-back';

const farm = sampleFarm('larkfield-school');
const fresh = openBook(fileOf(farm, 'plain'));

let book: BookSnapshot;
let written: (readonly CellChange[])[];
let draft: BookDraft;

const opened = (): OpenFarm => {
  const cells = new BookCells(book);
  return { cells, reading: readBook(cells) };
};

function type(cells: readonly CellChange[]): void {
  const sheets = book.sheets.map((sheet) => {
    const own = cells.filter((cell) => cell.sheet === sheet.name);
    return withBlocks(
      sheet,
      own.map(({ row, column, value = '' }) => ({
        area: { row, column, rows: 1, columns: 1 },
        formulas: [[value]],
        values: [[value]],
      })),
    );
  });
  book = { ...book, sheets };
}

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

beforeEach(() => {
  book = fresh;
  written = [];
  draft = new BookDraft(
    opened(),
    (cells) => {
      written.push(cells);
      type(cells);
      draft.follow(opened());
      return Promise.resolve();
    },
    (says) => expect(says).toBe(''),
  );
});

describe('the form of a workbook', () => {
  it('shows what follows from the registers, and does not take it', () => {
    expect(draft.get('tanks[0].fish')).toBeUndefined();
    expect(draft.shown('tanks[0].fish')).toBe(farm.tanks[0]?.fish);
    expect(draft.fixed('tanks[0].fish')).toMatch(/Fish log/);
    expect(draft.shown('beds[0].crop')).toBe(farm.beds[0]?.crop);
    expect(draft.shown('beds[0].planted')).toBe('2026-02-02');
    expect(draft.fixed('beds[0].length')).toBeUndefined();
    expect(draft.check().wrong).toEqual([]);
  });

  it('follows a fish count that is typed over on Tanks, and takes one from then on', () => {
    const count = book.names.find(({ name }) => name === 'Tanks_fish');
    if (!count) throw new Error('no column of fish');
    const { sheet, area } = count;
    type([{ sheet, row: area.row, column: area.column, value: 17 }]);
    draft.follow(opened());
    expect(draft.shown('tanks[0].fish')).toBe(17);
    expect(draft.check().farm?.tanks[0]?.fish).toBe(17);
    expect(draft.fixed('tanks[0].fish')).toBeUndefined();
    draft.set('tanks[0].fish', undefined);
    draft.finished(['tanks[0].fish']);
    expect(written).toEqual([]);
    expect(draft.check().wrong[0]?.sentence).toMatch(
      /^Not written: A formula of the plan stood in/,
    );
  });

  it('writes once when somebody has finished typing, and not what comes to the same', async () => {
    const before = draft.get('stock.survival') as number;
    for (const value of [0.7, 0.71]) draft.set('stock.survival', value);
    expect(written).toEqual([]);
    draft.finished(['stock.survival']);
    await settled();
    expect(written).toMatchObject([[{ value: 0.71 }]]);
    draft.set('stock.survival', before);
    draft.set('stock.survival', 0.71);
    draft.finished(['stock.survival']);
    expect(written).toHaveLength(1);
  });

  it('keeps what is wrong out of the cells, says so, and lets the cell win', () => {
    draft.set('water.total', -4);
    draft.finished(['water.total']);
    expect(written).toEqual([]);
    expect(draft.check().wrong).toMatchObject([{ path: 'water.total', missing: false }]);
    expect(draft.check().wrong[0]?.sentence).toMatch(/^Not written: Must be a number .*; got -4/);
    // The farm goes on being that of the cells.
    expect(draft.check().farm?.water.total).toBe(farm.water.total);
    expect(JSON.parse(draft.file())).not.toMatchObject({ water: { total: -4 } });
    // Reading again changes nothing of it, a figure typed into the cell does.
    draft.follow(opened());
    expect(draft.get('water.total')).toBe(-4);
    const place = opened().reading.places.get('water.total');
    if (!place) throw new Error('no cell');
    type([{ sheet: place.sheet, row: place.row, column: place.column, value: 700 }]);
    draft.follow(opened());
    expect(draft.get('water.total')).toBe(700);
    expect(draft.check().wrong).toEqual([]);
  });

  it('fills and clears a line where lines are prepared, and sends tanks and beds to the renewal', async () => {
    expect(draft.closed('tanks')).toMatch(/renew the plan/);
    expect(draft.kept('beds')).toMatch(/renew the plan/);
    expect(draft.closed('costs')).toBeUndefined();
    const lines = draft.list('costs').length;
    draft.add('costs');
    expect(draft.list('costs')).toHaveLength(lines + 1);
    draft.set(`costs[${lines}].item`, 'Insurance');
    draft.finished([`costs[${lines}].item`]);
    await settled();
    expect(draft.list('costs')).toHaveLength(lines + 1);
    // The line waits for its amount, as it does on the sheet.
    expect(draft.check().wrong).toMatchObject([{ path: `costs[${lines}].perMonth` }]);
    draft.set(`costs[${lines}].perMonth`, 12);
    draft.finished([`costs[${lines}].perMonth`]);
    await settled();
    expect(draft.check().farm?.costs.at(-1)).toEqual({ item: 'Insurance', perMonth: 12 });
    draft.remove('costs', lines);
    await settled();
    expect(draft.check().farm?.costs).toHaveLength(lines);
    expect(written.map((cells) => cells.length)).toEqual([1, 1, 2]);
  });
});
