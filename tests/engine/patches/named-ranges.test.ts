import { Model } from '@odoo/o-spreadsheet';
import { beforeAll, describe, expect, it } from 'vitest';
import { planWorkbook } from '../../../src/plan/plan';
import { gridFrom } from '../../../src/engine/engine';
import { quietly } from '../../../src/engine/quietly';
import { sampleFarm } from '../../tools/farms';
import { shownValues } from '../../tools/shown-values';

describe('names in the engine', () => {
  const plan = planWorkbook(sampleFarm('larkfield-school'), { formulas: 'live' });
  let model: Model;
  const sheetIdOf = (name: string): string => model.getters.getSheetIdByName(name) as string;
  const type = (sheet: string, row: number, col: number, content: string): void => {
    quietly(() => model.dispatch('UPDATE_CELL', { sheetId: sheetIdOf(sheet), row, col, content }));
  };
  const againAll = (): void => {
    quietly(() => model.dispatch('EVALUATE_CELLS'));
  };

  beforeAll(() => {
    model = quietly(() => new Model(gridFrom(plan)));
  });

  it('settles every cell of a plan at once: computing all again changes nothing', () => {
    const first = shownValues(model);
    expect(Object.keys(first).length).toBeGreaterThan(2000);
    againAll();
    expect(shownValues(model)).toEqual(first);
  });

  it('carries a change through blocks that grow, shrink or turn into an error', () => {
    const { sheet, area } = plan.names.find(({ name }) => name === 'Batch_weeks') ?? {};
    const cells = plan.sheets.find(({ name }) => name === sheet)?.rows;
    const inputs = [area].flatMap((at) => {
      const value = at && cells?.[at.row]?.[at.column]?.value;
      return at && typeof value === 'number' ? [[at.row, at.column, value] as const] : [];
    });
    expect(inputs).toHaveLength(1);
    for (const [row, column, value] of inputs) {
      for (const content of [String(value * 0.6), 'nonsense', String(value)]) {
        type(sheet ?? '', row, column, content);
        const followed = shownValues(model);
        againAll();
        expect(shownValues(model)).toEqual(followed);
      }
    }
  });

  it('records no dependency twice, however often it computes', () => {
    interface Graph {
      readonly dependents: ReadonlyMap<string, { readonly ranges: ReadonlySet<object> }>;
    }
    const { evaluator } = (
      model as unknown as {
        uiHandlers: { evaluator?: { formulaDependencies: () => Graph } }[];
      }
    ).uiHandlers.find((handler) => handler.evaluator) as {
      evaluator: { formulaDependencies: () => Graph };
    };
    const size = (): number =>
      [...evaluator.formulaDependencies().dependents.values()].reduce(
        (sum, { ranges }) => sum + ranges.size,
        0,
      );
    againAll();
    const before = size();
    expect(before).toBeGreaterThan(1000);
    againAll();
    againAll();
    expect(size()).toBe(before);
  });
});
