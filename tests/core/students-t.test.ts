import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { nineInTen } from '../../src/core/students-t';

/** NIST/SEMATECH e-Handbook of Statistical Methods (2012), table 1.3.6.7.2, column 0.95; from memory. */
const published = [
  [1, 6.314],
  [2, 2.92],
  [5, 2.015],
  [10, 1.812],
  [30, 1.697],
  [60, 1.671],
  [100, 1.66],
] as const;

describe("Student's t for nine in ten", () => {
  it.each(published)('of %i degrees of freedom is %d', (freedom, t) => {
    expect(nineInTen(freedom)).toBeCloseTo(t, 3);
  });

  it('is that of a general library', () => {
    for (let freedom = 1; freedom <= 400; freedom++)
      expect(nineInTen(freedom) / jstat.studentt.inv(0.95, freedom)).toBeCloseTo(1, 7);
  });
});
