import { describe, expect, it } from 'vitest';
import { meanInterval, meanOf } from '../../src/experience/mean-of-batches';
import type { OwnRecord } from '../../src/experience/figures-of-registers';
import { blended } from '../../src/experience/weighed-against-table';
import { differenceInWords, withUnit } from '../../src/sidebar/own-figures/record-words';

const recordOf = (values: readonly number[], usual: number | undefined): OwnRecord => {
  const mean = meanOf(values);
  const table = usual === undefined ? undefined : { usual };
  return {
    of: 'lettuce',
    figure: 'bed_days',
    unit: 'day',
    ...mean,
    interval: meanInterval(values, 'amount'),
    table,
    blend: table ? blended(table, mean) : { own: 1, figure: mean.mean },
    values: values.map((value, day) => ({ day, value })),
  };
};

describe('an own figure in words', () => {
  it.each([
    [
      [39, 41, 40, 40],
      30,
      /^Own: 40 days in 4 batches\. That is 33\.3 % above the table \(table: 30 days\)\. So many/,
    ],
    [[20, 40, 30], 32, /^Own: 30 days in 3 batches\. That is 6\.25 % below .* lies within what/],
    [[30, 30, 30], 30, /as the table says \(table: 30 days\)\. All of them are alike/],
    [[31], 30, /in 1 batch\. .* One batch cannot say how far others lie from it\.$/],
    [[31, 32], undefined, /The tables say nothing of it\.$/],
  ] as const)('says how %j lie beside %s', (values, usual, says) => {
    expect(differenceInWords(recordOf(values, usual))).toMatch(says);
  });

  it('has shares in per cent and days counted', () => {
    expect([withUnit(0.845, 'share'), withUnit(1, 'day'), withUnit(2.5, 'day')]).toEqual([
      '84.5 %',
      '1 day',
      '2.5 days',
    ]);
    expect([withUnit(1.2, 'EUR a piece'), withUnit(1.05, '')]).toEqual(['1.2 EUR a piece', '1.05']);
  });
});
