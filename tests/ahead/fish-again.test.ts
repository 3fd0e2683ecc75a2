import { beforeAll, describe, expect, it } from 'vitest';
import { changesBetween, type FishWishes, planAgain } from '../../src/ahead/fish-again';
import { PLANNER_REMARK } from '../../src/ahead/fish-moves';
import { loadSolver, type Solver } from '../../src/ahead/solver';
import { farmOfPlan } from '../../src/ahead/fish-plan';
import { fishLog, type FishRow } from '../../src/core/fish-log';
import { serialOf } from '../../src/core/serial-date';
import { type Species, species } from '../../src/core/tables/species';

const day = (month: number, date: number): number => serialOf({ year: 2026, month, day: date });
const tilapia = species.find(({ name }) => name === 'Nile tilapia') as Species;
const wishes = (asOf: number): FishWishes => ({
  species: tilapia,
  coefficient: 1.1,
  water: new Array<number>(12).fill(28),
  asOf,
  weeks: 20,
  tanks: ['A', 'B', 'C'].map((name) => ({ name, volume: 5000, density: 50 })),
  kgMonth: 150,
  startWeight: 60,
  sellWeight: 600,
  survival: 0.95,
});

let solve: Solver;
beforeAll(async () => {
  solve = await loadSolver();
});
const options = { seconds: 10, gap: 0.05 };

describe('planning again from today', () => {
  const done: FishRow[] = [
    { date: day(2, 2), kind: 'stocked', tank: 'A', fish: 400, weight: 60, lot: 'first' },
    { date: day(2, 20), kind: 'died', tank: 'A', fish: 6, remark: 'after the pump stopped' },
  ];

  it('keeps what is done, takes back its own rows, and says what a weighing changes', () => {
    const first = planAgain(done, wishes(day(4, 1)), solve, options);
    expect(first.takenBack).toEqual([]);
    expect(first.rows.slice(0, 2)).toEqual(done);
    expect(first.changes.every((text) => text.startsWith('new: '))).toBe(true);
    const sale = first.plan.rows.find(({ kind, tank }) => kind === 'sold' && tank === 'A');
    // Two weeks later the fish weigh a quarter less than was reckoned.
    const asOf = day(4, 15);
    const expected = fishLog(done, farmOfPlan({ ...wishes(asOf), groups: [] })).stateOn(asOf)[0];
    const behind: FishRow[] = [
      ...first.rows.filter(({ date, planned }) => !planned || (date as number) >= asOf),
      { date: asOf, kind: 'weighed', tank: 'A', weight: 0.75 * (expected?.weight as number) },
    ];
    const again = planAgain(behind, wishes(asOf), solve, options);
    expect(again.rows.slice(0, 3)).toEqual(behind.filter(({ planned }) => !planned));
    expect(again.takenBack.map((at) => behind[at]?.remark)).toEqual(
      again.takenBack.map(() => PLANNER_REMARK),
    );
    const later = again.plan.rows.find(({ kind, tank }) => kind === 'sold' && tank === 'A');
    expect(later?.date).toBeGreaterThan(sale?.date as number);
    expect(again.changes.some((text) => /^sell \d+ fish of A on .*, not on /.test(text))).toBe(
      true,
    );
    const log = fishLog(again.rows, farmOfPlan({ ...wishes(asOf), groups: [] }));
    expect(log.rows.filter(({ problem, doubt }) => problem ?? doubt)).toEqual([]);
  });

  it('plans around rows typed for later, and on from what they leave', () => {
    const asOf = day(4, 1);
    const typed: FishRow = {
      date: day(5, 4),
      kind: 'moved',
      tank: 'A',
      toTank: 'b',
      fish: 100,
      planned: true,
    };
    const { rows, plan, notes } = planAgain([...done, typed], wishes(asOf), solve, options);
    expect(rows[2]).toEqual(typed);
    expect(notes).toEqual([]);
    const early = plan.rows.filter(({ date }) => date <= day(5, 4));
    expect(early.flatMap(({ tank, toTank }) => [tank, toTank])).not.toContain('A');
    expect(early.flatMap(({ tank, toTank }) => [tank, toTank])).not.toContain('B');
    expect(plan.rows.some(({ tank }) => tank === 'A')).toBe(true);
    const log = fishLog(rows, farmOfPlan({ ...wishes(asOf), groups: [] }));
    expect(log.rows.filter(({ problem, doubt }) => problem ?? doubt)).toEqual([]);
  });

  it('lists what is new, gone, later or changed, day by day', () => {
    const row = (over: FishRow): FishRow => ({ kind: 'sold', tank: 'A', fish: 10, ...over });
    expect(
      changesBetween(
        [
          row({ date: day(5, 1) }),
          row({ date: day(6, 1), fish: 20 }),
          { date: day(5, 2), kind: 'stocked', tank: 'B', fish: 300 },
          { date: day(5, 3), kind: 'moved', tank: 'B', toTank: 'C', fish: 50 },
          { date: day(8, 1), kind: 'sold', tank: 'C', fish: 400 },
          { date: day(8, 8), kind: 'sold', tank: 'C', fish: 30 },
        ],
        [
          row({ date: day(5, 8), fish: 12 }),
          row({ date: day(6, 1), fish: 20 }),
          { date: day(5, 2), kind: 'stocked', tank: 'B', fish: 280 },
          { date: day(7, 1), kind: 'stocked', tank: 'C', fish: 5 },
          { date: day(8, 8), kind: 'sold', tank: 'C', fish: 31 },
        ],
      ),
    ).toEqual([
      'stock B with 280 fish on 2026-05-02, not 300',
      'no longer: move 50 fish from B to C on 2026-05-03',
      'sell 12 fish of A on 2026-05-08, not on 2026-05-01, and not 10',
      'new: stock C with 5 fish on 2026-07-01',
      'no longer: sell 400 fish of C on 2026-08-01',
      'as planned but for up to 2 fish or 2 %, since more or fewer live: 1 row',
    ]);
  });
});
