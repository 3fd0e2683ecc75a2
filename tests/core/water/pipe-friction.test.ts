import { describe, expect, it } from 'vitest';
import { frictionFactor, headLoss } from '../../../src/core/flow';

/** Hagen 1839, Poiseuille 1840: laminar flow. */
const laminar = (reynolds: number): number => 64 / reynolds;
/** Swamee & Jain 1976, as printed: f = 0.25 / [log10(e / 3.7 D + 5.74 / Re^0.9)]^2. */
const turbulent = (reynolds: number, relative: number): number =>
  0.25 / Math.log10(relative / 3.7 + 5.74 / reynolds ** 0.9) ** 2;

describe('friction in a pipe', () => {
  it.each([100, 2000, 2300])('is laminar at Re %d', (reynolds) => {
    expect(frictionFactor(reynolds, 0.01)).toBeCloseTo(laminar(reynolds), 12);
  });

  it.each([4000, 4030, 1e5])('is turbulent at Re %d', (reynolds) => {
    expect(frictionFactor(reynolds, 0.01)).toBeCloseTo(turbulent(reynolds, 0.01), 12);
  });

  it('is interpolated linearly from Re 2300 to 4000 [convention, EPANET uses a curve there]', () => {
    const [from, to] = [laminar(2300), turbulent(4000, 0.01)];
    for (const part of [0.01, 0.5, 0.99]) {
      expect(frictionFactor(2300 + part * 1700, 0.01)).toBeCloseTo(from + part * (to - from), 12);
    }
  });

  it('is refused for a wall rougher than a twentieth of the bore, the end of Moody’s chart of 1944 [memory]', () => {
    expect(headLoss(1000, 20, 10, 20, 1, 0)).toBeGreaterThan(0);
    expect(() => headLoss(1000, 20, 10, 20, 1.001, 0)).toThrow('more than a twentieth of the bore');
  });
});
