import { Model, type UpdateCellCommand, type WorkbookData } from '@odoo/o-spreadsheet';
import { beforeAll, describe, expect, it } from 'vitest';
import { gridFrom } from '../../../src/engine/engine';
import { exportedData } from '../../../src/engine/patches/exported-data';
import {
  storedValuesOf,
  type StoredValues,
} from '../../../src/engine/patches/open-with-stored-values';
import { Opening, settle } from '../../../src/engine/patches/opening';
import { quietly } from '../../../src/engine/quietly';
import { planWorkbook } from '../../../src/plan/plan';
import { sampleFarm } from '../../tools/farms';

type Data = Partial<WorkbookData>;

const openComputed = (data: Data): Model => quietly(() => new Model(structuredClone(data)));

interface InTurn {
  readonly model: Model;
  readonly opening: Opening;
}

function openInTurn(data: Data, values: StoredValues): InTurn {
  const opening = new Opening(structuredClone(values));
  const model = quietly(() => new Model(structuredClone(data), { custom: { opening } }));
  return { model, opening };
}

const SHEETS: readonly string[] = ['Start', 'Tanks', 'Stock weeks', 'Balance'];

/** Everything that cells show and tell of some sheets, with their looks and the heights of their rows. */
function shownOn({ getters }: Model, sheets: readonly string[]): Record<string, unknown> {
  const shown: Record<string, unknown> = {};
  for (const name of sheets) {
    const sheetId = getters.getSheetIdByName(name) as string;
    for (const position of getters.getEvaluatedCellsPositions(sheetId)) {
      const evaluated = getters.getEvaluatedCell(position);
      const { value, format, formattedValue, type } = evaluated;
      // A blank that some formula has read is the same as one that none has.
      if (value === null) continue;
      const { message, errorOriginPosition } = evaluated as unknown as Record<string, unknown>;
      const zone = getters.getSpreadZone(position);
      const cell = getters.getCell(position);
      const formula = cell?.isFormula && cell.compiledFormula.toFormulaString(getters);
      shown[`${name} ${position.col} ${position.row}`] = [
        ...[value, format, formattedValue, type, message?.toString(), errorOriginPosition, zone],
        ...[formula, getters.getCellStyle(position), getters.getCellBorder(position)],
      ];
    }
    for (let row = 0; row < getters.getNumberRows(sheetId); row++) {
      shown[`${name} row ${row}`] = getters.getRowDimensions(sheetId, row);
    }
  }
  return shown;
}

const all = (model: Model): Record<string, unknown> =>
  shownOn(
    model,
    model.getters.getSheetIds().map((id) => model.getters.getSheetName(id)),
  );

