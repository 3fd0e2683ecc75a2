import { mean as average, sampleVariance } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { meanInterval, meanOf } from '../../src/experience/mean-of-batches';
import { blended, farmSpread } from '../../src/experience/weighed-against-table';

const table = { usual: 30, range: [25, 38] } as const;

describe('the interval of a mean', () => {
  it.each([
    [2, 2.92],
    [4, 2.132],
    [9, 1.833],
    [19, 1.729],
  ])(
    'takes t of %i degrees of freedom as printed: %f (10 CFR 429 Subpart B, Appendix A, 95 percent to one side)',
    (freedom, t) => {
      const values = Array.from({ length: freedom + 1 }, (_, i) => 0.5 + 0.001 * (i % 5));
      const { mean, spread = NaN, batches } = meanOf(values);
      const half = (t * spread) / Math.sqrt(batches);
      for (const measured of ['share', 'amount'] as const) {
        const [low, high] = meanInterval(values, measured) as readonly [number, number];
        // Where batches are alike, factors and differences are the same.
        expect((high - low) / 2 / half).toBeCloseTo(1, measured === 'share' ? 3 : 2);
        expect(low / (mean - half)).toBeCloseTo(1, 4);
      }
    },
  );

  it('stays within what can be, with two batches that are far apart', () => {
    const twice = [0.4, 1.3];
    const [low, high] = meanInterval(twice, 'amount') as readonly [number, number];
    expect(low).toBeGreaterThan(0);
    expect(low).toBeLessThan(0.4);
    expect(high).toBeGreaterThan(1.3);
    expect(meanInterval([0.9, 0.99], 'share')?.[1]).toBe(1);
    expect(meanInterval([0.01, 0.2], 'share')?.[0]).toBe(0);
    expect(meanInterval([0, 300], 'amount')?.[0]).toBe(0);
  });

  it('counts what neighbours share with half its weight (Newey and West 1987, one lag), and never widens by it', () => {
    // Off the mean by 3, -3, 1, -1, 2, -2: squares 28, products of neighbours -9 - 3 - 1 - 2 - 4 = -19.
    const values = [3, -3, 1, -1, 2, -2].map((off) => 0.5 + off / 1000);
    const width = (interval: readonly [number, number] | undefined): number =>
      interval === undefined ? NaN : interval[1] - interval[0];
    const alone = width(meanInterval(values, 'share'));
    expect(width(meanInterval(values, 'share', true)) / alone).toBeCloseTo(
      Math.sqrt(1 - 19 / 28),
      6,
    );
    // Values that rise one after the other share nothing that could be taken off.
    const rising = [...values].sort((a, b) => a - b);
    expect(width(meanInterval(rising, 'share', true))).toBe(width(meanInterval(rising, 'share')));
    // Four say nothing of their neighbours.
    expect(meanInterval(values.slice(0, 4), 'share', true)).toEqual(
      meanInterval(values.slice(0, 4), 'share'),
    );
  });

  it('is exp(m + s2/2 +- t sqrt(s2/n + s4/(2(n - 1)))) of amounts, by a general library (Olsson 2005)', () => {
    const values = [0.82, 1.04, 0.91, 1.35, 0.77];
    const logs = values.map(Math.log);
    const [m, s2] = [average(logs), sampleVariance(logs)];
    const half = 2.132 * Math.sqrt(s2 / 5 + s2 ** 2 / 8);
    const [low, high] = meanInterval(values, 'amount') as readonly [number, number];
    expect(low).toBeCloseTo(Math.exp(m + s2 / 2 - half), 4);
    expect(high).toBeCloseTo(Math.exp(m + s2 / 2 + half), 4);
    expect(low).toBeLessThan(average(values));
    expect(high).toBeGreaterThan(average(values));
  });

  it('is unknown for one batch, and there is no mean of none', () => {
    expect(meanInterval([31], 'amount')).toBeUndefined();
    expect(() => meanOf([])).toThrow(/one batch or more/);
  });
});

describe('own batches weighed against the table', () => {
  it('have the share n/(n + k) of Buehlmann 1967, k the variance between batches over that between farms', () => {
    const own = meanOf([40, 44, 36, 40, 42, 38, 40, 40]);
    const within = (7 * (own.spread as number) ** 2 + (0.2 * 40) ** 2) / 8;
    const k = within / farmSpread(table) ** 2;
    expect(blended(table, own).own).toBeCloseTo(8 / (8 + k), 12);
  });

  it('count more the more there are, and less the more they differ', () => {
    const even = [40, 42, 38];
    const { own: three } = blended(table, meanOf(even));
    expect(blended(table, meanOf([40])).own).toBeLessThan(three);
    expect(blended(table, meanOf([...even, ...even])).own).toBeGreaterThan(three);
    expect(blended(table, meanOf([40, 60, 20])).own).toBeLessThan(three);
  });

  it('return the table’s figure where both agree, and give full weight to many even batches', () => {
    expect(blended(table, meanOf([30, 30])).figure).toBe(30);
    expect(blended(table, meanOf(Array.from({ length: 4000 }, () => 40))).figure).toBeCloseTo(
      40,
      1,
    );
  });

  it('treat a table without a range as that of farms that differ by a fifth', () => {
    expect(farmSpread({ usual: 30 })).toBeCloseTo(6, 12);
    expect(farmSpread(table)).toBeCloseTo(6.5 / 1.644854, 5);
  });
});
