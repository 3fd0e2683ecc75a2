import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  gapOf,
  LinearModel,
  loadSolver,
  type Progress,
  type Solver,
  type Variable,
} from '../../src/ahead/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await loadSolver();
});

/** Things of a weight and a worth into sacks of a size. */
function packing(weights: readonly number[], worth: readonly number[], size: number) {
  const model = new LinearModel();
  const taken = weights.map((_, at) =>
    model.variable({ max: 1, whole: true, cost: -(worth[at] as number) }),
  );
  model.row(
    taken.map((variable, at) => [variable, weights[at] as number]),
    { max: size },
  );
  return model;
}

describe('the solver', () => {
  it('finds the same optimum of small packings as trying them all', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 30 })), {
          minLength: 1,
          maxLength: 9,
        }),
        fc.integer({ min: 1, max: 100 }),
        (things, size) => {
          let best = 0;
          for (let choice = 0; choice < 2 ** things.length; choice++) {
            const chosen = things.filter((_, at) => (choice >> at) & 1);
            const weight = chosen.reduce((sum, [one]) => sum + one, 0);
            if (weight <= size) {
              best = Math.max(
                best,
                chosen.reduce((sum, [, one]) => sum + one, 0),
              );
            }
          }
          const model = packing(
            things.map(([weight]) => weight),
            things.map(([, worth]) => worth),
            size,
          );
          const solved = solve(model);
          expect(solved.status).toBe('optimal');
          expect(solved.objective).toBe(best === 0 ? 0 : -best);
          expect(model.violationOf(solved.values as Float64Array)).toBe(0);
        },
      ),
      { numRuns: 15 },
    );
  });

  it('solves continuous problems with a constant in the objective', () => {
    const model = new LinearModel();
    const x = model.variable({ cost: 2 });
    const y = model.variable({ cost: 3, max: 4 });
    model.addConstant(10);
    model.addCost(y, 1);
    model.row(
      [
        [x, 1],
        [y, 1],
        [y, 1],
      ],
      { min: 6 },
    );
    const { values, objective, gap } = solve(model);
    // y covers twice as much at twice the cost.
    expect(objective).toBeCloseTo(22, 9);
    expect((values?.[x] as number) + 2 * (values?.[y] as number)).toBeCloseTo(6, 9);
    expect(gap).toBe(0);
  });

  it('recognizes infeasible and unbounded problems', () => {
    const none = new LinearModel();
    const x = none.variable({ whole: true });
    none.row([[x, 2]], { min: 1, max: 1.5 });
    expect(solve(none)).toMatchObject({ status: 'infeasible', values: undefined });
    const endless = new LinearModel();
    endless.row([[endless.variable({ cost: -1 }), 1]], { min: 0 });
    expect(solve(endless).status).toBe('unbounded');
  });

  it('keeps fixed variables fixed', () => {
    const model = packing([5, 4, 3], [9, 5, 5], 8);
    model.fix(0 as Variable, 0);
    expect(solve(model).objective).toBe(-10);
  });

  /** Many things of nearly the same worth for their weight: nothing is best at a glance. */
  const hard = () => {
    const model = new LinearModel();
    const count = 60;
    const taken = Array.from({ length: count }, () =>
      model.variable({ max: 1, whole: true, cost: -1 }),
    );
    for (let row = 0; row < 30; row++) {
      model.row(
        taken.map((variable, at) => [
          variable,
          7 + ((row * 31 + at * 17 + ((row * at) % 13)) % 41),
        ]),
        { max: 500 },
      );
    }
    return model;
  };

  it('ends on time with the best solution so far, a bound and the gap', () => {
    const solved = solve(hard(), { seconds: 1, gap: 0 });
    // One second as it was told, and what other work on the machine takes from it.
    expect(solved.seconds).toBeLessThan(20);
    if (solved.status === 'limit') expect(solved.gap).toBeGreaterThan(0);
    expect(solved.bound).toBeLessThanOrEqual(solved.objective as number);
    expect(hard().violationOf(solved.values as Float64Array)).toBeLessThan(1e-6);
  });

  it('stops when told to, and reports its progress', () => {
    const told: Progress[] = [];
    const began = Date.now();
    const solved = solve(hard(), {
      seconds: 30,
      gap: 0,
      progress: (now) => told.push(now),
      stop: () => Date.now() - began > 800,
    });
    expect(['stopped', 'optimal']).toContain(solved.status);
    if (solved.status === 'stopped') expect(told.length).toBeGreaterThan(0);
    expect(solved.seconds).toBeLessThan(25);
  });

  it('starts from a given plan', () => {
    const model = packing([5, 4, 3], [9, 5, 5], 8);
    expect(solve(model, { start: [1, 0, 1] }).objective).toBe(-14);
  });

  it('measures the gap as a share of the objective', () => {
    expect(gapOf(100, 96)).toBeCloseTo(0.04, 12);
    expect(gapOf(-100, -104)).toBeCloseTo(0.04, 12);
    expect(gapOf(5, 5)).toBe(0);
    expect(gapOf(0, -1)).toBe(Infinity);
    expect(gapOf(undefined, 3)).toBeUndefined();
  });
});
