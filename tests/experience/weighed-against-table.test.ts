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
      const batches = freedom + 1;
      const mean = { batches, mean: 100, spread: Math.sqrt(batches), range: [0, 200] } as const;
      const [low, high] = meanInterval(mean) as readonly [number, number];
      expect((high - low) / 2).toBeCloseTo(t, 3);
    },
  );

  it('is unknown for one batch, and there is no mean of none', () => {
    expect(meanInterval(meanOf([31]))).toBeUndefined();
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
