import { describe, expect, it } from 'vitest';
import { massPerNitrogen, molarMass } from '../../../src/core/molar-mass';
import { gramsPerEquivalent } from '../../../src/core/tables/bases';
import { agrees, tableChecks, titleOf } from './table-checks';

/** Sums of IUPAC conventional atomic weights, written out by hand. */
const byHand: readonly (readonly [formula: string, mass: number])[] = [
  ['CaCO3', 40.078 + 12.011 + 3 * 15.999],
  ['Ca(OH)2', 40.078 + 2 * (15.999 + 1.008)],
  ['K2CO3', 2 * 39.098 + 12.011 + 3 * 15.999],
  ['KOH', 39.098 + 15.999 + 1.008],
  ['KHCO3', 39.098 + 1.008 + 12.011 + 3 * 15.999],
  ['NaHCO3', 22.99 + 1.008 + 12.011 + 3 * 15.999],
  ['NaCl', 22.99 + 35.45],
  ['KCl', 39.098 + 35.45],
  ['CaCl2', 40.078 + 2 * 35.45],
  ['CaCl2.2H2O', 40.078 + 2 * 35.45 + 2 * (2 * 1.008 + 15.999)],
  ['Na2S2O3.5H2O', 2 * 22.99 + 2 * 32.06 + 3 * 15.999 + 5 * (2 * 1.008 + 15.999)],
  ['Na(OH)', 22.99 + 15.999 + 1.008],
  ['Mg(OH)2', 24.305 + 2 * (15.999 + 1.008)],
];

describe('molar masses', () => {
  it.each(byHand)('%s is the sum of its atoms', (formula, mass) => {
    expect(molarMass(formula)).toBeCloseTo(mass, 9);
  });

  it('refuses an element without an atomic weight', () => {
    expect(() => molarMass('UO2')).toThrow('U');
  });

  for (const check of tableChecks('mass per nitrogen')) {
    it(`mass per nitrogen ${titleOf(check)}`, () =>
      expect(agrees(check, massPerNitrogen(String(check.x)))).toBe(true));
  }

  for (const check of tableChecks('equivalent weight')) {
    it(`equivalent weight ${titleOf(check)}`, () =>
      expect(agrees(check, gramsPerEquivalent(String(check.x), 2))).toBe(true));
  }

  it('counts of two figures, in brackets and before water, worked by hand from the atomic weights', () => {
    expect(molarMass('(CH2)12')).toBeCloseTo(12 * (12.011 + 2 * 1.008), 9);
    expect(molarMass('Na2CO3.10H2O') - molarMass('Na2CO3')).toBeCloseTo(
      10 * (2 * 1.008 + 15.999),
      9,
    );
  });

  it('an element that is not in the table is a fault, not a mass', () => {
    expect(() => molarMass('XeF2')).toThrow('no atomic weight for Xe in XeF2');
  });

  it('a German degree, 10 mg/L CaO, is 17.848 mg/L as CaCO3 [definition]', () => {
    expect((10 * molarMass('CaCO3')) / molarMass('CaO')).toBeCloseTo(17.848, 2);
  });
});

describe('stoichiometry of nitrification', () => {
  for (const check of tableChecks('oxygen per nitrogen')) {
    it(`oxygen per nitrogen ${titleOf(check)}`, () =>
      expect(agrees(check, (Number(check.x) * molarMass('O2')) / molarMass('N'))).toBe(true));
  }

  for (const check of tableChecks('carbon dioxide per oxygen')) {
    it(`carbon dioxide per oxygen ${titleOf(check)}`, () =>
      expect(agrees(check, molarMass('CO2') / molarMass('O2'))).toBe(true));
  }

  it('alkalinity with growth is 7.05 [memory: Ebeling et al. 2006] where 17 mg of bacteria grow on 100 mg of nitrogen [read: Gujer & Jenkins 1974]', () => {
    // Bacteria as C5H7O2N: nitrogen built into them costs one equivalent where nitrified nitrogen costs two.
    const builtIn = (0.17 / molarMass('C5H7O2N')) * molarMass('N');
    const grams = ((2 - builtIn) * (molarMass('CaCO3') / 2)) / molarMass('N');
    expect(Math.abs(grams - 7.05)).toBeLessThanOrEqual(0.025);
  });
});
