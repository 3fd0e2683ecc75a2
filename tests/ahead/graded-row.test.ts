import { beforeAll, describe, expect, it } from 'vitest';
import { withRows } from '../../src/ahead/fish-facts';
import { farmOfPlan, planFish } from '../../src/ahead/fish-plan';
import type { FishWanted } from '../../src/ahead/fish-wanted';
import { gradedRow, type GradingWish } from '../../src/ahead/graded-row';
import { isOwnFishRow } from '../../src/ahead/planner-rows';
import { loadSolver, type Solver } from '../../src/ahead/solver';
import { writtenRows } from '../../src/ahead/written-rows';
import { fishLog } from '../../src/core/fish-log';
import { serialOf } from '../../src/core/serial-date';
import { type Species, species } from '../../src/core/tables/species';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { numberOf } from '../tools/card-value';
import { planFaults } from './plan-faults';

const tilapia = species.find(({ name }) => name === 'Nile tilapia') as Species;
const wishes: Omit<FishWanted, 'groups' | 'fixed'> = {
  species: tilapia,
  coefficient: 1.1,
  water: new Array<number>(12).fill(28),
  asOf: serialOf({ year: 2026, month: 4, day: 1 }),
  weeks: 16,
  tanks: ['A', 'B', 'C'].map((name) => ({ name, volume: 5000, density: 50 })),
  kgMonth: 120,
  startWeight: 60,
  sellWeight: 600,
  survival: 0.95,
};
const standing = [{ tank: 'A', fish: 500, weight: 400 }];
const graded = (wish: Partial<GradingWish>, on = standing) =>
  gradedRow({ tank: 'A', spread: 0.25, ...wish }, wishes, on, []);

let solve: Solver;
beforeAll(async () => {
  solve = await loadSolver();
});

describe('a grading that is asked for', () => {
  it('takes the heaviest third, at the mean of the upper tail of a normal distribution', () => {
    const row = graded({});
    expect(row).toMatchObject({ kind: 'sold', tank: 'A', date: wishes.asOf + 1, planned: true });
    const log = fishLog(
      [{ date: wishes.asOf, kind: 'stocked', tank: 'A', fish: 500, weight: 400 }, row],
      farmOfPlan({ ...wishes, groups: [] }),
    );
    const [before] = fishLog(
      [{ date: wishes.asOf, kind: 'stocked', tank: 'A', fish: 500, weight: 400 }],
      farmOfPlan({ ...wishes, groups: [] }),
    ).stateOn(row.date);
    const [after] = log.stateOn(row.date);
    const { fish = 0, weight = 0 } = before ?? {};
    expect(row.fish).toBe(Math.round(fish / 3));
    // To the head and to the gram.
    expect((after?.fish ?? 0) + row.fish).toBe(fish);
    const mass = (after?.fish ?? 0) * (after?.weight ?? 0) + row.fish * row.expected;
    expect(mass).toBeCloseTo(fish * weight, 4);
    // Density 0.3636 where a third lies above, z = 0.4307: from memory of any table of the normal distribution.
    expect(row.expected / weight).toBeCloseTo(1 + 0.25 * (0.3636 / 0.3333), 2);
  });

  it('takes all fish above a size, as many as STOCK.ABOVE gives', () => {
    const row = graded({ above: 500, toTank: 'b' });
    expect(row).toMatchObject({ kind: 'moved', toTank: 'B' });
    const [state] = fishLog(
      [{ date: wishes.asOf, kind: 'stocked', tank: 'A', fish: 500, weight: 400 }],
      farmOfPlan({ ...wishes, groups: [] }),
    ).stateOn(row.date);
    expect(row.fish).toBe(numberOf('STOCK.ABOVE', state?.fish, state?.weight, 500, 0.25));
    expect(row.expected).toBeGreaterThan(500);
  });

  it('is a fact that the plan builds on, without losing a single fish', () => {
    const row = graded({ toTank: 'B' });
    const { wanted, notes } = withRows(wishes, standing, [row]);
    expect(notes).toEqual([]);
    expect(wanted.groups.map(({ tank }) => tank)).toEqual(['A', 'B']);
    const [small, large] = wanted.groups;
    expect(large?.weight).toBeGreaterThan(1.4 * (small?.weight ?? 0));
    const plan = planFish(wanted, solve, { seconds: 10, gap: 0.05 });
    expect(planFaults(wanted, plan)).toEqual([]);
    const soldOf = (tank: string): number =>
      plan.rows.find(({ kind, tank: from }) => kind === 'sold' && from === tank)?.date ?? Infinity;
    expect(soldOf('B')).toBeLessThan(soldOf('A'));
  });

  it('is written as a row of the planner with its weight', () => {
    const farm = readFarm(demoFarm);
    const [written] = writtenRows(farm, [graded({ toTank: 'B' })]).fishLog;
    expect(written?.weight).toBeGreaterThan(400);
    const { what, planned, ...row } = written as NonNullable<typeof written>;
    expect(isOwnFishRow({ ...row, kind: what, planned: planned === 'planned' })).toBe(true);
  });

  it.each([
    [{ tank: 'Z' }, /there is no tank "Z"/],
    [{ toTank: 'a' }, /from A to itself/],
    [{ spread: 0.6 }, /spread must be/],
    [{ on: wishes.asOf }, /after the day of the plan/],
    [{ above: 2000 }, /none of the 500 fish/],
    [{ tank: 'B' }, /B holds no fish/],
  ] as const)('%j: says what would be right', (wish, sentence) => {
    expect(() => graded(wish)).toThrow(sentence);
  });

  it('waits for water in which the fish can be handled', () => {
    const cold = { ...wishes, water: new Array<number>(12).fill(15) };
    expect(() => gradedRow({ tank: 'A', spread: 0.25 }, cold, standing, [])).toThrow(
      /are not handled on 2026-04-02, in water of 15 °C/,
    );
  });
});
