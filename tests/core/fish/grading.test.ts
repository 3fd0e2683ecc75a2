import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allAbove, fishAbove, shareAbove, topShare, weightOfTop } from '../../../src/core/grading';
import { weightLeft } from '../../../src/core/groups';
import { normalBelow, normalQuantile } from '../../../src/core/normal';
import { stagedRearing, tanksFor } from '../../../src/core/staged-rearing';

describe('the normal distribution', () => {
  // Abramowitz & Stegun 1964, Handbook of Mathematical Functions, Table 26.1 (from memory) and symmetry.
  it.each([
    [0, 0.5],
    [1, 0.8413447461],
    [2, 0.9772498681],
    [3, 0.998650102],
    [3.5, 0.9997673709],
    [1.959964, 0.975],
  ])('below %d has the share %d', (z, share) => {
    expect(normalBelow(z)).toBeCloseTo(share, 7);
    expect(normalBelow(-z)).toBeCloseTo(1 - share, 7);
  });

  it('equals the numerical integral of its density', () => {
    for (const z of [-4.2, -2.9, -0.3, 0.8, 2.99, 3.01, 5]) {
      // Simpson's rule from far below.
      const from = -12;
      const steps = 20000;
      const h = (z - from) / steps;
      const bell = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
      let sum = bell(from) + bell(z);
      for (let at = 1; at < steps; at++) sum += bell(from + at * h) * (at % 2 === 1 ? 4 : 2);
      expect(normalBelow(z)).toBeCloseTo((sum * h) / 3, 11);
    }
  });

  it('is inverted exactly', () => {
    for (const share of [0.001, 0.2, 1 / 3, 0.5, 0.9, 0.9999]) {
      expect(normalBelow(normalQuantile(share))).toBeCloseTo(share, 12);
    }
  });
});

describe('grading', () => {
  // 0.5 kg on a mean of 2 kg, 25 %: the printed example of Aquaculture Engineering, chapter on size grading.
  const sizes = { fish: 900, weight: 2000, spread: 0.25 };

  it('has half of the fish above the mean and a sixth above one deviation more', () => {
    expect(fishAbove(sizes, 2000)).toBe(450);
    expect(fishAbove(sizes, 2500)).toBe(Math.round(900 * (1 - 0.8413447461)));
    expect(shareAbove({ weight: 100, spread: 0 }, 99)).toBe(1);
    expect(shareAbove({ weight: 100, spread: 0 }, 100)).toBe(0);
  });

  it('takes the top third, heavier than the mean, and loses no kilogram', () => {
    const { out, outWeight, left, leftWeight } = topShare(sizes, 1 / 3);
    expect([out, left]).toEqual([300, 600]);
    // The mean of the top third of a normal distribution lies 1.0908 deviations up (density at 0.43073 over 1/3).
    expect(outWeight).toBeCloseTo(2000 + 500 * 1.0908, 0);
    expect(out * outWeight + left * leftWeight).toBeCloseTo(900 * 2000, 6);
    expect(leftWeight).toBeCloseTo(weightLeft(900, 2000, 300, outWeight), 9);
  });

  it('agrees with sorting fish one by one', () => {
    const fish = 20000;
    const weights = Array.from(
      { length: fish },
      (_, at) => 300 * (1 + 0.3 * normalQuantile((at + 0.5) / fish)),
    );
    const top = weights.slice(fish - 4000);
    const mean = top.reduce((sum, value) => sum + value, 0) / top.length;
    expect(weightOfTop({ weight: 300, spread: 0.3 }, 0.2)).toBeCloseTo(mean, 1);
    expect(fishAbove({ fish, weight: 300, spread: 0.3 }, 350)).toBe(
      weights.filter((weight) => weight > 350).length,
    );
  });

  it('keeps kilograms, and grades out the heavier ones, whatever is graded', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.double({ min: 1, max: 3000, noNaN: true }),
        fc.double({ min: 0, max: 0.3, noNaN: true }),
        fc.double({ min: 0.6, max: 3, noNaN: true }),
        (fish, weight, spread, factor) => {
          const group = { fish, weight, spread };
          for (const grading of [
            topShare(group, Math.min(1, factor / 3)),
            allAbove(group, factor * weight),
          ]) {
            const { out, outWeight, left, leftWeight } = grading;
            expect(out + left).toBe(fish);
            expect((out * outWeight + left * leftWeight) / (fish * weight)).toBeCloseTo(1, 9);
            if (out > 0 && left > 0)
              expect(outWeight).toBeGreaterThanOrEqual(leftWeight - 1e-9 * weight);
            if (left > 0) expect(leftWeight).toBeGreaterThan(0);
          }
        },
      ),
    );
  });

  it('refuses half fish, a missing weight and an impossible spread', () => {
    expect(() => fishAbove({ ...sizes, fish: 1.5 }, 9)).toThrow(/whole; got 1.5/);
    expect(() => fishAbove({ ...sizes, weight: 0 }, 9)).toThrow(/above 0; got 0/);
    expect(() => fishAbove({ ...sizes, spread: 25 }, 9)).toThrow(/share from 0 to 0.5; got 25/);
    expect(() => allAbove({ fish: 18, weight: 100, spread: 0.5 }, 10)).toThrow(
      /smallest 1 of 18 fish cannot be told/,
    );
    expect(() => topShare(sizes, 1.1)).toThrow(/share must be from 0 to 1; got 1.1/);
  });
});

describe('rearing in stages', () => {
  // Worked with the thermal-unit equation (Iwama & Tautz 1981; Cho 1992): 28 degC, coefficient 1.3, no losses.
  const scheme = stagedRearing({
    weights: [10, 100, 300, 600],
    density: 50,
    temperature: 28,
    coefficient: 1.3,
    interval: 28,
  });

  it('takes 68.3, 56.4 and 47.8 days in 3, 3 and 2 tanks', () => {
    expect(scheme.stages.map(({ tanks }) => tanks)).toEqual([3, 3, 2]);
    [68.3, 56.4, 47.8].forEach((days, at) => {
      expect(Math.abs((scheme.stages[at]?.days ?? 0) - days)).toBeLessThanOrEqual(0.1);
    });
    expect(scheme.days).toBeCloseTo(172.5, 0);
  });

  it('gives 1.97 times what one tank from stocking to sale gives', () => {
    expect(Math.abs(scheme.allInAllOut - 105.8)).toBeLessThanOrEqual(0.3);
    expect(Math.abs(scheme.output - 208.8)).toBeLessThanOrEqual(0.5);
    expect(scheme.output / scheme.allInAllOut).toBeCloseTo(1.97, 2);
  });

  it('needs 2 tanks for 1200 fish of 150 g in 3 m3 at 30 kg/m3', () => {
    expect(tanksFor(1200, 150, 3000, 30)).toBe(2);
  });
});
