import { describe, expect, it } from 'vitest';
import { fishLog, type FishRow } from '../../../src/core/fish-log';
import { serialOf } from '../../../src/core/serial-date';
import { type Species, species } from '../../../src/core/tables/species';

const tilapia = species.find(({ name }) => name === 'Nile tilapia') as Species;
const day = (month: number, date: number): number => serialOf({ year: 2026, month, day: date });
const log = (rows: readonly FishRow[], volume = 5000) =>
  fishLog([{ date: day(3, 1), kind: 'stocked', tank: 'A', fish: 400, weight: 50 }, ...rows], {
    tanks: [{ name: 'A', species: tilapia, volume }],
    water: Array.from({ length: 12 }, () => 28),
    asOf: day(6, 1),
  });

describe('rows of the Fish log that are to come', () => {
  it.each(['weighed', 'counted'])('a tank that is to be %s stays as it is forecast', (kind) => {
    const [, row] = log([{ date: day(7, 1), kind, tank: 'A', planned: true }]).rows;
    const [forecast] = log([]).stateOn(day(7, 1));
    expect(row?.status).toBe('planned');
    expect(row?.tank).toEqual(forecast);
    expect(log([{ date: day(5, 1), kind, tank: 'A' }]).rows[1]).toMatchObject({
      status: 'impossible',
      problem: kind === 'weighed' ? 'type the mean weight' : 'type how many fish',
    });
  });

  it('are read in a tank that is far too small, whose density says so', () => {
    // 400 fish of 50 g are 20 kg, as heavy as the 20 L that they are said to be in.
    const small = log([], 20);
    expect(small.rows[0]?.status).toBe('done');
    expect(small.stateOn(day(3, 1))[0]?.density).toBe(1000);
    expect(small.stateOn(day(9, 1))[0]?.density).toBeGreaterThan(1000);
  });
});
