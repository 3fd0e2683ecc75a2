import { Model, Spreadsheet } from '@odoo/o-spreadsheet';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { quietly } from '../../../src/engine/quietly';
import { addRowsInTurn } from '../../../src/hosts/workbench/rows-at-the-end';
import { SaidFirst, type Saying } from '../../../src/hosts/workbench/said-first';
import { cellAddress } from '../../../src/plan/addresses';
import { openOnGrid } from '../../tools/workbench-file';
import { largeWorkbook } from '../../tools/large-workbook';

interface Shown {
  readonly prototype: { onConfirm(): void };
  readonly components?: Readonly<Record<string, Shown>>;
}

/** What happened, one after the other: words, frames that the page drew, and commands that the grid did. */
let log: string[] = [];
let listeners = new Map<string, () => void>();
const page = globalThis as unknown as Record<string, unknown>;
const before = ['requestAnimationFrame', 'addEventListener', 'removeEventListener'].map(
  (name) => [name, page[name]] as const,
);

beforeAll(() => {
  registerFunctions();
  page['requestAnimationFrame'] = (draw: () => void) =>
    setTimeout(() => {
      log.push('frame');
      draw();
    }, 5);
  page['addEventListener'] = (name: string, listener: () => void) => listeners.set(name, listener);
  page['removeEventListener'] = (name: string) => listeners.delete(name);
});
afterAll(() => {
  for (const [name, value] of before) page[name] = value;
});
beforeEach(() => {
  log = [];
  listeners = new Map();
});

const saying: Saying = {
  say: (doing) => void log.push(doing ?? 'over'),
  async inSteps(doing, work) {
    log.push(`${doing} in steps`);
    await work(() => undefined);
    log.push('over');
  },
};

/** So many formulas read A1, one reads A2. */
const READERS = 2_500;

function modelOfReaders(): Model {
  const cells: Record<string, string> = { A1: '1', A2: '1', B1: '=A2' };
  for (let row = 0; row < READERS; row++) cells[cellAddress(row, 2)] = '=$A$1';
  const sheet = { id: 'one', name: 'One', colNumber: 5, rowNumber: READERS + 5, cells };
  return quietly(() => new Model({ sheets: [sheet] } as never));
}

/** What is asked of the grid here; what it does of that by itself is not noted. */
const ORDERS: ReadonlySet<string> = new Set([
  ...['ADD_COLUMNS_ROWS', 'REQUEST_UNDO', 'REQUEST_REDO', 'DELETE_CONTENT', 'UPDATE_CELL'],
]);

/** The model with its commands noted. */
function noted(model: Model): Model {
  const note = ({ type }: { readonly type: string }): void => {
    if (ORDERS.has(type)) log.push(type);
  };
  model.on('command-dispatched', model, note as never);
  return model;
}

const isCommand = (entry: string): boolean => /^[A-Z_]+$/.test(entry);

type Dispatch = (type: string, payload?: object) => { readonly isSuccessful: boolean };
const dispatchOf = (model: Model): Dispatch => model.dispatch as never;
const cell = (row: number, content: string) => ({ sheetId: 'one', col: 0, row, content });
const line = { dimension: 'ROW', base: 3, quantity: 1, position: 'before' };
const row = { sheetId: 'one', sheetName: 'One', ...line };

