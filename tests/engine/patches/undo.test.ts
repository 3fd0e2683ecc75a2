import { Model } from '@odoo/o-spreadsheet';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { planWorkbook } from '../../../src/plan/plan';
import { gridFrom } from '../../../src/engine/engine';
import { quietly } from '../../../src/engine/quietly';
import { sampleFarm } from '../../tools/farms';
import { shownValues } from '../../tools/shown-values';

interface Inside {
  readonly session: {
    readonly revisions: {
      readonly tree: { readonly branches: readonly { readonly operations: unknown[] }[] };
    };
  };
  readonly uiHandlers: readonly {
    readonly evaluator?: { computeFormulaCell(...cell: unknown[]): unknown };
  }[];
}

/** How many formulas are computed from now on. */
function countFormulas(model: Model): () => number {
  const { evaluator } = (model as unknown as Inside).uiHandlers.find(
    (handler) => handler.evaluator,
  ) as Required<Inside['uiHandlers'][number]>;
  const compute = evaluator.computeFormulaCell.bind(evaluator);
  let count = 0;
  evaluator.computeFormulaCell = (...cell) => {
    count++;
    return compute(...cell);
  };
  return () => count;
}

const keptSteps = (model: Model): number =>
  (model as unknown as Inside).session.revisions.tree.branches.reduce(
    (sum, { operations }) => sum + operations.length,
    0,
  );

describe('undo on the workbench', () => {
  let model: Model;
  const undo = (): boolean => quietly(() => model.dispatch('REQUEST_UNDO')).isSuccessful;
  const redo = (): boolean => quietly(() => model.dispatch('REQUEST_REDO')).isSuccessful;

  describe('of a plan', () => {
    const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' });
    const sheet = plan.sheets.findIndex(({ name }) => name === 'Tanks');
    const inputs = plan.sheets[sheet]?.rows.flatMap((row, r) =>
      row.flatMap((cell, c) =>
        cell?.look === 'input' && typeof cell.value === 'number' ? [[r, c] as const] : [],
      ),
    );
    let first: Record<string, string>;
    let sheetId: string;
    let opened: Model;
    beforeAll(() => {
      model = opened = quietly(() => new Model(gridFrom(plan)));
      sheetId = model.getters.getSheetIdByName('Tanks') as string;
      first = shownValues(model);
    });
    beforeEach(() => {
      model = opened;
    });

    it('restores every value that followed from a typed one, and redo the other way', () => {
      expect(inputs?.length).toBeGreaterThan(0);
      for (const [row, col] of inputs?.slice(0, 1) ?? []) {
        for (const content of ['1.5', 'nonsense']) {
          quietly(() => model.dispatch('UPDATE_CELL', { sheetId, row, col, content }));
          const then = shownValues(model);
          expect(then).not.toEqual(first);
          expect(undo()).toBe(true);
          expect(shownValues(model)).toEqual(first);
          expect(redo()).toBe(true);
          expect(shownValues(model)).toEqual(then);
          undo();
        }
      }
    });

    it('brings back a deleted block', () => {
      const zone = model.getters.getSheetZone(sheetId);
      const target = [{ ...zone, bottom: Math.min(zone.bottom, 30), right: 9 }];
      quietly(() => model.dispatch('DELETE_CONTENT', { sheetId, target }));
      expect(shownValues(model)).not.toEqual(first);
      undo();
      expect(shownValues(model)).toEqual(first);
    });

    it('computes only what depends on the cell', () => {
      const counted = countFormulas(model);
      const to = { sheetId, row: 40, col: 12 };
      quietly(() => model.dispatch('UPDATE_CELL', { ...to, content: '=1+1' }));
      const typed = counted();
      expect(typed).toBeGreaterThan(0);
      expect(typed).toBeLessThan(200);
      undo();
      expect(shownValues(model)).toEqual(first);
      redo();
      expect(counted()).toBeLessThanOrEqual(3 * typed);
      expect(model.getters.getEvaluatedCell(to).value).toBe(2);
    });
  });

  describe('of a small sheet', () => {
    const sheetId = 's';
    const type = (row: number, col: number, content: string): void => {
      quietly(() => model.dispatch('UPDATE_CELL', { sheetId, row, col, content }));
    };
    const value = (row: number, col: number): unknown =>
      model.getters.getEvaluatedCell({ sheetId, row, col }).value;
    beforeEach(() => {
      model = quietly(
        () =>
          new Model({
            sheets: [{ id: sheetId, colNumber: 9, rowNumber: 9, cells: { A1: '0', B1: '=A1+1' } }],
          }),
      );
    });

    it('undoes the last of many steps, in order, and keeps no others', () => {
      for (let i = 1; i <= 500; i++) type(0, 0, String(i));
      expect(keptSteps(model)).toBeLessThan(400);
      let undone = 0;
      for (; undone < 60; undone++) expect(undo()).toBe(true);
      expect(value(0, 1)).toBe(441);
      for (let i = 0; i < 20; i++) redo();
      expect(value(0, 1)).toBe(461);
      type(0, 0, '5000');
      expect(keptSteps(model)).toBeLessThan(400);
      undo();
      expect(value(0, 1)).toBe(461);
      let left = 0;
      while (undo()) left++;
      expect(left).toBeGreaterThan(50);
      expect(value(0, 1)).toBe(461 - left);
    });

    it('follows a block that fills several cells, in and out of the way', () => {
      type(2, 2, '=SEQUENCE(1,A1+2)');
      type(2, 5, '=SUM(C3:E3)');
      expect(value(2, 5)).toBe(3);
      type(2, 3, 'in the way');
      expect(value(2, 2)).toBe('#SPILL!');
      undo();
      expect([value(2, 2), value(2, 3), value(2, 5)]).toEqual(['1', '2', 3].map(Number));
      type(0, 0, '1');
      expect([value(2, 4), value(2, 2)]).toEqual([3, 1]);
      undo();
      expect([value(2, 4), value(2, 5)]).toEqual([null, 3]);
      undo();
      undo();
      expect([value(2, 2), value(2, 3)]).toEqual([null, null]);
      redo();
      expect([value(2, 2), value(2, 3)]).toEqual([1, 2]);
    });

    it('undoes what is more than cells by computing everything', () => {
      type(4, 0, '=SUM(A1:A3)+B1');
      quietly(() =>
        model.dispatch('ADD_COLUMNS_ROWS', {
          sheetId,
          sheetName: model.getters.getSheetName(sheetId),
          dimension: 'ROW',
          base: 0,
          position: 'before',
          quantity: 1,
        }),
      );
      expect(value(5, 0)).toBe(1);
      undo();
      type(0, 0, '4');
      expect(value(4, 0)).toBe(9);
    });
  });
});
