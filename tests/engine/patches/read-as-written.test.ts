import { Model } from '@odoo/o-spreadsheet';
import { describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { quietly } from '../../../src/engine/quietly';

const sheetId = 's';

/** What formulas give on a sheet of 9 columns and 40 rows. */
function given(formulas: readonly string[]): unknown[] {
  registerFunctions();
  const cells = Object.fromEntries(formulas.map((formula, i) => [`A${i + 1}`, formula]));
  const sheet = { id: sheetId, colNumber: 9, rowNumber: 40, cells: { ...cells, C1: '7' } };
  const model = quietly(() => new Model({ sheets: [sheet] }));
  return formulas.map((_, row) => model.getters.getEvaluatedCell({ sheetId, row, col: 0 }).value);
}

// What the formulas mean is said by the standard of the file format (ECMA-376-1:2016, 18.17.2.2: a quote within a
// text is doubled; 18.17.2.3: a reference names cells of a sheet of 1,048,576 rows).
describe('formulas are read as they are written', () => {
  it.each([
    ['="a""b"', 'a"b'],
    ['=""""', '"'],
    ['=LEN("""""")', 2],
    ['=""', ''],
    ['=""&""', ''],
    ['="C:\\"', 'C:\\'],
    ['="C:\\"&"x"', 'C:\\x'],
    ['="a\\""b"', 'a\\"b'],
    ['="a\\b"', 'a\\b'],
    [`="it's"&"'"`, "it's'"],
    ['=IF(C1>5,"""yes""","no")', '"yes"'],
  ])('texts: %s', (formula, value) => {
    expect(given([formula])).toEqual([value]);
  });

  it.each([
    ['=ROWS(B1:B500)', 500],
    ['=COLUMNS(B1:Z1)', 25],
    ['=COUNTBLANK(C1:C500)', 499],
    ['=SUM(C1:C500)', 7],
    ['=COUNTA(C1:Z1)', 1],
    ['=INDEX(C1:C500,400)', 0],
    ['=INDEX(C1:C500,1)', 7],
    ['=IFERROR(Z99,"none")', 0],
    ['=SUM(C1:XFD1048576)', 7],
    ['=MATCH(7,C1:C1048576,0)', 1],
  ])('ranges beyond the sheet: %s', (formula, value) => {
    expect(given([formula])).toEqual([value]);
  });

  it.each(['=SUM(C1:C9)', '=SUM(A2,C1)', '=ROWS(C1:C900)+C1', '=IFERROR(SUM(C1:C9),"gone")'])(
    'what is gone is an error, no blank: %s',
    (formula) => {
      registerFunctions();
      const sheet = { id: sheetId, name: 'S', colNumber: 9, rowNumber: 40, cells: { A1: formula } };
      const model = quietly(() => new Model({ sheets: [sheet] }));
      const elements = [2];
      quietly(() =>
        model.dispatch('REMOVE_COLUMNS_ROWS', {
          ...{ sheetId, sheetName: 'S', dimension: 'COL', elements },
        }),
      );
      const { value } = model.getters.getEvaluatedCell({ sheetId, row: 0, col: 0 });
      expect(value).toBe(formula.includes('IFERROR') ? 'gone' : '#REF!');
    },
  );

  it('a cell that stands beyond a sheet counts once the sheet grows', () => {
    registerFunctions();
    const sheet = {
      id: sheetId,
      name: 'S',
      colNumber: 3,
      rowNumber: 10,
      cells: { A1: '=SUM(B1:B12)' },
    };
    const model = quietly(() => new Model({ sheets: [sheet] }));
    const dispatch = (type: string, payload: object): void =>
      void quietly(() => model.dispatch(type as never, { sheetId, ...payload } as never));
    dispatch('ADD_COLUMNS_ROWS', {
      ...{ sheetName: 'S', dimension: 'ROW', base: 9, quantity: 5, position: 'after' },
    });
    dispatch('UPDATE_CELL', { row: 11, col: 1, content: '4' });
    expect(model.getters.getEvaluatedCell({ sheetId, row: 0, col: 0 }).value).toBe(4);
  });
});
