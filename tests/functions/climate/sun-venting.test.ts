import { describe, expect, it } from 'vitest';
import { errorOf, numberOf } from '../../tools/card-value';

/** m3/h in a cubic foot a minute; m2 in a square foot. */
const CFM = 60 * 0.3048 ** 3;
const SQUARE_FOOT = 0.3048 ** 2;

describe('VENT.HEAT', () => {
  it('full sun and 10 °F warmer than outside: 8 to 10 ft3 a minute for each ft2 (University of Massachusetts Extension, read)', () => {
    const flow = numberOf('VENT.HEAT', 1, 900, '96 degF', '86 degF');
    expect((flow * SQUARE_FOOT) / CFM).toBeGreaterThan(8);
    expect((flow * SQUARE_FOOT) / CFM).toBeLessThan(10);
  });

  it('closes the balance of heat: what comes in leaves with the air and as vapour', () => {
    for (const [area, radiation, rise, cover, shade, used] of [
      [120, 900, 5, 0.7, 0, 0.5],
      [350, 640, 3, 0.75, 0.3, 0.2],
      [1000, 1000, 8, 0.6, 0.5, 0.01],
    ] as const) {
      const flow = numberOf('VENT.HEAT', area, radiation, 25 + rise, 25, cover, shade, used);
      const comesIn = area * radiation * cover * (1 - shade);
      expect(Math.abs((flow * 0.335 * rise + used * comesIn) / comesIn - 1)).toBeLessThan(0.001);
    }
  });

  it('half the sun wants half the air, a cloth of 30 % takes 30 %, and no air cools below the outside', () => {
    const full = numberOf('VENT.HEAT', 100, 900, 33, 28);
    expect(numberOf('VENT.HEAT', 100, 450, 33, 28)).toBeCloseTo(full / 2, 9);
    expect(numberOf('VENT.HEAT', 100, 900, 33, 28, null, 0.3)).toBeCloseTo(0.7 * full, 9);
    expect(errorOf('VENT.HEAT', 100, 900, 28, 28)).toMatch(
      /^#NUM! venting cools no lower than the air outside, 28 °C/,
    );
  });
});
