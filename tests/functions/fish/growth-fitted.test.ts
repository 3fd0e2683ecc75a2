import jstat from 'jstat';
import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../../src/core/errors';
import { callCard } from '../../../src/functions/call';
import { cards } from '../../../src/functions/card-list';
import type { Argument } from '../../../src/functions/parameter';

const card = cards.find(({ id }) => id === 'GROWTH.FITTED') as (typeof cards)[number];
const fitted = (...args: readonly Argument[]) => callCard(card, args);
const column = (values: readonly number[]): number[][] => values.map((one) => [one]);

const days = [46000, 46028, 46061, 46090, 46125];
const weights = [22, 49, 101, 158, 262];

describe('GROWTH.FITTED', () => {
  it('has the slope and its interval as a general library has them', () => {
    const x = days.map((day) => 27 * (day - 46000));
    const y = weights.map((grams) => Math.cbrt(grams));
    const { m, b } = linearRegression(x.map((one, i) => [one, y[i] as number]));
    const mean = x.reduce((sum, one) => sum + one, 0) / x.length;
    const left = y.reduce((sum, one, i) => sum + (one - b - m * (x[i] as number)) ** 2, 0);
    const width = x.reduce((sum, one) => sum + (one - mean) ** 2, 0);
    const half = jstat.studentt.inv(0.95, 3) * Math.sqrt(left / 3 / width);
    const rows = fitted(column(days), column(weights), 27) as unknown[][];
    expect(rows[0]).toEqual([
      expect.closeTo(1000 * m, 9),
      expect.closeTo(1000 * (m - half), 6),
      expect.closeTo(1000 * (m + half), 6),
      0,
      expect.closeTo(y[0] as number, 12),
      expect.closeTo(b ** 3, 9),
    ]);
    expect(rows).toHaveLength(5);
  });

  it('takes rows, columns and texts alike, and water for each weighing', () => {
    const first = fitted(column(days), column(weights), column([20, 27, 26, 28, 25]));
    expect(fitted([days], [weights], [[20, 27, 26, 28, 25]])).toEqual(first);
    expect(fitted(days.join('; '), weights.join(';'), '20;27;26;28;25')).toEqual(first);
    // The water before the first weighing made no fish grow that was weighed.
    expect(fitted([days], [weights], [[12, 27, 26, 28, 25]])).toEqual(first);
  });

  it.each([
    [[[days], [weights.slice(1)], 27], 'dates has 5 values and weights 4'],
    [[[days], [weights], '27;28'], 'water has 2 values for 5 weighings'],
    [[[[...days].reverse()], [weights], 27], 'weighings must follow each other'],
    [[46000, 20, 27], 'needs two weighings'],
    [[[days], [weights], 10], 'no warmth lies between'],
    [[[days], [[0, ...weights.slice(1)]], 27], 'weights must be'],
  ] as readonly (readonly [readonly Argument[], string])[])('refuses %j', (args, says) => {
    const found = fitted(...args);
    expect(found).toBeInstanceOf(GillError);
    expect((found as GillError).message).toContain(says);
  });
});
