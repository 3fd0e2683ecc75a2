import { describe, expect, it } from 'vitest';
import { monthsBetween } from '../../src/size/month-curve';

describe('months between the coldest and the warmest', () => {
  it('has its extremes in January and July in the north, and in July and January in the south', () => {
    const north = monthsBetween(4, 22, 48);
    expect(north[0]).toBe(4);
    expect(north[6]).toBe(22);
    const south = monthsBetween(4, 22, -37);
    expect(south[6]).toBe(4);
    expect(south[0]).toBe(22);
    // The same year, half of it later.
    expect([...south.slice(6), ...south.slice(0, 6)]).toEqual(north);
  });

  it('rises to the warmest month and falls from it, and lies half way in the mean', () => {
    const months = monthsBetween(0, 20, 50);
    for (let month = 1; month <= 6; month++)
      expect(months[month]).toBeGreaterThan(months[month - 1] as number);
    for (let month = 7; month < 12; month++)
      expect(months[month]).toBeLessThan(months[month - 1] as number);
    expect(months.reduce((sum, one) => sum + one, 0) / 12).toBeCloseTo(10, 1);
  });

  it('stays the same where both are the same', () => {
    expect(monthsBetween(25, 25, 3)).toEqual(Array.from({ length: 12 }, () => 25));
  });

  // Long-term monthly means of two stations, from memory (a temperate city in the north, one in the south): they
  // decide nothing alone, and show how far a cosine is from a real year.
  it.each([
    ['about 51 N', 51, [5.2, 5.3, 7.6, 9.9, 13.3, 16.4, 18.7, 18.5, 15.7, 12, 8, 5.5]],
    ['about 38 S', -38, [20.1, 20.2, 18.3, 15.3, 12.5, 10.1, 9.6, 10.5, 12.3, 14.3, 16.4, 18.5]],
  ])('comes within 2.5 degrees of a recalled year: %s', (_, latitude, recalled) => {
    const months = monthsBetween(Math.min(...recalled), Math.max(...recalled), latitude);
    months.forEach((mean, month) =>
      expect(Math.abs(mean - (recalled[month] as number)), `month ${month + 1}`).toBeLessThan(2.5),
    );
  });
});
