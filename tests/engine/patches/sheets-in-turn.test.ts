import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { gridFrom } from '../../../src/engine/engine';
import { exportedData } from '../../../src/engine/patches/exported-data';
import {
  storedValuesOf,
  type StoredValues,
} from '../../../src/engine/patches/open-with-stored-values';
import { Opening, settle } from '../../../src/engine/patches/opening';
import { quietly } from '../../../src/engine/quietly';
import { takenApart } from '../../../src/engine/sheet-contents';
import { unpackedSheets } from '../../../src/hosts/workbench/packed-sheets';
import { planWorkbook } from '../../../src/plan/plan';
import { sampleFarm } from '../../tools/farms';
import { sheetsAsTexts } from '../../tools/sheets-as-texts';

type Data = Partial<WorkbookData>;

const openComputed = (data: Data): Model => quietly(() => new Model(structuredClone(data)));

interface InTurn {
  readonly model: Model;
  readonly opening: Opening;
}

function openInTurn(data: Data, values: StoredValues | undefined): InTurn {
  const { frame, contents } = takenApart(data, values ?? {});
  const opening = new Opening(unpackedSheets(sheetsAsTexts(contents)));
  const model = quietly(() => new Model(structuredClone(frame), { custom: { opening } }));
  return { model, opening };
}

/** Everything that cells of a sheet show and tell, with their looks and the heights of rows. */
function shownOn({ getters }: Model, sheetId: string): Record<string, unknown> {
  const shown: Record<string, unknown> = {};
  for (const position of getters.getEvaluatedCellsPositions(sheetId)) {
    const evaluated = getters.getEvaluatedCell(position);
    const { value, format, formattedValue, type } = evaluated;
    // A blank that some formula has read is the same as one that none has.
    if (value === null) continue;
    const { message, errorOriginPosition } = evaluated as unknown as Record<string, unknown>;
    const zone = getters.getSpreadZone(position);
    const cell = getters.getCell(position);
    const formula = cell?.isFormula && cell.compiledFormula.toFormulaString(getters);
    shown[`${sheetId} ${position.col} ${position.row}`] = [
      ...[value, format, formattedValue, type, message?.toString(), errorOriginPosition, zone],
      ...[formula, getters.getCellStyle(position), getters.getCellBorder(position)],
    ];
  }
  for (let row = 0; row < getters.getNumberRows(sheetId); row++) {
    shown[`${sheetId} row ${row}`] = getters.getRowDimensions(sheetId, row);
  }
  return shown;
}

const all = (model: Model): Record<string, unknown> =>
  Object.assign({}, ...model.getters.getSheetIds().map((id) => shownOn(model, id))) as Record<
    string,
    unknown
  >;

