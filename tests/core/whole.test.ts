import { describe, expect, it } from 'vitest';
import { roundDownToWhole, roundUpToWhole } from '../../src/core/whole';

describe('whole numbers of things', () => {
  it.each([
    [600, 600, 600],
    [600.0000001, 600, 600],
    [599.9999999, 600, 600],
    [600.01, 600, 601],
    [0, 0, 0],
    [0.3 / 0.1, 3, 3],
  ])('%f: at most %i, at least %i', (amount, down, up) => {
    expect(roundDownToWhole(amount)).toBe(down);
    expect(roundUpToWhole(amount)).toBe(up);
  });
});
