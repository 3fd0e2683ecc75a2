import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { species } from '../../../src/core/tables/species';
import { ask, askNumber, askRows } from './ask';

const anySpecies = fc.constantFrom(...species);
const grams = fc.double({ min: 0.2, max: 2000, noNaN: true });
const days = fc.double({ min: 0.5, max: 500, noNaN: true });
const own = fc.double({ min: 0.2, max: 3, noNaN: true });
/** A temperature at which the species grows, as a share of the way from its feeding limit to its best. */
const share = fc.double({ min: 0.01, max: 1, noNaN: true });
const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-8 * Math.max(1, Math.abs(b));

describe('round trips', () => {
  it('GROWTH.DAYS inverts GROWTH.WEIGHT', () => {
    fc.assert(
      fc.property(anySpecies, grams, days, share, own, (kind, weight, time, warm, tgc) => {
        const low = kind.facts.feed_low[0];
        const water = low + warm * (kind.facts.best_high[0] - low);
        const end = askNumber('GROWTH.WEIGHT', weight, time, water, kind.name, tgc);
        return near(askNumber('GROWTH.DAYS', weight, end, water, kind.name, tgc), time);
      }),
    );
  });

  it('GROWTH.COEFFICIENT of a species inverts GROWTH.WEIGHT within the feeding limits', () => {
    fc.assert(
      fc.property(anySpecies, grams, days, share, own, (kind, weight, time, warm, tgc) => {
        const low = kind.facts.feed_low[0];
        const water = low + warm * (kind.facts.best_high[0] - low);
        const end = askNumber('GROWTH.WEIGHT', weight, time, water, kind.name, tgc);
        // At the very top of the range the way there and back may round over it.
        fc.pre(end <= 199999);
        return near(askNumber('GROWTH.COEFFICIENT', weight, end, time, water, kind.name), tgc);
      }),
    );
  });
});

describe('growth and temperature', () => {
  it('rises with temperature up to the best and falls beyond', () => {
    for (const { name, facts } of species) {
      const at = (water: number): number => askNumber('GROWTH.WEIGHT', 50, 30, water, name);
      const low = facts.feed_low[0];
      const best = facts.best_high[0];
      const rising = Array.from({ length: 20 }, (_, i) => at(low + 0.01 + ((best - low) * i) / 20));
      expect(
        [...rising].sort((a, b) => a - b),
        name,
      ).toEqual(rising);
      const limit = facts.feed_high[0];
      const falling = Array.from({ length: 20 }, (_, i) => at(best + ((limit - best) * i) / 20));
      expect(
        [...falling].sort((a, b) => b - a),
        name,
      ).toEqual(falling);
    }
  });

  it('is none at and beyond the feeding limits', () => {
    for (const { name, facts } of species) {
      for (const water of [facts.feed_low[0], facts.feed_low[0] - 2, facts.feed_high[0], 45]) {
        expect(ask('GROWTH.WEIGHT', 50, 30, water, name), `${name} ${water}`).toBe(50);
        expect(ask('GROWTH.DAYS', 50, 60, water, name), `${name} ${water}`).toMatchObject({
          code: '#NUM!',
          message: expect.stringContaining(`does not grow at ${water} °C`) as string,
        });
      }
    }
  });

  it('takes 0 degC for a temperature, and no days for no growth', () => {
    expect(ask('GROWTH.WEIGHT', 50, 30, 0, 'trout')).toBe(50);
    expect(ask('GROWTH.WEIGHT', 50, 0, 28)).toBe(50);
  });

  it('grows more with more days, a heavier start or a greater coefficient', () => {
    fc.assert(
      fc.property(grams, days, own, (weight, time, tgc) => {
        const base = askNumber('GROWTH.WEIGHT', weight, time, 25, 'tilapia', tgc);
        return (
          askNumber('GROWTH.WEIGHT', weight, time + 1, 25, 'tilapia', tgc) > base &&
          askNumber('GROWTH.WEIGHT', weight * 1.1, time, 25, 'tilapia', tgc) > base &&
          askNumber('GROWTH.WEIGHT', weight, time, 25, 'tilapia', tgc * 1.1) > base
        );
      }),
    );
  });
});

describe('arguments', () => {
  it('refuses weights that fall', () => {
    expect(ask('GROWTH.DAYS', 100, 50, 28)).toMatchObject({
      message: 'to must be at least from (100 g); got 50',
    });
    expect(ask('GROWTH.COEFFICIENT', 100, 50, 30, 28)).toMatchObject({ code: '#VALUE!' });
  });

  it('takes a coefficient of 0 for a blank cell', () => {
    expect(ask('GROWTH.WEIGHT', 50, 30, 28, null, 0)).toBe(ask('GROWTH.WEIGHT', 50, 30, 28));
  });

  it('takes weeks for days, and Fahrenheit', () => {
    expect(ask('GROWTH.WEIGHT', 50, '4 weeks', '82.4 degF')).toBeCloseTo(
      askNumber('GROWTH.WEIGHT', 50, 28, 28),
      9,
    );
  });
});

describe('GROWTH.CURVE', () => {
  it('equals GROWTH.WEIGHT and FEED.DAY at each of its days', () => {
    const rows = askRows('GROWTH.CURVE', 12, 100, 15, 24, 'barramundi', 0.9);
    expect(rows.map((row) => row[0])).toEqual([0, 15, 30, 45, 60, 75, 90, 100]);
    for (const [day, weight, feed] of rows as number[][]) {
      expect(weight).toBeCloseTo(askNumber('GROWTH.WEIGHT', 12, day, 24, 'barramundi', 0.9), 9);
      expect(feed).toBeCloseTo(askNumber('FEED.DAY', 1, weight, 'barramundi', 24, null, 0.9), 9);
    }
  });

  it('has no row too many from rounding, and says where there would be too many', () => {
    expect(askRows('GROWTH.CURVE', 12, 0.3, 0.1, 24)).toHaveLength(4);
    expect(askRows('GROWTH.CURVE', 12, 0, 7, 24)).toEqual([[0, 12, expect.any(Number)]]);
    expect(ask('GROWTH.CURVE', 12, 5000, 1, 24)).toMatchObject({
      message: expect.stringContaining('step must be longer') as string,
    });
  });
});
