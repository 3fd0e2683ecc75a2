import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { beforeAll, describe, expect, it } from 'vitest';
import { gridFrom } from '../../../src/engine/engine';
import { waitingFormulas } from '../../../src/engine/patches/formulas-on-demand';
import {
  storedValuesOf,
  type StoredValues,
} from '../../../src/engine/patches/open-with-stored-values';
import { quietly } from '../../../src/engine/quietly';
import { planWorkbook } from '../../../src/plan/plan';
import { sampleFarm } from '../../tools/farms';

type Data = Partial<WorkbookData>;

const open = (data: Data, storedValues?: StoredValues): Model =>
  quietly(() => new Model(structuredClone(data), { custom: { storedValues } }));

const copied = (values: StoredValues | undefined): StoredValues =>
  JSON.parse(JSON.stringify(values)) as StoredValues;

/** Everything that cells show and tell, by sheet and place. */
function cellsOf({ getters }: Model): Record<string, unknown> {
  const cells: Record<string, unknown> = {};
  for (const sheetId of getters.getSheetIds()) {
    for (const position of getters.getEvaluatedCellsPositions(sheetId)) {
      const evaluated = getters.getEvaluatedCell(position);
      const { value, format, formattedValue, type } = evaluated;
      if (value === null) continue;
      const { message, errorOriginPosition } = evaluated as unknown as Record<string, unknown>;
      const zone = getters.getSpreadZone(position);
      cells[`${sheetId} ${position.col} ${position.row}`] = [
        ...[value, format, formattedValue, type, message?.toString(), errorOriginPosition, zone],
      ];
    }
  }
  return cells;
}

describe('a plan opened with stored values', () => {
  const data = gridFrom(planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' }));
  let computed: Model;
  let values: StoredValues;
  beforeAll(() => {
    computed = open(data);
    values = copied(storedValuesOf(computed));
  });

  it('shows in every cell what its formulas give', () => {
    const stored = open(data, values);
    expect(waitingFormulas(stored).waiting.size).toBeGreaterThan(5000);
    const shown = cellsOf(computed);
    expect(Object.keys(shown).length).toBeGreaterThan(9000);
    expect(cellsOf(stored)).toEqual(shown);
    quietly(() => stored.dispatch('EVALUATE_CELLS'));
    expect(cellsOf(stored)).toEqual(shown);
  });

  it('follows an edit as if all had been computed, while formulas wait and after', () => {
    const stored = open(data, values);
    const sheetId = stored.getters.getSheetIdByName('Tanks') as string;
    for (const content of ['901', 'none']) {
      for (const model of [computed, stored]) {
        quietly(() => model.dispatch('UPDATE_CELL', { sheetId, row: 5, col: 3, content }));
      }
      expect(cellsOf(stored)).toEqual(cellsOf(computed));
    }
    expect(waitingFormulas(stored).compile()).toBe(true);
    expect(waitingFormulas(stored).waiting.size).toBe(0);
    for (const model of [computed, stored]) quietly(() => model.dispatch('REQUEST_UNDO'));
    expect(cellsOf(stored)).toEqual(cellsOf(computed));
  });

  it('keeps references right where a sheet is renamed and rows are inserted while formulas wait', () => {
    const stored = open(data, values);
    const tanks = stored.getters.getSheetIdByName('Tanks') as string;
    const anew = open(data);
    for (const model of [stored, anew]) {
      quietly(() => {
        model.dispatch('RENAME_SHEET', { sheetId: tanks, oldName: 'Tanks', newName: 'Basins' });
        model.dispatch('ADD_COLUMNS_ROWS', {
          ...{ sheetId: tanks, sheetName: 'Basins', dimension: 'ROW' },
          ...{ base: 2, position: 'before', quantity: 2 },
        });
      });
    }
    expect(cellsOf(stored)).toEqual(cellsOf(anew));
    const texts = (model: Model): string[] =>
      model.getters
        .getSheetIds()
        .flatMap((id) =>
          model.getters
            .getCells(id)
            .flatMap((cell) =>
              cell.isFormula ? [cell.compiledFormula.toFormulaString(model.getters)] : [],
            ),
        );
    expect(texts(stored)).toEqual(texts(anew));
    expect(texts(stored)).not.toEqual(texts(computed));
  });
});

it('a formula that waits follows a sheet that gets another name', () => {
  const sheets = [
    { id: 'a', name: 'Old', cells: { A1: '7' } },
    { id: 'b', name: 'Other', cells: { A1: '=Old!A1' } },
  ] as unknown as WorkbookData['sheets'];
  const model = open({ sheets }, { b: { A1: { value: 7 } } });
  expect(waitingFormulas(model).waiting.size).toBe(1);
  quietly(() => model.dispatch('RENAME_SHEET', { sheetId: 'a', oldName: 'Old', newName: 'New' }));
  const cell = model.getters.getCell({ sheetId: 'b', row: 0, col: 0 });
  expect(cell?.isFormula && cell.compiledFormula.toFormulaString(model.getters)).toBe('=New!A1');
  quietly(() => model.dispatch('UPDATE_CELL', { sheetId: 'a', row: 0, col: 0, content: '8' }));
  expect(model.getters.getEvaluatedCell({ sheetId: 'b', row: 0, col: 0 }).value).toBe(8);
});

describe('values are stored', () => {
  const stored = (cells: Record<string, string>): StoredValues | undefined =>
    storedValuesOf(open({ sheets: [{ id: 's', cells }] as unknown as WorkbookData['sheets'] }));

  it('of formulas that give the same every time, blocks and errors among them', () => {
    expect(
      copied(stored({ A1: '=1+1', B1: '=SEQUENCE(2)', C1: '=1/0', D1: '5', E1: '="TODAY"' })),
    ).toEqual({
      s: {
        A1: { value: 2 },
        B1: [[{ value: 1 }, { value: 2 }]],
        C1: expect.objectContaining({ value: '#DIV/0!', message: expect.any(String) }) as unknown,
        E1: { value: 'TODAY' },
      },
    });
  });

  it.each([
    ['the day', { A1: '=1+TODAY()' }],
    ['chance', { A1: '=IF(TRUE,rand(),0)' }],
    ['a cell that is named in a text', { A1: '=INDIRECT("B1")' }],
    ['a cell so many rows below', { A1: '=OFFSET(B1,1,0)' }],
    ['the block of another formula', { A1: '=SEQUENCE(2)', B1: '=SUM(A1#)' }],
    ['a circle', { A1: '=B1', B1: '=A1' }],
    ['a block that finds its way barred', { A1: '=SEQUENCE(2)', A2: 'in the way' }],
  ])('unless one depends on %s', (_, cells) => {
    expect(stored(cells)).toBeUndefined();
  });
});
