import { describe, expect, it } from 'vitest';
import { restingOxygen } from '../../../src/core/fish-oxygen';
import { numberOf } from '../../tools/card-value';

/** A value to the printed digit: half a unit of its last one. */
const printed = (ours: number, text: string): void => {
  const decimals = text.split('.')[1]?.length ?? 0;
  expect(Math.abs(ours - Number(text))).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9);
};

describe('oxygen and air as published', () => {
  it('Piper et al. 1982, Fish Hatchery Management, example of the flow index (read): 11 to 8 ppm over 5 halve it, 1.5 to 0.75', () => {
    const index =
      (1.5 * numberOf('FLOW.OXYGEN', 1000, 11, 5)) / numberOf('FLOW.OXYGEN', 1000, 8, 5);
    printed(index, '0.75');
  });

  it('the same, figure 1 (read): 6.4 ppm at 500 m count as 6.8 at sea level', () => {
    for (const water of [5, 15, 25]) {
      const factor = numberOf('OXYGEN.FULL', water) / numberOf('OXYGEN.FULL', water, null, 500);
      printed(factor, '1.06');
      printed(6.4 * factor, '6.8');
    }
  });

  it('a trade page on pond aeration (read): 8 ft of water press with 3.46 psi', () => {
    // W at one m3/s and full efficiency are Pa; the page takes 2.31 ft to the psi.
    const pascals = numberOf('AIR.BLOWER', 3600, '8 ft', 0.000001, 1);
    expect(Math.abs(pascals / 6894.757 - 3.46)).toBeLessThan(0.015);
  });

  it('QSDsan, DiffusedAeration (read): a cubic metre of standard air holds 277.65 g of oxygen', () => {
    const grams = 1000 / numberOf('AIR.DIFFUSED', 1000, 1, 20, 0, 1, 1, 1);
    expect(Math.abs(grams / 277.6533841 - 1)).toBeLessThan(0.005);
  });

  it('QSDsan, the same: its field transfer at the surface, with its own curve of saturation, within 1 %', () => {
    for (const water of [10, 15, 20, 25, 30]) {
      for (const oxygen of [2, 4, 5.5]) {
        const saturation = -7e-6 * water ** 3 + 8e-4 * water ** 2 - 4.35e-2 * water + 1.6052;
        const theirs = (0.6 * 1.024 ** (water - 20) * (0.95 * saturation * 9.09 - oxygen)) / 9.09;
        const ours = numberOf('OXYGEN.TRANSFER', 1, water, oxygen, 0.6, 0.95);
        expect(Math.abs(ours - theirs)).toBeLessThan(0.01 * 0.6);
      }
    }
  });

  it('Sincero & Sincero 2003, Physical-Chemical Treatment of Water and Wastewater, example 9.1 (read): 2.46 an hour at 20 °C are 2.77 at 25 °C', () => {
    // The transfer into water without oxygen, over its saturation, is the coefficient by the water's warmth.
    const coefficient = (water: number): number =>
      numberOf('OXYGEN.TRANSFER', 1, water, 0, 1, 1) / numberOf('OXYGEN.FULL', water);
    printed((2.46 * coefficient(25)) / coefficient(20), '2.77');
  });

  it('Tucker 1984, factors of carbon dioxide (read): 0.313 of the alkalinity at pH 6.8 and 25 °C', () => {
    printed(numberOf('CARBON.DIOXIDE', 6.8, 50, 25) / 50, '0.313');
  });

  it('a consulting engineer’s calculation of a treatment plant, 2002, in the records of a county (read): 1.3849 kg/h into water of 10 °C and 2 mg/L, alpha 0.65 times 0.9, beta 0.95, are 2.82 kg/h by the standard; at 35 % 0.46 m³ of air a minute', () => {
    // Under 2.83 m of water, of which it takes the half, its saturation of 11.27 is 12.2798.
    const deep = 12.2798 / 11.27;
    const standard =
      1.3849 / (deep * numberOf('OXYGEN.TRANSFER', 1, 10, 2 / deep, 0.65 * 0.9, 0.95));
    printed(standard, '2.82');
    // Air of 20 degrees here, of 10 there.
    const air = numberOf('AIR.DIFFUSED', 1000 * standard, 1, 20, 0, 0.35, 1, 1) * (283.15 / 293.15);
    printed(air / 60, '0.46');
  });

  it('a trial of a hauling tank (abstract, read): 908 kg of channel catfish in 2650 L lived 50 minutes on full air from 20 to 2.2 mg/L; without air they live shorter, as they breathe more than it brought', () => {
    // 23 cm: about 100 g (common practice), 22 °C, unfed.
    const use = (908 * restingOxygen(100, 22)) / 1000;
    const least = (2650 * (20 - 2.2)) / 1e6 / (50 / 60);
    expect(use / 1000).toBeGreaterThan(least);
    const minutes = numberOf('OXYGEN.MINUTES', 2650, 20, 2.2, use);
    expect(minutes).toBeLessThan(50);
    expect(minutes).toBeGreaterThan(15);
  });
});

describe('water ways as published', () => {
  it('a civil engineer’s page on pipes (read): 8 in, n 0.013, 0.5 %, full: 0.854 ft3/s at 2.448 ft/s', () => {
    const flow = numberOf('FLOW.DRAIN', '8 in', 0.005, 1, 0.013);
    printed(flow / 3600 / 1000 / 0.3048 ** 3, '0.854');
    printed(numberOf('FLOW.SPEED', flow, '8 in') / 0.3048, '2.448');
  });

  it('sand of 0.01 mm at 80,000 m3 a day over 900 m2 (exercise, read: 8.7 % in an ideal basin): mixed basins take less, and the more the more of them', () => {
    // Stokes, 20 °C, as the exercise has it.
    const settling = ((1650 * 9.81 * 1e-10) / (18 * 1e-3)) * 3600;
    const share = (tanks: number): number =>
      numberOf('SOLIDS.SETTLED', 80e6 / 24, 900, settling, tanks);
    printed((100 * settling * 900 * 24) / 80000, '8.7');
    expect(share(1)).toBeLessThan(share(4));
    expect(share(4)).toBeLessThan(0.0874);
    expect(share(1)).toBeGreaterThan(0.08);
  });
});
