import { describe, expect, it } from 'vitest';
import {
  dailySurvival,
  meanDaysToGrow,
  waterOn,
  warmthBetween,
} from '../../../src/core/month-water';
import { serialOf } from '../../../src/core/serial-date';
import { type Species, species } from '../../../src/core/tables/species';

const tilapia = species.find(({ name }) => name === 'Nile tilapia') as Species;
const [best] = tilapia.facts.best_low;
const [unfed] = tilapia.facts.feed_low;
const always = (water: number): number[] => Array.from({ length: 12 }, () => water);
const day = (month: number, date: number, year = 2026): number =>
  serialOf({ year, month, day: date });

describe('water that is known month by month', () => {
  it('is the month’s on each of its days', () => {
    const months = Array.from({ length: 12 }, (_, m) => 10 + m);
    expect(waterOn(months, day(1, 1))).toBe(10);
    expect(waterOn(months, day(1, 31))).toBe(10);
    expect(waterOn(months, day(2, 1))).toBe(11);
    expect(waterOn(months, day(12, 31))).toBe(21);
  });

  it('adds warmth up over months of their own length, a leap day among them', () => {
    const onlyFebruary = always(unfed).map((water, m) => (m === 1 ? best : water));
    expect(warmthBetween(tilapia, onlyFebruary, day(1, 1), day(1, 1, 2027))).toBeCloseTo(
      28 * best,
      9,
    );
    expect(warmthBetween(tilapia, onlyFebruary, day(1, 1, 2028), day(1, 1, 2029))).toBeCloseTo(
      29 * best,
      9,
    );
    expect(warmthBetween(tilapia, always(best), day(12, 20), day(1, 5, 2027))).toBeCloseTo(
      16 * best,
      9,
    );
    expect(warmthBetween(tilapia, always(best), day(3, 1), day(3, 1))).toBe(0);
  });

  it('takes the days of Iwama & Tautz 1981 where it is the same all year', () => {
    // W2^(1/3) = W1^(1/3) + coefficient/1000 * temperature * days: from 8 to 1000 g the root rises by 8.
    expect(meanDaysToGrow(tilapia, always(best), 1.2, { from: 8, to: 1000 })).toBeCloseTo(
      (8 * 1000) / (1.2 * best),
      9,
    );
  });

  it('counts months by their days, and water in which fish do not feed as none', () => {
    // Best from May to September, 153 of 365 days; else no feed is taken.
    const summer = always(unfed).map((water, m) => (m >= 4 && m <= 8 ? best : water));
    expect(meanDaysToGrow(tilapia, summer, 1.2, { from: 8, to: 1000 })).toBeCloseTo(
      ((8 * 1000) / (1.2 * best)) * (365 / 153),
      9,
    );
    expect(meanDaysToGrow(tilapia, always(unfed), 1.2, { from: 8, to: 1000 })).toBe(Infinity);
  });

  it('spreads a survival evenly over its days, and has none die where there are no days', () => {
    expect(dailySurvival(0.9, 180) ** 180).toBeCloseTo(0.9, 12);
    // Fish that never grow, and fish that are sold as they are stocked.
    expect(dailySurvival(0.9, Infinity)).toBe(1);
    expect(dailySurvival(0.9, 0)).toBe(1);
  });
});
