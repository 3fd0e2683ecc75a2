import { describe, expect, it } from 'vitest';
import { fishAbove } from '../../../src/core/grading';
import { askNumber } from './ask';

describe('STOCK.ABOVE', () => {
  // Math.com, z-distribution, standard normal probabilities: area below -z, five decimals. A million fish of 1000 g
  // with a spread of a tenth: the size lies z deviations above the mean.
  it.each([
    [2.5, 0.00621],
    [2.51, 0.00604],
    [2.6, 0.00466],
    [2.75, 0.00298],
    [2.9, 0.00187],
    [3, 0.00135],
    [3.5, 0.00023],
  ])('has %d deviations above the mean the share of the table', (z, share) => {
    const above = askNumber('STOCK.ABOVE', 1e6, 1000, 1000 + 100 * z, 0.1);
    expect(Math.abs(above / 1e6 - share)).toBeLessThanOrEqual(5.1e-6);
    expect(askNumber('STOCK.ABOVE', 1e6, 1000, 1000 - 100 * z, 0.1)).toBe(1e6 - above);
  });

  it('gives in its plain form what the series of the core gives', () => {
    for (let size = 40; size <= 2400; size += 37) {
      for (const spread of [0.01, 0.05, 0.2, 0.5]) {
        expect(askNumber('STOCK.ABOVE', 9999, 1000, size, spread), `${size}, ${spread}`).toBe(
          fishAbove({ fish: 9999, weight: 1000, spread }, size),
        );
      }
    }
  });
});
