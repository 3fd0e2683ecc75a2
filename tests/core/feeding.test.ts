import { expect, it } from 'vitest';
import { appetite } from '../../src/core/feeding';
import { species } from '../../src/core/tables/species';

// Worked by hand from the curve that the card states: 1 within the best range, 0 at the limits of feeding, and
// between them 1 less the square of the share of the way, halfway 1 - 1/4; in cool water at most the share that
// the temperature is of the best.
it.each(species.map((fish) => [fish.name, fish] as const))(
  '%s: full appetite at best, at most three quarters halfway to either limit, none beyond',
  (_, fish) => {
    const at = (share: number, best: number, limit: number): number =>
      appetite(fish, best + share * (limit - best));
    const { feed_low, best_low, best_high, feed_high } = fish.facts;
    for (const [best, limit] of [
      [best_low[0], feed_low[0]],
      [best_high[0], feed_high[0]],
    ] as const) {
      expect(at(0, best, limit)).toBe(1);
      const water = (best + limit) / 2;
      expect(at(0.5, best, limit)).toBeCloseTo(Math.min(0.75, water / best_low[0]), 12);
      expect(at(1, best, limit)).toBe(0);
      expect(at(1.5, best, limit)).toBe(0);
    }
  },
);