describe('what takes long on the grid', () => {
  it('begins once the page has drawn that it goes on, and the words go when it is done', async () => {
    const model = noted(modelOfReaders());
    const first = new SaidFirst(model, undefined, saying);
    const orders = [
      ['UPDATE_CELL', cell(0, '2')],
      ['ADD_COLUMNS_ROWS', row],
      ['REQUEST_UNDO', {}],
      ['REQUEST_REDO', {}],
      ['DELETE_CONTENT', { sheetId: 'one', target: [{ left: 2, right: 2, top: 9, bottom: 900 }] }],
    ] as const;
    for (const [type, payload] of orders) {
      log = [];
      expect(dispatchOf(model)(type, payload).isSuccessful).toBe(true);
      await first.settled();
      const done = log.filter(isCommand);
      expect(done, type).toContain(type);
      expect(log[0], type).toMatch(/ …$/);
      expect(log.slice(1), type).toEqual(['frame', ...done, 'frame', 'over']);
    }
    expect(model.getters.getEvaluatedCell({ sheetId: 'one', row: 2, col: 2 }).value).toBe(2);
  });

  it('is no edit that few formulas read: that is done at once, and undone', () => {
    const model = modelOfReaders();
    // The first edit puts the formulas in order.
    dispatchOf(model)('UPDATE_CELL', cell(1, '2'));
    noted(model);
    new SaidFirst(model, undefined, saying);
    dispatchOf(model)('UPDATE_CELL', cell(1, '3'));
    expect(model.getters.getEvaluatedCell({ sheetId: 'one', row: 0, col: 1 }).value).toBe(3);
    dispatchOf(model)('REQUEST_UNDO');
    expect(model.getters.getEvaluatedCell({ sheetId: 'one', row: 0, col: 1 }).value).toBe(2);
    expect(log.filter((one) => !isCommand(one))).toEqual([]);
  });

  it('is done before what is asked for after it, and at once where somebody types on', async () => {
    const model = noted(modelOfReaders());
    const first = new SaidFirst(model, undefined, saying);
    dispatchOf(model)('ADD_COLUMNS_ROWS', row);
    dispatchOf(model)('UPDATE_CELL', cell(READERS + 2, '7'));
    expect(log.filter(isCommand)).toEqual([]);
    listeners.get('keydown')?.();
    expect(log.filter(isCommand)).toEqual(['ADD_COLUMNS_ROWS', 'UPDATE_CELL']);
    await first.settled();
    expect(log.filter(isCommand)).toHaveLength(2);
    expect(log.at(-1)).toBe('over');
    expect(listeners.size).toBe(0);
  });

  it('adds rows at the end and shows the last of them once they are in', async () => {
    addRowsInTurn();
    const { Grid } = (Spreadsheet as unknown as Shown).components ?? {};
    const footer = Grid?.components?.['GridOverlay']?.components?.['GridAddRowsFooter'];
    const model = noted(modelOfReaders());
    const room = { width: 500, height: 500, gridOffsetX: 0, gridOffsetY: 0 };
    model.dispatch('RESIZE_SHEETVIEW', room);
    const first = new SaidFirst(model, undefined, saying);
    const had = model.getters.getNumberRows('one');
    footer?.prototype.onConfirm.call({
      env: { model },
      state: { inputValue: '40', errorFlag: false },
      focusDefaultElement: () => log.push('grid'),
    });
    expect(log).toEqual(['Rows come in …', 'grid']);
    await first.settled();
    expect(model.getters.getNumberRows('one')).toBe(had + 40);
    const { end } = model.getters.getRowDimensions('one', had + 38);
    expect(model.getters.getActiveSheetScrollInfo().scrollY + room.height).toBeGreaterThan(end);
  });

  it('is refused at once where the grid does not take it', () => {
    const model = modelOfReaders();
    new SaidFirst(model, undefined, saying);
    const { isSuccessful } = dispatchOf(model)('ADD_COLUMNS_ROWS', { ...row, base: 9_999 });
    expect(isSuccessful).toBe(false);
    expect(log).toEqual([]);
  });
});

describe('a line that comes into a file', () => {
  const inFile = { sheetId: 'file-1', sheetName: 'Records', ...line };
  const rowsOf = (model: Model): number => model.getters.getNumberRows('file-1');

  it('is followed through the file in steps first, and not once more on the grid', async () => {
    const { model, save } = await openOnGrid(largeWorkbook('records', 0.03));
    noted(model);
    const first = new SaidFirst(model, undefined, saying);
    const had = rowsOf(model);
    dispatchOf(model)('ADD_COLUMNS_ROWS', inFile);
    expect(rowsOf(model)).toBe(had);
    await first.settled();
    expect(rowsOf(model)).toBe(had + 1);
    // The row takes on the look of its neighbour.
    const done = log.filter((one) => one !== 'UPDATE_CELL');
    expect(done.slice(0, 3)).toEqual([
      'Rows come in in steps',
      'Rows come in on the grid …',
      'frame',
    ]);
    expect(done.slice(-2)).toEqual(['ADD_COLUMNS_ROWS', 'over']);
    expect(save().losses).toEqual([]);
  });

  it('stays out where somebody stops it', async () => {
    const { model } = await openOnGrid(largeWorkbook('records', 0.03));
    const stopped: Saying = { ...saying, inSteps: async () => undefined };
    const first = new SaidFirst(model, undefined, stopped);
    const had = rowsOf(model);
    dispatchOf(model)('ADD_COLUMNS_ROWS', inFile);
    await first.settled();
    expect(rowsOf(model)).toBe(had);
    dispatchOf(model)('UPDATE_CELL', { sheetId: 'file-1', col: 11, row: 3, content: '1' });
    await first.settled();
    const typed = { sheetId: 'file-1', col: 11, row: 3 };
    expect(model.getters.getEvaluatedCell(typed).value).toBe(1);
  });
});
