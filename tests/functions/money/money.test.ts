import { describe, expect, it } from 'vitest';
import { errorOf, numberOf } from '../../tools/card-value';
import { input, type PublishedCheck, publishedChecks, titleOf } from '../../tools/published-checks';

const checks = publishedChecks('climate-money.json').filter(
  ({ id }) => id.startsWith('MON') || id.startsWith('YLD'),
);

const runs: Readonly<Record<string, (check: PublishedCheck) => number>> = {
  'break-even price': (c) => numberOf('MONEY.BREAKEVEN', input(c, 'total_cost'), input(c, 'yield')),
  // Price and yield stand for one another.
  'break-even yield': (c) => numberOf('MONEY.BREAKEVEN', input(c, 'total_cost'), input(c, 'price')),
  'crop value per area and week': (c) =>
    numberOf(
      'MONEY.BEDWEEK',
      input(c, 'density'),
      input(c, 'mass'),
      input(c, 'price'),
      input(c, 'weeks'),
      1,
    ),
  'revenue ratio of a close-spaced tender-stem crop at three times the price per kg': (c) =>
    numberOf('MONEY.BEDWEEK', 16, input(c, 'yield_close') / 16, input(c, 'price_ratio'), 10, 1) /
    numberOf('MONEY.BEDWEEK', 6, input(c, 'yield_wide') / 6, 1, 10, 1),
  // One plant's yield is the price at which a crop that costs its density breaks even: t/ha over plants/m2.
  'broccoli yield per plant by density': (c) =>
    numberOf('MONEY.BREAKEVEN', input(c, 'yield') / 10, input(c, 'density')),
};
const outside = ['gross margin', 'partial budget net change', 'break-even units'];

describe('published figures of money', () => {
  it('each has a function that gives it, or is named as outside the catalogue', () => {
    const lost = checks.filter(({ quantity }) => !runs[quantity] && !outside.includes(quantity));
    expect(lost.map((check) => check.id)).toEqual([]);
  });

  it.each(
    checks
      .filter(({ quantity }) => runs[quantity])
      .map((check) => [titleOf(check), check] as const),
  )('%s', (_, check) => {
    const found = runs[check.quantity]?.(check) ?? NaN;
    expect(Math.abs(found - Number(check.expected.value))).toBeLessThanOrEqual(
      check.tolerance + 1e-9,
    );
  });
});

/**
 * Broccoli (common practice, no source): about 6 plants a bed for large heads, or about 16 for slender
 * stems that fetch about three times the price a kg. Plant yields by Chung 1985 (read): 12 t/ha at
 * 2.8 plants/m2 and 16 t/ha at 16.7.
 */
describe('a few large heads or many slender stems', () => {
  const head = 1.2 / 2.8;
  const stem = 1.6 / 16.7;
  const heads = (price: number): number => numberOf('MONEY.BEDWEEK', 6, head, price, 12);
  const stems = (price: number): number => numberOf('MONEY.BEDWEEK', 16, stem, price, 12);

  it('at three times the price the stems win by four fifths', () => {
    expect(stems(9) / heads(3)).toBeCloseTo(1.79, 2);
  });

  it('they draw level at 1.68 times the price of heads: below it the heads win', () => {
    const level = (6 * head) / (16 * stem);
    expect(level).toBeCloseTo(1.68, 2);
    expect(stems(level)).toBeCloseTo(heads(1), 10);
    expect(stems(1.6)).toBeLessThan(heads(1));
    expect(stems(1.8)).toBeGreaterThan(heads(1));
  });

  it('by area, as Chung spaced them, the stems win at any price but a quarter less', () => {
    const wide = numberOf('MONEY.BEDWEEK', 2.8, head, 1, 12, 1);
    const close = (price: number): number => numberOf('MONEY.BEDWEEK', 16.7, stem, price, 12, 1);
    expect(close(3) / wide).toBeCloseTo(4, 10);
    expect(close(0.75)).toBeCloseTo(wide, 10);
  });
});

describe('MONEY.BEDWEEK', () => {
  // Common practice, no source: a papaya plant gives four or five fruit a week.
  it('takes pieces for a price a piece: ten papayas with 4.5 fruit a week at 1.20', () => {
    const weeks = 40;
    expect(numberOf('MONEY.BEDWEEK', 10, 4.5 * weeks, 1.2, weeks)).toBeCloseTo(54, 10);
  });

  it('with the area is the income of the bed for each square metre', () => {
    const bed = numberOf('MONEY.BEDWEEK', 60, 0.142, 9, 5);
    expect(numberOf('MONEY.BEDWEEK', 60, 0.142, 9, 5, 3)).toBeCloseTo(bed / 3, 12);
    // A blank cell for the area, whether it arrives as nothing, as 0 or as an empty text.
    for (const blank of [null, 0, '']) {
      expect(numberOf('MONEY.BEDWEEK', 60, 0.142, 9, 5, blank)).toBe(bed);
    }
  });

  it('takes pounds, days and square feet', () => {
    expect(numberOf('MONEY.BEDWEEK', 60, '0.5 lb', 9, '35 days', '32 ft2')).toBeCloseTo(
      numberOf('MONEY.BEDWEEK', 60, 0.45359237 / 2, 9, 5, 2.97289728),
      8,
    );
  });

  it('grows with plants, yield and price, and falls with weeks', () => {
    const base = numberOf('MONEY.BEDWEEK', 60, 0.15, 9, 5);
    expect(numberOf('MONEY.BEDWEEK', 61, 0.15, 9, 5)).toBeGreaterThan(base);
    expect(numberOf('MONEY.BEDWEEK', 60, 0.16, 9, 5)).toBeGreaterThan(base);
    expect(numberOf('MONEY.BEDWEEK', 60, 0.15, 9.5, 5)).toBeGreaterThan(base);
    expect(numberOf('MONEY.BEDWEEK', 60, 0.15, 9, 6)).toBeLessThan(base);
    expect(errorOf('MONEY.BEDWEEK', 60, 0.15, 9, 0)).toMatch(/^#VALUE! weeks is missing/);
    expect(errorOf('MONEY.BEDWEEK', 60, '0.15 ft', 9, 5)).toMatch(/^#VALUE! yield takes a weight/);
  });
});

describe('MONEY.BREAKEVEN', () => {
  it('is the price at which the income equals the cost', () => {
    const price = numberOf('MONEY.BREAKEVEN', 41.09, 13);
    expect(numberOf('MONEY.BEDWEEK', 1, 13, price, 1)).toBeCloseTo(41.09, 10);
    expect(errorOf('MONEY.BREAKEVEN', 41.09, 0)).toMatch(/^#VALUE! yield is missing/);
  });
});
