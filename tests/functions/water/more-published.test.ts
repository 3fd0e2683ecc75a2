import { describe, expect, it } from 'vitest';
import { AMMONIA_PER_CHLORAMINE } from '../../../src/core/dosing';
import { cellOf, numberOf } from '../../tools/card-value';

describe('more published values of water', () => {
  it('SAF-01 [memory; the ratio of molar masses beside it] 7.0 g of thiosulphate pentahydrate for 1 mg/L of chlorine in 1000 L: 2 Na2S2O3 + Cl2 to tetrathionate', () => {
    expect(Math.abs(numberOf('DOSE.DECHLOR', 1000, 1) - 7)).toBeLessThanOrEqual(0.05);
    // 2 x 248.18 over 70.906, atomic weights of IUPAC.
    expect(Math.abs(numberOf('DOSE.DECHLOR', 1000, 1) - (2 * 248.18) / 70.906)).toBeLessThan(0.01);
  });

  it('SAF-02 [definition] 0.198 mg of ammonia nitrogen are set free with each mg of chlorine of monochloramine: 14.007 over 70.906', () => {
    expect(Math.abs(AMMONIA_PER_CHLORAMINE - 0.198)).toBeLessThanOrEqual(0.002);
  });

  it('o2-feed-total [read] Boyd: complete oxidation of feed takes 1.25 g a g, the upper end of what LOAD.OXYGEN takes for per_feed', () => {
    expect(numberOf('LOAD.OXYGEN', 1000, 1.25)).toBe(1250);
    expect(numberOf('LOAD.OXYGEN', 1000)).toBeLessThan(1250);
  });

  it('uvi-area [read] UVI aquaponic system pages: 2300 ft2 of rafts are 214 m2', () => {
    // One g/m2/day makes the area the feed itself.
    const feed = numberOf('FEED.WANTED', '2300 ft2', 1);
    expect(Math.abs(feed - 214)).toBeLessThanOrEqual(0.5);
  });

  it.each([[34.8472, 10.2262, 273.56528]])(
    'TEOS-10 gsw_O2sol_SP_pt example [read]: oxygen at S %d and %d degC, through the density of sea water',
    (salinity, water, micromoles) => {
      const milligrams = numberOf('OXYGEN.FULL', water, salinity);
      // kg/m3 by UNESCO EOS-80 at atmospheric pressure, rounded to what the check needs.
      const density = 1026.8;
      const found = (milligrams / 31.9988 / density) * 1e6;
      expect(Math.abs(found / micromoles - 1)).toBeLessThan(0.001);
    },
  );

  it('answers #VALUE! with a sentence where a chlorine reading is negative', () => {
    expect(String(cellOf('DOSE.DECHLOR', 1000, -1))).toMatch(/chlorine must be/);
  });
});
