import { describe, expect, it } from 'vitest';
import { impossibleSteps, slipsOfTen } from '../../src/core/typing-slips';

const series = (values: readonly number[], every = 1) =>
  values.map((value, i) => ({ day: 46000 + i * every, value }));

describe('figures ten times off among their neighbours', () => {
  it.each([
    ['ten times too large', [7.1, 7, 7.2, 71, 6.9, 7, 7.1, 7.2]],
    ['ten times too small', [7.1, 7, 7.2, 0.71, 6.9, 7, 7.1, 7.2]],
  ])('are found: %s', (_, values) => {
    const found = slipsOfTen(series(values));
    expect(found.map(({ at }) => at)).toEqual([3]);
    // The middle of 7.1, 7, 7.2, 6.9, 7 and 7.1 on a scale of ratios.
    expect(found[0]?.usual).toBeCloseTo(Math.sqrt(7 * 7.1), 9);
  });

  it('are found at the first and at the last place', () => {
    expect(slipsOfTen(series([700, 72, 71, 70, 73, 70, 71])).map(({ at }) => at)).toEqual([0]);
    expect(slipsOfTen(series([70, 72, 71, 70, 73, 70, 7.1])).map(({ at }) => at)).toEqual([6]);
  });

  it('are judged by their days, and named by their place', () => {
    const points = [...series([70, 72, 71, 7.2, 73, 70, 71])].reverse();
    expect(slipsOfTen(points).map(({ at }) => at)).toEqual([3]);
    // Rising tenfold over the weeks, row by row, is no slip in whatever order it was typed.
    const rising = series([10, 15, 22, 33, 50, 75, 110]);
    expect(slipsOfTen([3, 0, 6, 2, 5, 1, 4].map((i) => rising[i] as (typeof rising)[0]))).toEqual(
      [],
    );
  });

  it('begin at half of ten on a scale of ratios', () => {
    const beside = (value: number) => slipsOfTen(series([10, 10, 10, value, 10, 10, 10])).length;
    expect([3.1, 3.2, 1 / 3.1, 1 / 3.2].map((ratio) => beside(10 * ratio))).toEqual([0, 1, 0, 1]);
  });

  it('have to stand further off where the neighbours are spread, up to six times', () => {
    const spread = [10, 20, 5, 10, 22, 4, 10, 21, 5];
    const beside = (value: number) => slipsOfTen(series([...spread, value])).map(({ at }) => at);
    expect(beside(50)).toEqual([]);
    expect(beside(70)).toEqual([9]);
  });

  it('are not told from fewer than five figures', () => {
    expect(slipsOfTen(series([7, 7, 70, 7]))).toEqual([]);
    expect(slipsOfTen(series([7, 7, 70, 7, 7])).map(({ at }) => at)).toEqual([2]);
  });
});

describe('weighings that no fish could reach', () => {
  const step = (from: number, to: number, days: number) =>
    impossibleSteps(series([from, to], days)).length === 1;

  it.each([
    [20, 119, 10, false],
    [20, 121, 10, true],
    [20, 121, 45, false],
    [20, 20 * 6 ** 1.5 + 1, 45, true],
    // Above 50 g a little more than three times a month.
    [60, 191, 30, false],
    [60, 193, 30, true],
    [60, 193, 60, false],
    [50, 299, 30, false],
    // What weighs less than half of what it did.
    [100, 51, 5, false],
    [100, 49, 5, true],
  ])('%d g, then %d g %d days later: %s', (from, to, days, impossible) => {
    expect(step(from, to, days)).toBe(impossible);
  });

  it('are the later one of two, and never the first', () => {
    expect(impossibleSteps(series([50, 55, 600, 650], 7))).toEqual([2]);
    expect(impossibleSteps(series([50]))).toEqual([]);
  });
});
