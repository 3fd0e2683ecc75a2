import { describe, expect, it } from 'vitest';
import { fishLog, type FishRow } from '../../src/core/fish-log';
import { speciesTable } from '../../src/functions/species-table';
import type { Species } from '../../src/core/tables/species';
import { growthRecords } from '../../src/experience/growth-records';
import { waterOfDays } from '../../src/experience/water-of-days';

const tilapia = speciesTable.book.find('Nile tilapia') as Species;
const START = 45000;
const WATER = 28;
const months = Array.from({ length: 12 }, () => WATER);
const tanks = ['A', 'B', 'C'].map((name) => ({ name, species: tilapia, volume: 10000 }));

/** Weight after so many days at a coefficient of 1, written out. */
const grown = (days: number, from = 20): number =>
  (Math.cbrt(from) + (1 / 1000) * WATER * days) ** 3;

function grew(rows: readonly FishRow[]) {
  const log = fishLog(rows, { tanks, water: months, asOf: START + 400 });
  expect(log.rows.map(({ status, problem }) => [status, problem])).toEqual(
    rows.map(() => ['done', undefined]),
  );
  return growthRecords({
    rows,
    outcomes: log.rows,
    speciesIn: (tank) =>
      tanks.find(({ name }) => name.toLowerCase() === tank.toLowerCase())?.species,
    water: waterOfDays([], months),
  });
}
const stocked: FishRow = { date: START, kind: 'stocked', tank: 'A', fish: 500, weight: 20 };
const weighed = (days: number, tank: string, weight = grown(days)): FishRow => ({
  date: START + days,
  kind: 'weighed',
  tank,
  weight,
});

describe('weighings of the same fish', () => {
  it('give their coefficient, in any order of typing', () => {
    const [record] = grew([weighed(60, 'A'), stocked, weighed(30, 'A')]);
    expect(record).toMatchObject({ weighings: 3, from: START, to: START + 60 });
    expect(record?.coefficient).toBeCloseTo(1, 9);
  });

  it('are followed into the tank to which all are moved', () => {
    const found = grew([
      stocked,
      weighed(30, 'A'),
      { date: START + 31, kind: 'moved', tank: 'A', toTank: 'B', fish: 500 },
      weighed(60, 'b'),
    ]);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ weighings: 3 });
    expect(found[0]?.coefficient).toBeCloseTo(1, 9);
  });

  it('go on in both tanks after a split', () => {
    const found = grew([
      stocked,
      weighed(30, 'A'),
      { date: START + 30, kind: 'moved', tank: 'A', toTank: 'B', fish: 200 },
      weighed(60, 'A'),
      weighed(70, 'B'),
    ]);
    expect(found.map(({ weighings }) => weighings).sort((a, b) => a - b)).toEqual([2, 3]);
    for (const { coefficient } of found) expect(coefficient).toBeCloseTo(1, 9);
  });

  it('end where fish are taken out by size, and where others come in', () => {
    const graded = grew([
      stocked,
      weighed(30, 'A'),
      { date: START + 40, kind: 'sold', tank: 'A', fish: 100, weight: 200 },
      weighed(60, 'A', 90),
    ]);
    expect(graded.map(({ to }) => to)).toEqual([START + 30]);
    const mixed = grew([
      stocked,
      weighed(30, 'A'),
      { date: START + 30, kind: 'stocked', tank: 'A', fish: 500, weight: 10 },
      weighed(60, 'A', 40),
    ]);
    expect(mixed.map(({ to }) => to)).toEqual([START + 30]);
  });

  it('within two weeks are ignored, and of two on one day the later row counts', () => {
    expect(grew([stocked, weighed(13, 'A')])).toEqual([]);
    const [record] = grew([stocked, weighed(30, 'A', 500), weighed(30, 'A')]);
    expect(record?.coefficient).toBeCloseTo(1, 9);
  });
});

describe('the water of a day', () => {
  const reading = (date: number, temperature: number) => ({ date, temperature });
  it('is the mean of its month once there are two readings, and the month of the plan before', () => {
    const day = START;
    expect(waterOfDays([reading(day, 20)], months)(day)).toBe(WATER);
    expect(waterOfDays([reading(day, 20), reading(day + 1, 22)], months)(day)).toBe(21);
    expect(waterOfDays([reading(day, 20), reading(day + 1, 22)], months)(day + 40)).toBe(WATER);
    // The same month of another year is another month.
    expect(waterOfDays([reading(day, 20), reading(day + 1, 22)], months)(day + 365)).toBe(WATER);
  });
});
