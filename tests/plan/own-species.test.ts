import { describe, expect, it } from 'vitest';
import { feedRate } from '../../src/core/feeding';
import { species } from '../../src/core/tables/species';
import { withOwnFigures } from '../../src/plan/own-species';

const weights = [1, 8, 60, 235, 700, 2000];

describe.each(species.map((kind) => [kind.name, kind] as const))('%s', (name, kind) => {
  const [tgc, fcr] = [1.4 * kind.facts.tgc[0], 0.9 * kind.facts.fcr[0]];
  const own = withOwnFigures(kind, { [name]: { tgc, fcr } });

  it('eats by its own growth and conversion what the functions say of them', () => {
    for (const weight of weights) {
      const said = feedRate(kind, weight, undefined, tgc, fcr);
      expect(feedRate(own, weight)).toBeCloseTo(said, 12);
      expect(feedRate(own, weight, undefined, tgc)).toBeCloseTo(said, 12);
      expect(said).toBeCloseTo(Math.min(0.2, 1.26 * feedRate(kind, weight)), 9);
    }
  });

  it('eats what was typed where somebody typed feed rates', () => {
    const rates = kind.feedRates.map((rate) => 0.5 * rate);
    const typed = withOwnFigures(kind, { [name]: { tgc, fcr, feed_rates: rates } });
    expect(typed.feedRates).toEqual(rates);
    expect(withOwnFigures(kind, { [name]: { tgc: null } }).feedRates).toEqual(kind.feedRates);
  });
});
