import { type CellPosition, Model } from '@odoo/o-spreadsheet';
import { beforeAll, describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { quietly } from '../../../src/engine/quietly';

interface Cells {
  readonly map: Record<string, Record<number, Record<number, unknown>>>;
  set(position: CellPosition, cell: object): void;
  get(position: CellPosition): object | undefined;
}

const sheetId = 's';

const evaluatorOf = (model: Model): { evaluatedCells: Cells } =>
  (
    model as unknown as { handlers: readonly { evaluator?: { evaluatedCells: Cells } }[] }
  ).handlers.find((handler) => handler.evaluator)?.evaluator as { evaluatedCells: Cells };

const at = (col: number, row: number): CellPosition => ({ sheetId, col, row });

const cells = {
  ...{ A1: '12.5', A2: '45000', A3: '00105', A4: 'word', A5: 'TRUE', A6: '#N/A', A7: "'=1+2" },
  ...{
    A8: 'https://example.org',
    A9: '[here](https://example.org)',
    A10: '2026-03-09',
    A11: '12%',
  },
  ...{ B1: '=A1*2', B2: '=A2+1', B3: '=A4&"s"', B4: '=A5', B5: '=1/0', B6: '=NA()', B7: '=A99' },
  ...{ B8: '=A8', B9: '=A2', B10: '=A10-A2', B11: '=SUM(A1:A99)', B12: '=A1>3', B13: '=A3' },
  ...{
    C1: '=SEQUENCE(3,2)',
    E1: '=IF(A1>0,A2,A1)',
    E2: '=""',
    E3: '=MAX(C1:D3)',
    E4: '=VALUE("x")',
    G1: '=2*3',
  },
};
const formats = { A2: 1, A3: 2, A11: 3, B9: 3, B3: 2, B1: 3 };
const data = {
  sheets: [{ id: sheetId, colNumber: 9, rowNumber: 120, cells, formats }],
  formats: { 1: 'yyyy-mm-dd', 2: '@', 3: '0.00' },
};
const open = (): Model => quietly(() => new Model(structuredClone(data) as never));

describe('values that are made when they are looked at', () => {
  beforeAll(registerFunctions);

  it('are what the library made, of every kind', () => {
    const made = new Map<string, object>();
    const model = open();
    const evaluator = evaluatorOf(model);
    const { prototype } = evaluator.evaluatedCells.constructor as { prototype: Cells };
    const { set } = prototype;
    prototype.set = function (this: Cells, position, cell) {
      made.set(JSON.stringify(at(position.col, position.row)), structuredClone({ ...cell }));
      set.call(this, position, cell);
    };
    quietly(() => model.dispatch('EVALUATE_CELLS'));
    prototype.set = set;
    expect(made.size).toBeGreaterThan(40);
    // Another map over the same entries: nothing that was looked at is kept in it.
    const { map } = evaluator.evaluatedCells;
    const Again = evaluator.evaluatedCells.constructor as new () => Cells;
    const again = Object.assign(new Again(), { map });
    for (const [place, cell] of made) {
      const found = again.get(JSON.parse(place) as CellPosition);
      expect({ ...found }, place).toEqual(cell);
    }
  });

  it('are held as short as they can be', () => {
    const model = open();
    const { map } = evaluatorOf(model).evaluatedCells;
    const entry = (col: number, row: number): unknown => map[sheetId]?.[col]?.[row];
    for (const row of [0, 1, 3, 4]) expect(entry(0, row)).toBe(model.getters.getCell(at(0, row)));
    expect([entry(1, 0), entry(1, 11)]).toEqual([{ value: 25, format: '0.00' }, true]);
    expect(entry(6, 0)).toBe(6);
    expect(Object.keys(entry(1, 4) as object)).toContain('message');
  });

  it('are those of before an edit until the cell is computed anew', () => {
    const model = open();
    const type = (content: string) =>
      quietly(() => model.dispatch('UPDATE_CELL', { ...at(0, 0), content }));
    const shown = (col: number, row: number) => model.getters.getEvaluatedCell(at(col, row));
    expect([shown(0, 0), shown(1, 0)].map(({ value }) => value)).toEqual([12.5, 25]);
    type('4');
    expect([shown(0, 0), shown(1, 0), shown(1, 11)].map(({ value }) => value)).toEqual([
      4,
      8,
      true,
    ]);
    type('');
    expect([shown(0, 0), shown(1, 0)].map(({ value }) => value)).toEqual([null, 0]);
    type('word');
    expect([shown(0, 0).value, shown(1, 0).type]).toEqual(['word', 'error']);
    quietly(() => model.dispatch('REQUEST_UNDO'));
    quietly(() => model.dispatch('REQUEST_UNDO'));
    expect([shown(0, 0), shown(1, 0)].map(({ formattedValue }) => formattedValue)).toEqual([
      '4',
      '8.00',
    ]);
  });

  it('are read as the library reads them where they are numbers in figures', () => {
    const texts = ['0', '7', '-7', '12.5', '-0.25', '123456789012', '0.1', '3.14159265358979'];
    const odd = ['-0', '1.50', '007', '1e5', '12%', '9007199254740993', '0.30000000000000004'];
    const all = [...texts, ...odd];
    const imported = quietly(
      () =>
        new Model({
          sheets: [
            { id: sheetId, cells: Object.fromEntries(all.map((text, i) => [`A${i + 1}`, text])) },
          ],
        } as never),
    );
    const typed = quietly(() => new Model({ sheets: [{ id: sheetId }] } as never));
    all.forEach((content, row) => {
      quietly(() => typed.dispatch('UPDATE_CELL', { ...at(0, row), content }));
      const [a, b] = [imported, typed].map(({ getters }) => getters.getCell(at(0, row)));
      expect({ ...a, id: 0 }, content).toEqual({ ...b, id: 0 });
    });
  });
});
