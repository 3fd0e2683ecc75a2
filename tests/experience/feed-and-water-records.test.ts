import { describe, expect, it } from 'vitest';
import { fishLog, type FishRow } from '../../src/core/fish-log';
import { species } from '../../src/core/tables/species';
import { conversionRecords, type Feeding } from '../../src/experience/feed-records';
import { alkalinityPerFeed, waterUsed } from '../../src/experience/water-records';
import { randomNumbers } from '../soak/random';

const [tilapia] = species;
const tanks = ['A', 'B'].map((name) => ({ name, species: tilapia as (typeof species)[0] }));
const water = Array.from({ length: 12 }, () => 28);
const START = 45_000;

const records = (rows: readonly FishRow[], feedings: readonly Feeding[]) =>
  conversionRecords({
    rows,
    outcomes: fishLog(rows, { tanks, water, asOf: START + 400 }).rows,
    feedings,
    speciesIn: () => tilapia,
  });

const daily = (tank: string, from: number, to: number, given: number): Feeding[] =>
  Array.from({ length: to - from }, (_, i) => ({ date: START + from + i, tank, given }));

const row = (day: number, kind: string, rest: Partial<FishRow>): FishRow => ({
  date: START + day,
  kind,
  tank: 'A',
  ...rest,
});

describe('conversion between two weighings', () => {
  it('is feed over gain, as it is defined (FAO Technical Paper 589, chapter 7)', () => {
    const rows = [
      row(0, 'stocked', { fish: 500, weight: 50 }),
      row(28, 'weighed', { fish: 30, weight: 90 }),
      row(56, 'weighed', { fish: 30, weight: 150 }),
    ];
    // 20 kg gained of 34 kg, then 30 kg of 51 kg; feed of the last day is of the next time.
    const found = records(rows, [
      ...daily('A', 0, 28, 34 / 28),
      ...daily('A', 28, 56, 51 / 28),
      ...daily('A', 56, 70, 99),
    ]);
    expect(found.map(({ conversion }) => conversion.toFixed(6))).toEqual(['1.700000', '1.700000']);
    expect(found[0]).toMatchObject({ from: START, to: START + 28, tank: 'A', died: 0 });
  });

  it('counts what was sold and moved on as gained, and what died as lost', () => {
    const rows = [
      row(0, 'stocked', { fish: 500, weight: 100 }),
      row(0, 'sold', { fish: 100, weight: 100 }),
      row(0, 'moved', { fish: 100, weight: 100, toTank: 'B' }),
      row(0, 'died', { fish: 50 }),
      row(41, 'weighed', { weight: 200 }),
    ];
    const [found] = records(rows, daily('A', 0, 41, 1));
    // 50 kg at first; 10 kg and 10 kg left, 50 kg are there: 20 kg gained, of which the dead took 5 kg along.
    expect(found?.gain).toBeCloseTo(20, 1);
    expect(found?.died).toBeCloseTo(5, 1);
    expect(found?.conversion).toBeCloseTo(41 / 20, 1);
  });

  it('goes along with a batch that moves into an empty tank', () => {
    const rows = [
      row(0, 'stocked', { fish: 500, weight: 50 }),
      row(20, 'moved', { fish: 500, toTank: 'B' }),
      row(40, 'weighed', { tank: 'B', weight: 100 }),
    ];
    const feed = [...daily('A', 0, 20, 1), ...daily('B', 20, 40, 1.5)];
    expect(records(rows, feed)).toMatchObject([{ tank: 'B', from: START, feed: 50, gain: 25 }]);
  });

  it('is withheld where feed was not recorded, other fish were mixed in, or nothing was gained', () => {
    const rows = [row(0, 'stocked', { fish: 500, weight: 50 }), row(28, 'weighed', { weight: 90 })];
    const all = daily('A', 0, 28, 1);
    expect(records(rows, all)).toHaveLength(1);
    const without = (...days: number[]): Feeding[] =>
      all.filter(({ date }) => !days.includes(date - START));
    expect(records(rows, without(4, 5))).toHaveLength(1);
    expect(records(rows, without(4, 5, 6))).toHaveLength(0);
    expect(records(rows, without(25, 26, 27))).toHaveLength(0);
    // A line that says that nothing was given is known.
    expect(
      records(rows, [...without(4, 5, 6), { date: START + 5, tank: 'a ', given: 0 }]),
    ).toHaveLength(1);
    const mixed = [
      row(0, 'stocked', { tank: 'B', fish: 90, weight: 400 }),
      row(10, 'moved', { tank: 'B', fish: 40, toTank: 'A' }),
    ];
    expect(records([...rows, ...mixed], all)).toHaveLength(0);
    const shrunk = [rows[0] as FishRow, row(28, 'weighed', { weight: 49 })];
    expect(records(shrunk, all)).toHaveLength(0);
  });

  it('finds the conversion of 200 simulated batches, with the noise of weighing 30 fish', () => {
    const random = randomNumbers(17);
    const normal = (): number =>
      Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    let sum = 0;
    for (let i = 0; i < 200; i++) {
      const truth = 1.3 + 0.6 * random();
      const rows = [row(0, 'stocked', { fish: 600, weight: 50 })];
      const feed: Feeding[] = [];
      let fish = 600;
      let grams = 50;
      for (let day = 1; day <= 90; day++) {
        const gain = grams * 0.02;
        feed.push({ date: START + day - 1, tank: 'A', given: (fish * gain * truth) / 1000 });
        grams += gain;
        if (day % 9 === 0) {
          fish -= 2;
          rows.push(row(day, 'died', { fish: 2 }));
        }
      }
      // Weights of single fish spread by 20 %, so that the mean of 30 is known to 3.7 %.
      rows.push(row(90, 'weighed', { fish: 30, weight: grams * (1 + 0.037 * normal()) }));
      const [found] = records(rows, feed);
      sum += (found?.conversion ?? NaN) / truth;
    }
    // The dead ate along: of 600 fish 20 died with their gain, at most 3 in 100 of it.
    expect(sum / 200).toBeGreaterThan(0.99);
    expect(sum / 200).toBeLessThan(1.03);
  });
});

