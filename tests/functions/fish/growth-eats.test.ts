import { describe, expect, it } from 'vitest';
import { MAX_GRAMS } from '../../../src/functions/fish-parameters';
import { MIN_GROWING_WEIGHT } from '../../../src/core/growth';
import { species, type Species } from '../../../src/core/tables/species';
import { ask, askNumber, askRows } from './ask';

/** From the lightest fish that grow by the rule to the heaviest that any function takes. */
const weights = [
  MIN_GROWING_WEIGHT,
  0.3,
  1,
  2.4,
  5,
  10,
  30,
  70,
  100,
  235,
  490,
  999,
  3000,
  MAX_GRAMS,
];

/** Places between two temperatures, the ends among them. */
const between = (low: number, high: number, places: number): number[] =>
  Array.from({ length: places + 1 }, (_, i) => low + ((high - low) * i) / places);

/** A day is too long for fry, whose appetite grows with them. */
const DAY_PART = 0.001;

function conversion(fish: Species, weight: number, water: number, coefficient?: number): number {
  const own = coefficient ?? null;
  const end = askNumber('GROWTH.WEIGHT', weight, DAY_PART, water, fish.name, own);
  const feed = askNumber('FEED.DAY', 1, weight, fish.name, water, null, own) * DAY_PART;
  return feed / (end - weight);
}

describe.each(species.map((fish) => [fish.name, fish] as const))('%s', (_, fish) => {
  const { feed_low, best_low, best_high, feed_high, fcr, tgc } = fish.facts;

  it('grows on 0.8 to 3.5 of feed for each of gain, at every weight and temperature at which it feeds', () => {
    for (const weight of weights) {
      for (const water of between(feed_low[0] + 0.05, feed_high[0] - 0.05, 60)) {
        const ratio = conversion(fish, weight, water);
        expect(ratio, `${weight} g at ${water} °C`).toBeGreaterThan(0.8);
        expect(ratio, `${weight} g at ${water} °C`).toBeLessThan(3.5);
      }
    }
  });

  it('grows on its usual conversion within a quarter in its best water, from 20 g up', () => {
    for (const weight of weights.filter((weight) => weight >= 20)) {
      for (const water of between(best_low[0], best_high[0], 6)) {
        const ratio = conversion(fish, weight, water) / fcr[0];
        expect(Math.abs(ratio - 1), `${weight} g at ${water} °C`).toBeLessThan(0.25);
      }
    }
  });

  it('grows on the same conversion whatever its coefficient', () => {
    for (const own of [0.4 * tgc[0], 2 * tgc[0]]) {
      for (const water of [(feed_low[0] + best_low[0]) / 2, best_high[0]]) {
        expect(conversion(fish, 235, water, own) / conversion(fish, 235, water)).toBeCloseTo(1, 2);
      }
    }
  });

  it('does not grow where it does not feed, and grows wherever it feeds', () => {
    for (const water of between(0.5, 45, 178)) {
      const feeds = askNumber('FEED.RATE', fish.name, 100, water) > 0;
      expect(askNumber('GROWTH.WEIGHT', 100, 7, water, fish.name) > 100, `${water} °C`).toBe(feeds);
      const [now, later] = askRows('STOCK.FORECAST', 640, 100, 1, water, fish.name) as number[][];
      expect((later?.[2] ?? NaN) > 100, `${water} °C`).toBe(feeds);
      expect((now?.[5] ?? NaN) > 0, `${water} °C`).toBe(feeds);
    }
  });
});

describe('what the old rule had', () => {
  it('tilapia of 100 g at 18 °C no longer grow on half their gain, nor on nothing at 34.9 °C', () => {
    for (const water of [18, 34.9]) {
      const [day, ...rest] = askRows('GROWTH.CURVE', 100, 56, 1, water) as number[][];
      const feed = [day, ...rest.slice(0, -1)].reduce((sum, row) => sum + (row?.[2] ?? NaN), 0);
      const ratio = feed / ((rest.at(-1)?.[1] ?? NaN) - 100);
      expect(ratio).toBeGreaterThan(1.7);
      expect(ratio).toBeLessThan(2.6);
    }
  });
  it('trout at 5 °C convert as a trout can', () => {
    const trout = species.find((fish) => fish.name === 'rainbow trout') as Species;
    expect(conversion(trout, 100, 5)).toBeGreaterThan(1);
    expect(conversion(trout, 100, 5)).toBeLessThan(1.4);
  });
  it('fry below 0.2 g are refused with a sentence', () => {
    expect(ask('GROWTH.WEIGHT', 0.02, 30, 28)).toMatchObject({
      message: 'weight must be between 0.2 and 200000 g; got 0.02',
    });
  });
});
