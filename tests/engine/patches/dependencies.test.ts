import { Model } from '@odoo/o-spreadsheet';
import { beforeEach, describe, expect, it } from 'vitest';
import { registerFunctions } from '../../../src/engine/engine-functions';
import { quietly } from '../../../src/engine/quietly';

registerFunctions();

interface Evaluator {
  computeFormulaCell(...cell: unknown[]): unknown;
}

describe('what a change recomputes', () => {
  const sheetId = 's';
  let model: Model;
  let computed: string[];
  const open = (cells: Record<string, string>): void => {
    model = quietly(
      () => new Model({ sheets: [{ id: sheetId, colNumber: 9, rowNumber: 9, cells }] }),
    );
    const { evaluator } = (
      model as unknown as { uiHandlers: readonly { readonly evaluator?: Evaluator }[] }
    ).uiHandlers.find((handler) => handler.evaluator) as { evaluator: Evaluator };
    const compute = evaluator.computeFormulaCell.bind(evaluator);
    evaluator.computeFormulaCell = (...cell) => {
      const { col, row } = cell[0] as { col: number; row: number };
      computed.push(`${'ABCDEFGHI'[col]}${row + 1}`);
      return compute(...cell);
    };
  };
  const type = (row: number, col: number, content: string): void => {
    computed = [];
    quietly(() => model.dispatch('UPDATE_CELL', { sheetId, row, col, content }));
  };
  const value = (row: number, col: number): unknown =>
    model.getters.getEvaluatedCell({ sheetId, row, col }).value;
  const cell = (row: number, col: number): { value: unknown; message?: unknown } =>
    model.getters.getEvaluatedCell({ sheetId, row, col });
  beforeEach(() => {
    computed = [];
  });

  it('is what depends on the cell, not its neighbour that shares another dependency', () => {
    open({ A1: '1', A2: '2', A3: '3', B1: '10', C1: '=A1*B$1', C2: '=A2*B$1', C3: '=A3*B$1' });
    type(0, 1, '20');
    expect(computed.sort()).toEqual(['C1', 'C2', 'C3']);
    type(0, 0, '5');
    expect(computed).toEqual(['C1']);
    expect(value(0, 2)).toBe(100);
  });

  it('excludes what a formula depended on before it was typed over', () => {
    open({ A1: '1', B1: '2', C1: '=A1' });
    for (const content of ['=A1+B1', '=SUM(A1:A3)', '=B1']) type(0, 2, content);
    type(0, 0, '7');
    expect(computed).toEqual([]);
    type(0, 1, '8');
    expect(computed).toEqual(['C1']);
    expect(value(0, 2)).toBe(8);
  });

  it('includes what depends on a formula that was typed over and restored', () => {
    open({ A1: '1', C1: '=A1' });
    for (const content of ['5', '=A1', '=A1+0', '=A1']) type(0, 2, content);
    type(0, 0, '3');
    expect(value(0, 2)).toBe(3);
  });

  it('ends with an error and what follows from it where blocks that formulas fill move each other', () => {
    open({ A1: '=SEQUENCE(1,3)*(1+B3)', A3: '=SEQUENCE(1,3)*2', E1: '=B1+1', F1: '=5' });
    expect(value(0, 4)).toBe(11);
    type(2, 0, '=SEQUENCE(1,3)*(1+B1)');
    expect(cell(2, 0).value).toBe('#CYCLE');
    expect(String(cell(2, 0).message)).toBe('Circular reference');
    expect([value(2, 1), value(2, 2)]).toEqual([null, null]);
    expect([value(0, 0), value(0, 1), value(0, 4), value(0, 5)]).toEqual([1, 2, 3, 5]);
    type(2, 0, '=SEQUENCE(1,3)*2');
    expect([value(0, 0), value(0, 4)]).toEqual([5, 11]);
  });
});