it('a plan shows and holds the same, at the first look at a sheet and once all came in', () => {
  const data = gridFrom(planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' }));
  const computed = openComputed(data);
  const { model, opening } = openInTurn(data, storedValuesOf(computed));
  const ids = model.getters.getSheetIds();
  const some = ['Site', 'Tanks', 'Balance', 'Plant room', 'Money'].map(
    (name) => model.getters.getSheetIdByName(name) as string,
  );
  for (const id of some) expect(shownOn(model, id)).toEqual(shownOn(computed, id));
  expect(ids.filter((id) => opening.isIn(id, 'values')).length).toBeLessThan(8);
  let looks = 0;
  while (!opening.advance(() => ++looks % 2 === 0));
  expect(looks).toBeGreaterThan(500);
  const values = (one: Model): string[] =>
    ids.map((id) => JSON.stringify(Object.entries(storedValuesOf(one)?.[id] ?? {})));
  // Long texts that differ are said by their sheet.
  const [own, others] = [values(model), values(computed)];
  expect(ids.filter((_, i) => own[i] !== others[i])).toEqual([]);
});

const ROWS = 120;

/** Typed numbers on A, a chain with blocks on B, sums and rules on C, merges and borders on D. */
const small = {
  sheets: [
    {
      ...{ id: 'a', name: 'A', rowNumber: ROWS, colNumber: 6 },
      cells: Object.fromEntries(Array.from({ length: ROWS }, (_, i) => [`A${i + 1}`, `${i}`])),
      formats: { 'B1:B40': 1 },
    },
    {
      ...{ id: 'b', name: 'B', rowNumber: ROWS, colNumber: 6 },
      cells: {
        ...Object.fromEntries(
          Array.from({ length: ROWS }, (_, i) => [
            `A${i + 1}`,
            i === 0 ? '=A!A1' : `=A${i}+A!A${i + 1}`,
          ]),
        ),
        C1: '=TRANSPOSE(A!A1:A3)',
        C3: '=1/(A!A1-A!A1)',
      },
      styles: { 'A1:A30': 1 },
    },
    {
      ...{ id: 'c', name: 'C', rowNumber: 40, colNumber: 6 },
      cells: { A1: '=SUM(B!A1:A120)', A2: '=SUM(Typed)', A3: '=B!D1*2', B1: "'12", B2: 'TRUE' },
      conditionalFormats: [
        {
          id: 'r',
          ranges: ['A1:A3'],
          rule: {
            type: 'CellIsRule',
            operator: 'isGreaterThan',
            values: ['7500'],
            style: { fillColor: '#FF0000' },
          },
        },
      ],
    },
    {
      ...{ id: 'd', name: 'D', rowNumber: 40, colNumber: 8 },
      cells: { A1: 'Title', B1: 'hidden by the merge', A5: '=C!A1' },
      styles: { A1: 1, A5: 2 },
      borders: { 'A5:C6': 1 },
      merges: ['A1:C2', 'E5:F5'],
    },
  ],
  styles: { 1: { bold: true, fontSize: 20 }, 2: { italic: true } },
  formats: { 1: '0.00' },
  borders: { 1: { top: { style: 'thin', color: '#112233' } } },
  namedRanges: { Typed: 'A!$A$1:$A$120' },
} as unknown as Data;

describe('a workbook whose sheets come in one after another', () => {
  let values: StoredValues | undefined;
  beforeAll(() => {
    values = storedValuesOf(openComputed(small));
  });

  let model: Model;
  let opening: Opening;
  let computed: Model;
  beforeEach(() => {
    ({ model, opening } = openInTurn(small, values));
    computed = openComputed(small);
  });

  /** Types into a cell of both workbooks. */
  const type = (content: string, sheetId = 'a', row = 0, col = 0): void => {
    for (const one of [model, computed]) {
      quietly(() => one.dispatch('UPDATE_CELL', { sheetId, row, col, content }));
    }
  };
  const undo = (): void => {
    for (const one of [model, computed]) quietly(() => one.dispatch('REQUEST_UNDO'));
  };
  const sum = (): unknown => model.getters.getEvaluatedCell({ sheetId: 'c', row: 0, col: 0 }).value;

  it('takes in no other sheet to show the first', () => {
    shownOn(model, 'a');
    for (const name of ['cells', 'borders', 'values', 'heights', 'tracked'] as const) {
      expect(['b', 'c', 'd'].filter((id) => opening.isIn(id, name))).toEqual([]);
    }
    expect(opening.isIn('a', 'values')).toBe(true);
  });

  it.each(['abcd', 'dcba', 'bdac'])('shows the same in the order %s', (order) => {
    for (const id of order) expect(shownOn(model, id)).toEqual(shownOn(computed, id));
  });

  it('holds the same when it is saved at once', () => {
    expect(exportedData(model).sheets).toEqual(exportedData(computed).sheets);
  });

  it('keeps what is typed before all is in, and computes all that hangs on it after', () => {
    const before = sum();
    type('5');
    type('7');
    type('', 'a', 9);
    expect(model.getters.getEvaluatedCell({ sheetId: 'a', row: 0, col: 0 }).value).toBe(7);
    expect([opening.isReady, opening.hasPending, sum()]).toEqual([false, true, before]);
    const revision = exportedData(model).revisionId;
    quietly(() => settle(model, opening));
    expect([opening.isReady, opening.hasPending]).toEqual([true, false]);
    expect(exportedData(model).revisionId).toBe(revision);
    // The first of 120 numbers stands in all of the running sums, the tenth in 111.
    expect(sum()).toBe((before as number) + 7 * ROWS - 9 * 111);
    expect(all(model)).toEqual(all(computed));
    const rule = (one: Model) =>
      one.getters.getCellConditionalFormatStyle({ sheetId: 'c', row: 0, col: 0 });
    expect(rule(model)).toEqual(rule(computed));
    type('8', 'a', 50);
    expect(all(model)).toEqual(all(computed));
  });

  it('computes what hangs on an edit also where the edit was taken back', () => {
    type('5');
    undo();
    quietly(() => settle(model, opening));
    expect(all(model)).toEqual(all(computed));
    type('6', 'a', 1);
    expect(all(model)).toEqual(all(computed));
    undo();
    expect(all(model)).toEqual(all(openComputed(small)));
  });

  it('computes a formula that is typed meanwhile from what all cells hold', () => {
    type('5');
    type('=SUM(B!A1:A120)+C!A2', 'a', 3, 1);
    expect([opening.isReady, opening.hasPending]).toEqual([true, false]);
    expect(all(model)).toEqual(all(computed));
  });

  it.each([
    ['over a formula', 'b', 4, 0],
    ['into a block', 'b', 0, 3],
    ['over the formula of a block', 'b', 0, 2],
    ['below a block', 'b', 1, 3],
  ])('follows a number typed %s', (_, sheetId, row, col) => {
    type('5');
    type('1000', sheetId, row, col);
    quietly(() => settle(model, opening));
    expect(all(model)).toEqual(all(computed));
    undo();
    undo();
    expect(all(model)).toEqual(all(computed));
  });

  it('gives no number of a cell twice', () => {
    type('5', 'a', 3, 3);
    undo();
    quietly(() => settle(model, opening));
    type('7', 'a', 3, 4);
    const ids = model.getters
      .getSheetIds()
      .flatMap((id) => model.getters.getCells(id).map((cell) => cell.id));
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('takes all in before rows or sheets move', () => {
    type('5');
    for (const one of [model, computed]) {
      quietly(() => {
        one.dispatch('RENAME_SHEET', { sheetId: 'a', oldName: 'A', newName: 'Basins' });
        one.dispatch('ADD_COLUMNS_ROWS', {
          ...{ sheetId: 'a', sheetName: 'Basins', dimension: 'ROW' },
          ...{ base: 2, position: 'before', quantity: 2 },
        });
      });
    }
    expect(all(model)).toEqual(all(computed));
    expect(exportedData(model).sheets).toEqual(exportedData(computed).sheets);
  });

  it('computes a formula without a stored value when its sheet comes in', () => {
    const { C1, ...others } = values?.['b'] ?? {};
    expect(C1).toBeDefined();
    const one = openInTurn(small, { ...values, b: others });
    type('5');
    quietly(() =>
      one.model.dispatch('UPDATE_CELL', { sheetId: 'a', row: 0, col: 0, content: '5' }),
    );
    quietly(() => settle(one.model, one.opening));
    expect(all(one.model)).toEqual(all(computed));
  });
});
