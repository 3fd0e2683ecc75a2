import { describe, expect, it } from 'vitest';
import { LinearModel } from '../../src/ahead/linear-model';
import { solve } from '../../src/ahead/solver';

/** A knapsack whose best filling was found by trying all of them. */
function knapsack(): { model: LinearModel; best: number } {
  const items = [
    [60, 10],
    [100, 20],
    [120, 30],
    [75, 17],
    [33, 5],
    [81, 23],
  ] as const;
  const room = 50;
  const model = new LinearModel('max');
  const taken = items.map(([value]) => model.variable({ upper: 1, integer: true, cost: value }));
  model.row(
    { upper: room },
    items.map(([, weight], i) => [taken[i]!, weight]),
  );
  let best = 0;
  for (let set = 0; set < 1 << items.length; set++) {
    const chosen = items.filter((_, i) => (set >> i) & 1);
    const weight = chosen.reduce((sum, [, w]) => sum + w, 0);
    if (weight <= room) {
      best = Math.max(
        best,
        chosen.reduce((sum, [value]) => sum + value, 0),
      );
    }
  }
  return { model, best };
}

describe('the solver', () => {
  it('finds the filling of a knapsack that trying all of them finds', async () => {
    const { model, best } = knapsack();
    const solved = await solve(model, { gap: 0 });
    expect(solved.state).toBe('best');
    expect(solved.objective).toBeCloseTo(best, 6);
    expect(solved.bound).toBeCloseTo(best, 6);
  });

  it('says where no plan fits', async () => {
    const model = new LinearModel('min');
    const x = model.variable({ upper: 3, integer: true, cost: 1 });
    model.row({ lower: 4 }, [[x, 1]]);
    const solved = await solve(model);
    expect(solved.state).toBe('impossible');
    expect(() => solved.value(x)).toThrow('no plan');
  });

  it('adds up what a row says twice of one variable, and solves models without whole numbers', async () => {
    const model = new LinearModel('max');
    const x = model.variable({ cost: 1 });
    model.row({ upper: 6 }, [
      [x, 1],
      [x, 2],
    ]);
    const solved = await solve(model);
    expect(solved.value(x)).toBeCloseTo(2, 9);
    expect(solved.bound).toBeCloseTo(2, 9);
  });

  it('refuses a variable or a factor that is no number', () => {
    const model = new LinearModel('max');
    expect(() => model.variable({ cost: Number.NaN })).toThrow('cannot be');
    const x = model.variable();
    expect(() => model.row({}, [[x, Number.NaN]])).toThrow('no number');
  });
});