describe('a plan whose sheets come in one after another', () => {
  const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' });
  const data = gridFrom(plan);
  let computed: Model;
  let values: StoredValues;
  beforeAll(() => {
    computed = openComputed(data);
    values = JSON.parse(JSON.stringify(storedValuesOf(computed))) as StoredValues;
  });

  const edit = (model: Model, sheet: string, content: string, row = 5, col = 3) =>
    quietly(() => {
      const sheetId = model.getters.getSheetIdByName(sheet) as string;
      const cell: Omit<UpdateCellCommand, 'type'> = { sheetId, row, col, content };
      return model.dispatch('UPDATE_CELL', cell);
    });

  it('takes in no other sheet to show the first', () => {
    const { model, opening } = openInTurn(data, values);
    const [first, ...others] = model.getters.getSheetIds();
    shownOn(model, [model.getters.getSheetName(first as string)]);
    for (const name of ['cells', 'borders', 'values', 'heights', 'tracked'] as const) {
      expect(others.filter((id) => opening.isIn(id, name))).toEqual([]);
    }
  });

  it('shows the same at the first look at a sheet, in whichever order', () => {
    const { model } = openInTurn(data, values);
    for (const name of [...SHEETS].reverse()) {
      expect(shownOn(model, [name])).toEqual(shownOn(computed, [name]));
    }
  });

  it('shows the same on all sheets once they came in, and has the same data', () => {
    const { model, opening } = openInTurn(data, values);
    let looks = 0;
    while (!opening.advance(() => ++looks % 3 === 0));
    expect(looks).toBeGreaterThan(300);
    expect(opening.isReady).toBe(true);
    expect(all(model)).toEqual(all(computed));
    expect(exportedData(model).sheets).toEqual(exportedData(computed).sheets);
    expect(storedValuesOf(model)).toEqual(storedValuesOf(computed));
  });

  it('keeps what is typed before they are in, and computes all that hangs on it after', () => {
    const { model, opening } = openInTurn(data, values);
    const before = shownOn(computed, ['Stock weeks']);
    const anew = openComputed(data);
    for (const content of ['700', '901']) {
      edit(anew, 'Tanks', content);
      edit(model, 'Tanks', content);
    }
    const sheetId = model.getters.getSheetIdByName('Tanks') as string;
    expect(model.getters.getEvaluatedCell({ sheetId, row: 5, col: 3 }).value).toBe(901);
    expect(opening.hasPending).toBe(true);
    expect(opening.isReady).toBe(false);
    expect(shownOn(model, ['Stock weeks'])).toEqual(before);
    quietly(() => settle(model, opening));
    expect(opening.hasPending).toBe(false);
    expect(all(model)).toEqual(all(anew));
    expect(all(model)).not.toEqual(all(computed));
    for (const one of [anew, model]) {
      edit(one, 'Tanks', '850');
      quietly(() => one.dispatch('REQUEST_UNDO'));
      quietly(() => one.dispatch('REQUEST_UNDO'));
    }
    expect(all(model)).toEqual(all(anew));
  });

  it('computes a formula that is typed meanwhile from what all cells hold', () => {
    const { model, opening } = openInTurn(data, values);
    const anew = openComputed(data);
    for (const one of [anew, model]) {
      edit(one, 'Tanks', '640');
      edit(one, 'Start', "=SUM('Stock weeks'!A1:Z60)+Tanks!D6", 50, 1);
    }
    expect(opening.hasPending).toBe(false);
    expect(all(model)).toEqual(all(anew));
  });

  it('undoes what was typed meanwhile without a number of a cell being given twice', () => {
    const { model, opening } = openInTurn(data, values);
    edit(model, 'Start', '5', 60, 1);
    quietly(() => model.dispatch('REQUEST_UNDO'));
    quietly(() => settle(model, opening));
    edit(model, 'Start', '7', 61, 1);
    const ids = model.getters
      .getSheetIds()
      .flatMap((id) => model.getters.getCells(id).map((cell) => cell.id));
    expect(new Set(ids).size).toBe(ids.length);
    quietly(() => model.dispatch('REQUEST_UNDO'));
    expect(all(model)).toEqual(all(computed));
  });

  it('takes all in before rows or sheets move', () => {
    const { model, opening } = openInTurn(data, values);
    const anew = openComputed(data);
    for (const one of [anew, model]) {
      edit(one, 'Tanks', '640');
      const sheetId = one.getters.getSheetIdByName('Tanks') as string;
      quietly(() => {
        one.dispatch('RENAME_SHEET', { sheetId, oldName: 'Tanks', newName: 'Basins' });
        one.dispatch('ADD_COLUMNS_ROWS', {
          ...{ sheetId, sheetName: 'Basins', dimension: 'ROW' },
          ...{ base: 2, position: 'before', quantity: 2 },
        });
      });
    }
    quietly(() => settle(model, opening));
    expect(all(model)).toEqual(all(anew));
    expect(exportedData(model).sheets).toEqual(exportedData(anew).sheets);
  });
});

it('a formula without a stored value is computed when its sheet comes in', () => {
  const sheets = [
    { id: 'a', name: 'A', cells: { A1: '7' } },
    { id: 'b', name: 'B', cells: { A1: '=A!A1+1', B1: '=A!A1+2' } },
  ] as unknown as WorkbookData['sheets'];
  const { model, opening } = openInTurn({ sheets }, { b: { B1: { value: 9 } } });
  expect(model.getters.getEvaluatedCell({ sheetId: 'b', row: 0, col: 0 }).value).toBe(8);
  quietly(() => settle(model, opening));
  quietly(() => model.dispatch('UPDATE_CELL', { sheetId: 'a', row: 0, col: 0, content: '1' }));
  const shown = [0, 1].map((col) => model.getters.getEvaluatedCell({ sheetId: 'b', row: 0, col }));
  expect(shown.map(({ value }) => value)).toEqual([2, 3]);
});
