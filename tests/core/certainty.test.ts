import { describe, expect, it } from 'vitest';
import { deviationsFor, fishToWeigh, wilsonInterval } from '../../src/core/certainty';
import { fittedGrowth } from '../../src/core/growth-fitted';
import { normalBelow } from '../../src/core/normal';

describe('standard deviations for a certainty', () => {
  // Abramowitz & Stegun 1964, table 26.1: 0.674490, 1.644854, 1.959964, 2.575829, 3.290527.
  it.each([
    [0.5, 0.67449],
    [0.9, 1.644854],
    [0.95, 1.959964],
    [0.99, 2.575829],
    [0.999, 3.290527],
  ])('%d: %d', (sure, z) => {
    expect(Math.abs(deviationsFor(sure) - z)).toBeLessThan(2e-6);
  });
  it('cover the right share on both sides of where the formula changes', () => {
    for (const sure of [0.5, 0.7, 0.8499, 0.85, 0.8501, 0.97, 0.9999])
      expect(2 * normalBelow(deviationsFor(sure)) - 1).toBeCloseTo(sure, 6);
  });
});

describe('intervals and samples', () => {
  it('contain the estimate, narrower with more trials and less certainty', () => {
    for (const [hits, tries] of [
      [0, 10],
      [10, 10],
      [7, 20],
      [45, 50],
    ] as const) {
      const [low, high] = wilsonInterval(hits, tries, 0.95);
      expect(low).toBeLessThanOrEqual(hits / tries);
      expect(high).toBeGreaterThan(hits / tries - 1e-12);
      const [low10, high10] = wilsonInterval(10 * hits, 10 * tries, 0.95);
      expect(high10 - low10).toBeLessThan(high - low);
      const [loose, wide] = wilsonInterval(hits, tries, 0.8);
      expect(wide - loose).toBeLessThan(high - low);
    }
  });
  it('ask for no more fish than there are', () => {
    expect(fishToWeigh(0.01, 0.3, 0.95, 100)).toBeLessThanOrEqual(100);
    expect(fishToWeigh(0.5, 0.01, 0.5, Infinity)).toBe(1);
  });
});

describe('growth fitted to weighings', () => {
  const at = (day: number, weight: number, temperature = 28) => ({ day, weight, temperature });
  it('finds the coefficient of fish that grow by it, whatever the water of each time was', () => {
    const waters = [0, 24, 29, 26];
    let root = Math.cbrt(50);
    const weighings = waters.map((temperature, i) => {
      if (i > 0) root += (1.1 / 1000) * temperature * 20;
      return at(20 * i, root ** 3, temperature);
    });
    const { coefficient, error } = fittedGrowth(weighings);
    expect(coefficient).toBeCloseTo(1.1, 9);
    expect(error).toBeCloseTo(0, 6);
  });
  it('says how sure its slope is: by the textbook formula for four points', () => {
    // x 0, 1, 2, 3 degree-days of 1000, cube roots 4, 5, 5.5, 7: slope 0.95, residuals squared 0.175.
    const roots = [4, 5, 5.5, 7];
    const { coefficient, error } = fittedGrowth(roots.map((root, i) => at(i * 40, root ** 3, 25)));
    expect(coefficient).toBeCloseTo(0.95, 9);
    expect(error).toBeCloseTo(Math.sqrt(0.175 / 2 / 5), 9);
  });
  it('refuses a single weighing, weighings out of order and ice, with a sentence', () => {
    expect(() => fittedGrowth([at(0, 50)])).toThrow(/two weighings or more; got 1/);
    expect(() => fittedGrowth([at(5, 50), at(5, 60)])).toThrow(/number 2 does not/);
    expect(() => fittedGrowth([at(0, 50, 0), at(5, 60, 0)])).toThrow(/no warmth/);
    expect(fittedGrowth([at(0, 50), at(5, 60)]).error).toBeUndefined();
  });
});