describe('what the water used', () => {
  it('is fresh water between two lines that say how much', () => {
    const rows = [0, 3, 7, 14, 14, 21].map((day, i) => ({ date: START + day, added: 100 * i }));
    // 300 L in 7 days; 700 L in 7 days, of two lines of one day; 500 L in 7 days.
    expect(waterUsed([...rows].reverse(), START + 30).map(({ value }) => value)).toEqual([
      300 / 7,
      700 / 7,
      500 / 7,
    ]);
    expect(waterUsed(rows.slice(0, 1), START + 30)).toEqual([]);
    expect(waterUsed(rows, START + 8)).toHaveLength(1);
  });

  it('is alkalinity given and used up for each kg of feed', () => {
    const of = {
      feedings: daily('A', 0, 28, 2),
      tanksWithFish: () => ['A'],
      volume: 10_000,
      asOf: START + 90,
    };
    const rows = [
      { date: START, alkalinity: 100 },
      // 2.00 g of potassium bicarbonate are 1 g of alkalinity: 100.12 g/mol against 50.04 g an equivalent.
      { date: START + 3, baseGiven: 2000, base: 'potassium bicarbonate' as const },
      { date: START + 28, alkalinity: 80 },
    ];
    const [found] = alkalinityPerFeed({ ...of, rows });
    expect(found?.value).toBeCloseTo((1000 + 20 * 10) / 56, 1);
    const unnamed = rows.map((row) => ({ ...row, base: undefined }));
    expect(alkalinityPerFeed({ ...of, rows: unnamed })).toEqual([]);
    expect(alkalinityPerFeed({ ...of, rows, feedings: of.feedings.slice(0, 20) })).toEqual([]);
    // An empty tank needs no feed.
    const two = { ...of, rows, tanksWithFish: (day: number) => (day < START + 28 ? ['A'] : ['B']) };
    expect(alkalinityPerFeed(two)).toHaveLength(1);
  });
});
