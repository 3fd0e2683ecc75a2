import { describe, expect, it } from 'vitest';
import { ammoniumPka, unionisedShare } from '../../../src/core/ammonia';
import { pK1, pK2 } from '../../../src/core/carbonate';
import { frictionFactor, LAMINAR_TO, TURBULENT_FROM } from '../../../src/core/flow';
import { pressureAtAltitude } from '../../../src/core/oxygen';
import { kinematicViscosity, waterDensity } from '../../../src/core/water-properties';
import { agrees, tableChecks, titleOf } from './table-checks';

const PASCAL_PER_ATM = 101325;
const PASCAL_PER_MMHG = 133.322;

const quantities: Readonly<Record<string, (x: number) => number>> = {
  'pKa of ammonium': (water) => ammoniumPka(water, 0),
  'air pressure, Pa': (altitude) => pressureAtAltitude(altitude) * PASCAL_PER_ATM,
  'air pressure, mmHg': (altitude) =>
    (pressureAtAltitude(altitude) * PASCAL_PER_ATM) / PASCAL_PER_MMHG,
  pK1,
  pK2,
  'density, kg/m3': waterDensity,
  'kinematic viscosity, 1e-6 m2/s': (water) => kinematicViscosity(water) * 1e6,
};

for (const [quantity, compute] of Object.entries(quantities)) {
  describe(quantity, () => {
    for (const check of tableChecks(quantity)) {
      it(titleOf(check), () => expect(agrees(check, compute(Number(check.x)))).toBe(true));
    }
  });
}

describe('constants that are often misprinted', () => {
  it('ammonium: 2729.92, not 2727.92 (5.37 % at 25 degC and pH 8, not 5.45 %)', () => {
    expect(unionisedShare(8, 25, 0)).toBeCloseTo(0.0537, 4);
  });

  it('density: 16.879850e-3 in the denominator (997.045 at 25 degC, not 996.73)', () => {
    expect(waterDensity(25)).toBeCloseTo(997.045, 2);
  });

  it('pK1 at 25 degC is 6.352, as the PHREEQC database has it', () => {
    expect(pK1(25)).toBeCloseTo(6.352, 3);
  });
});

describe('friction factor', () => {
  for (const check of tableChecks('friction factor')) {
    it(titleOf(check), () => {
      const [reynolds, relative] = check.x as readonly [number, number];
      expect(agrees(check, frictionFactor(reynolds, relative))).toBe(true);
    });
  }

  it.each([1e-6, 1e-4, 1e-2, 0.05])('has no jump, roughness %d of the bore', (relative) => {
    for (const edge of [LAMINAR_TO, TURBULENT_FROM]) {
      const step = frictionFactor(edge + 1e-6, relative) - frictionFactor(edge - 1e-6, relative);
      expect(Math.abs(step)).toBeLessThan(1e-9);
    }
  });

  it('meets Colebrook, iterated, from Re 4000 to 1e8: largest difference 3.1 %', () => {
    let worst = 0;
    for (let reynolds = 4000; reynolds < 1e8; reynolds *= 1.7) {
      for (const relative of [1e-6, 1e-5, 1e-4, 1e-3, 1e-2]) {
        let root = 7;
        for (let i = 0; i < 60; i++)
          root = -2 * Math.log10(relative / 3.7 + (2.51 * root) / reynolds);
        const colebrook = 1 / root ** 2;
        worst = Math.max(worst, Math.abs(frictionFactor(reynolds, relative) / colebrook - 1));
      }
    }
    expect(worst).toBeLessThan(0.0315);
  });
});
