import { describe, expect, it } from 'vitest';
import { daysToHeat, thermalDay } from '../../src/core/thermal-time';
import { MONDAY } from '../ahead/small-seasons';

const lettuce = { base: 4, cap: 22, sum: 420 };
const always = (mean: number): number[] => Array.from({ length: 12 }, () => mean);

describe('the heat that a crop waits for', () => {
  it('is the sum needed over the heat of a day, in whole days rounded up', () => {
    for (const mean of [6, 12, 18, 22, 30]) {
      expect(daysToHeat(MONDAY, always(mean), lettuce)).toBe(
        Math.ceil(420 / thermalDay(mean, lettuce) - 1e-9),
      );
    }
  });

  it('stops growing at the cap, and never accumulates at or below the base', () => {
    expect(thermalDay(40, lettuce)).toBe(18);
    expect(thermalDay(4, lettuce)).toBe(0);
    expect(daysToHeat(MONDAY, always(4), lettuce)).toBeUndefined();
    expect(daysToHeat(MONDAY, always(-10), lettuce)).toBeUndefined();
  });

  it('takes no day where no heat is needed', () => {
    expect(daysToHeat(MONDAY, always(10), { ...lettuce, sum: 0 })).toBe(0);
  });
});
