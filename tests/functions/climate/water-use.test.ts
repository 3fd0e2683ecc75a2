import { describe, expect, it } from 'vitest';
import { crops, usual } from '../../../src/core/tables/crops';
import { errorOf, numberOf } from '../../tools/card-value';

const lyon = [26.6, 14.8, 45.72, '2026-07-15'] as const;

describe('WATER.USE', () => {
  it('is the reference grass where no crop is named, and each crop by its coefficient', () => {
    const grass = numberOf('WATER.USE', 1, ...lyon);
    let known = 0;
    for (const crop of crops) {
      const coefficient = usual(crop, 'kc_mid');
      if (coefficient === undefined) {
        expect(errorOf('WATER.USE', 1, ...lyon, crop.name)).toMatch(
          `#N/A No crop coefficient is known for ${crop.name}; give a number instead`,
        );
        continue;
      }
      known += 1;
      expect(numberOf('WATER.USE', 1, ...lyon, crop.name)).toBeCloseTo(grass * coefficient, 10);
    }
    expect(known).toBeGreaterThan(12);
  });

  // FAO-56 table 12, Kc mid (read): lettuce 1.00, tomato 1.15, cucumber 1.00, strawberry 0.85.
  it.each([
    ['lettuce', 1],
    ['tomato', 1.15],
    ['cucumber', 1],
    ['strawberry', 0.85],
  ])('%s drinks %d times the reference grass (FAO-56 table 12, read)', (crop, coefficient) => {
    const ratio = numberOf('WATER.USE', 1, ...lyon, crop) / numberOf('WATER.USE', 1, ...lyon);
    expect(ratio).toBeCloseTo(coefficient, 10);
  });

  // Outside temperatures and a cover that lets two thirds through are our own assumptions.
  it('agrees with grass in a plastic greenhouse at Almeria: just under 1 mm/day in winter, about 4 in July at most (Fernandez et al. 2010, read)', () => {
    const winter = 0.67 * numberOf('WATER.USE', 1, 16, 8, 36.8, '2026-01-15');
    const summer = 0.67 * numberOf('WATER.USE', 1, 30, 22, 36.8, '2026-07-15');
    expect(winter).toBeGreaterThan(0.7);
    expect(winter).toBeLessThan(1);
    expect(summer).toBeGreaterThan(2.8);
    expect(summer).toBeLessThan(4.4);
  });

  // 1 to 3 % of the water volume a day (FAO Technical Paper 589, section 3.4, read).
  it('lies in the make-up band of a usual system: 20 m2 of lettuce over 5000 L in early summer', () => {
    const share = numberOf('WATER.USE', 20, 25, 13, 45, '2026-06-01', 'lettuce') / 5000;
    expect(share).toBeGreaterThan(0.01);
    expect(share).toBeLessThan(0.03);
  });

  it('grows with area, warmth, span of the day and crop coefficient, and is nothing in polar night', () => {
    const base = numberOf('WATER.USE', 10, 20, 10, 45, '2026-05-01', 1);
    expect(numberOf('WATER.USE', 20, 20, 10, 45, '2026-05-01', 1)).toBeCloseTo(2 * base, 10);
    expect(numberOf('WATER.USE', 10, 25, 15, 45, '2026-05-01', 1)).toBeGreaterThan(base);
    expect(numberOf('WATER.USE', 10, 22, 8, 45, '2026-05-01', 1)).toBeGreaterThan(base);
    expect(numberOf('WATER.USE', 10, 20, 10, 45, '2026-05-01', 1.15)).toBeCloseTo(1.15 * base, 10);
    expect(numberOf('WATER.USE', 10, 12, 12, 45, '2026-05-01')).toBe(0);
    expect(numberOf('WATER.USE', 10, -5, -10, 75, '2026-12-21')).toBe(0);
  });

  it('takes other units, and says what is wrong', () => {
    expect(
      numberOf('WATER.USE', '1000 ft2', '68 degF', '50 degF', '45 N', '2026-05-01'),
    ).toBeCloseTo(numberOf('WATER.USE', 92.90304, 20, 10, 45, '2026-05-01'), 8);
    expect(errorOf('WATER.USE', 10, 10, 20, 45, '2026-05-01')).toBe(
      '#VALUE! high must not be below low; got a high of 10 and a low of 20 °C',
    );
    expect(errorOf('WATER.USE', 10, 20, 10, 45, '2026-05-01', 'lettice')).toMatch(
      /^#N\/A crop: no crop is called "lettice"; the nearest name is "lettuce"/,
    );
    expect(errorOf('WATER.USE', 10, 20, 10, 45, '2026-05-01', 15)).toMatch(/^#VALUE! crop must be/);
  });

  // FAO-56 equation 52 is 0 at a mean of -17.8 degC; that colder air takes nothing is common practice, no source.
  it('falls to nothing in deep frost and is never negative', () => {
    const at = (high: number): number => numberOf('WATER.USE', 1, high, high - 8, 65, '2026-02-15');
    for (let high = 10; high > -14; high--) expect(at(high - 1)).toBeLessThan(at(high));
    expect(at(-13.8)).toBeCloseTo(0, 12);
    for (const high of [-15, -30, -52]) expect(at(high)).toBe(0);
  });
});
