import { describe, expect, it } from 'vitest';
import { fishLog, type FishRow } from '../../src/core/fish-log';
import { evenSurvival, rearingStages, timesThrough } from '../../src/core/rearing-stages';
import type { Species } from '../../src/core/tables/species';
import { randomSource } from '../../src/experience/random-source';
import { survivalByStage } from '../../src/experience/survival-records';
import { speciesTable } from '../../src/functions/species-table';

const tilapia = speciesTable.book.find('Nile tilapia') as Species;
const START = 45000;
const tanks = ['A', 'B'].map((name) => ({ name, species: tilapia, volume: 10000 }));

function lived(rows: readonly FishRow[]) {
  const water = Array.from({ length: 12 }, () => 28);
  const log = fishLog(rows, { tanks, water, asOf: START + 2000 });
  expect(log.rows.map(({ status, problem }) => [status, problem])).toEqual(
    rows.map(() => ['done', undefined]),
  );
  return survivalByStage(rows, log.rows).map(({ stage, share }) => [stage, share] as const);
}

const row = (day: number, kind: string, more: Partial<FishRow> = {}): FishRow => ({
  date: START + day,
  kind,
  tank: 'A',
  ...more,
});
/** Weight after so many days from 1 g at a coefficient of 1.1, written out. */
const grams = (days: number): number => (1 + (1.1 / 1000) * 28 * days) ** 3;

describe('survival by stage of rearing', () => {
  it('is told from the deaths of a lot in each of its weights, whatever was sold between', () => {
    expect(
      lived([
        row(0, 'stocked', { fish: 1000, weight: 1 }),
        row(40, 'died', { fish: 100 }),
        row(87, 'weighed', { weight: 50 }),
        row(100, 'sold', { fish: 300, weight: 60 }),
        row(120, 'died', { fish: 60 }),
        row(226, 'sold', { fish: 540, weight: 500 }),
      ]),
    ).toEqual([
      ['fingerlings', expect.closeTo(0.9, 9)],
      ['grow-out', expect.closeTo(0.9, 9)],
    ]);
  });

  it('counts fish that are missing, and follows them into the next tank', () => {
    expect(
      lived([
        row(0, 'stocked', { fish: 1000, weight: 1 }),
        row(80, 'counted', { fish: 800, weight: 45 }),
        row(90, 'moved', { toTank: 'B', fish: 800 }),
        row(100, 'died', { tank: 'B', fish: 200 }),
        row(230, 'sold', { tank: 'B', fish: 600, weight: 500 }),
      ]),
    ).toEqual([
      ['fingerlings', expect.closeTo(0.8, 9)],
      ['grow-out', expect.closeTo(0.75, 9)],
    ]);
  });

  it('says nothing of a stage that fish are still in, or of which they went through little', () => {
    const young = [row(0, 'stocked', { fish: 100, weight: 1 }), row(30, 'weighed', { weight: 8 })];
    expect(lived(young)).toEqual([]);
    const passed = [
      row(0, 'stocked', { fish: 100, weight: 40 }),
      row(40, 'weighed', { weight: 99 }),
    ];
    expect(lived(passed)).toEqual([]);
  });

  it('finds the truth of 200 farms, with a bias below 2 percent', () => {
    const FARMS = 200;
    const off = { fingerlings: 0, 'grow-out': 0 };
    for (let seed = 1; seed <= FARMS; seed++) {
      const random = randomSource(seed);
      const truth = {
        fingerlings: 0.75 + 0.2 * random.share(),
        'grow-out': 0.9 + 0.09 * random.share(),
      };
      const rows: FishRow[] = [row(0, 'stocked', { fish: 2000, weight: 5 })];
      let [alive, weight] = [2000, 5];
      for (let week = 1; weight < 400; week++) {
        const next = grams(23 + 7 * week);
        const dies = rearingStages
          .map((stage) => (stage === 'fry' ? 1 : truth[stage] ** timesThrough(stage, weight, next)))
          .reduce((all, one) => all * one, 1);
        let died = 0;
        for (let fish = 0; fish < alive; fish++) if (random.share() > dies) died++;
        weight = next;
        if (died > 0) rows.push(row(7 * week, 'died', { fish: died }));
        alive -= died;
        if (week % 4 === 0) rows.push(row(7 * week, 'weighed', { weight }));
      }
      rows.push(row(7 * 60, 'sold', { fish: alive, weight }));
      for (const [stage, share] of lived(rows))
        if (stage !== 'fry') off[stage] += share / truth[stage] - 1;
    }
    expect(Math.abs(off.fingerlings / FARMS)).toBeLessThan(0.02);
    expect(Math.abs(off['grow-out'] / FARMS)).toBeLessThan(0.02);
  });
});

describe('stages together', () => {
  it('come to the survival of the whole life where it is spread evenly', () => {
    for (const [from, to] of [
      [0.5, 30],
      [20, 400],
      [60, 900],
      [0.1, 2000],
    ] as const) {
      const all = rearingStages
        .map((stage) => evenSurvival(stage, 0.85, from, to) ** timesThrough(stage, from, to))
        .reduce((product, one) => product * one, 1);
      expect(all).toBeCloseTo(0.85, 12);
    }
  });
});
