import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import { serialFromIsoText } from '../../../src/core/serial-date';
import { cellOf, errorOf, numberOf } from '../../tools/card-value';
import { sunAboveTheAir } from '../../tools/true-sun';

describe('HEAT.MONTH', () => {
  it('is what an hour-by-hour sum of a sine day gives, within 0.1 %', () => {
    const months = fc.record({
      area: fc.double({ min: 50, max: 2000, noNaN: true }),
      u: fc.double({ min: 2, max: 7, noNaN: true }),
      volume: fc.double({ min: 100, max: 5000, noNaN: true }),
      changes: fc.double({ min: 0.3, max: 2, noNaN: true }),
      edge: fc.double({ min: 0, max: 200, noNaN: true }),
      inside: fc.double({ min: 5, max: 22, noNaN: true }),
      low: fc.double({ min: -20, max: 12, noNaN: true }),
      swing: fc.double({ min: 1, max: 18, noNaN: true }),
    });
    fc.assert(
      fc.property(months, ({ area, u, volume, changes, edge, inside, low, swing }) => {
        const high = low + swing;
        const loss = area * u + 0.335 * volume * changes + 1.38 * edge;
        const steps = 24 * 60;
        let sum = 0;
        for (let i = 0; i < steps; i++) {
          const outside =
            (high + low) / 2 + (swing / 2) * Math.sin((2 * Math.PI * (i + 0.5)) / steps);
          sum += (loss * Math.max(0, inside - outside)) / 1000 / 60;
        }
        const ours = numberOf('HEAT.MONTH', area, u, volume, changes, inside, high, low, 30, edge);
        expect(Math.abs(ours - 30 * sum)).toBeLessThanOrEqual(0.001 * 30 * sum + 0.5);
      }),
      { numRuns: 40, seed: 20261127 },
    );
  });

  it('agrees with HEAT.COVER on a day of one temperature, and is nothing where it is warm', () => {
    const day = numberOf('HEAT.MONTH', 240, 6.5, 0, 0, 15, 0, 0, 1);
    expect(day).toBeCloseTo((24 * numberOf('HEAT.COVER', 240, 6.5, 15, 0)) / 1000, 9);
    expect(numberOf('HEAT.MONTH', 240, 6.5, 350, 1, 15, 25, 15, 31)).toBe(0);
    expect(errorOf('HEAT.MONTH', 240, 6.5, 350, 1, 15, 5, 10, 31)).toMatch(
      /high must not be below low/,
    );
  });

  it('what leaks is the heat of dry air by psychrolib at 15 degrees, within 4 %', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    // J/kg between 0 and 15 degC, by the volume of a kilogram of dry air at 15.
    const rise = psychrolib.GetDryAirEnthalpy(15) - psychrolib.GetDryAirEnthalpy(0);
    const theirs = (350 * rise) / psychrolib.GetDryAirVolume(15, 101325) / 3600;
    const ours = (numberOf('HEAT.MONTH', 0, 1, 350, 1, 15, 0, 0, 1) * 1000) / 24;
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.04);
  });
});

describe('a cover that drips', () => {
  it.each([
    [15, 0.9, 2, 6.5, true],
    [15, 0.6, 8, 4, false],
  ])(
    '%d °C and %d inside, %d outside, U %d: wet %s, by the dew point of psychrolib',
    (air, humidity, outside, u, wet) => {
      psychrolib.SetUnitSystem(psychrolib.SI);
      const cover = numberOf('AIR.COVER', air, outside, u);
      const theirs = psychrolib.GetTDewPointFromRelHum(air, humidity);
      expect(Math.abs(theirs - numberOf('AIR.DEWPOINT', air, humidity))).toBeLessThan(0.05);
      expect(cover <= theirs).toBe(wet);
    },
  );
  it('lies between outside and inside whatever the cover', () => {
    for (const u of [0.5, 4, 6.5, 20]) {
      expect(numberOf('AIR.COVER', 15, 0, u)).toBeGreaterThanOrEqual(0);
      expect(numberOf('AIR.COVER', 15, 0, u)).toBeLessThan(15);
    }
  });
});

describe('LIGHT.INSIDE', () => {
  it('is within 5 % of the light by the true path of the sun (astronomy-engine), 0 to 50 degrees', () => {
    for (const latitude of [0, 20, 35, 50]) {
      for (const iso of ['2026-01-15', '2026-04-15', '2026-07-15', '2026-10-15']) {
        const theirs = sunAboveTheAir(latitude, serialFromIsoText(iso) ?? NaN) * 0.5 * 2.0565 * 0.7;
        expect(Math.abs(numberOf('LIGHT.INSIDE', latitude, iso) / theirs - 1)).toBeLessThan(0.05);
      }
    }
  });
  it.each([
    [0, [56, 57, 52, 58, 55]],
    [20, [41, 59, 61, 49, 40]],
    [40, [23, 53, 63, 35, 21]],
    [60, [5, 42, 60, 17, 3]],
  ])(
    'clear-sky light at %d N in January, April, July, October, December (own table of the reference)',
    (latitude, table) => {
      ['01', '04', '07', '10', '12'].forEach((month, i) => {
        const ours = numberOf('LIGHT.INSIDE', latitude, `2026-${month}-15`, 0.75, 1);
        expect(Math.abs(ours - (table[i] ?? NaN))).toBeLessThan(1.3);
      });
    },
  );
  it('a 30 % cloth takes 30 %', () => {
    const light = (shade?: number): number =>
      numberOf(
        'LIGHT.INSIDE',
        50,
        '2026-06-15',
        0.5,
        0.75,
        ...(shade === undefined ? [] : [shade]),
      );
    expect(light(0.3) / light()).toBeCloseTo(0.7, 12);
    // The worked figure of the reference: 22.4 mol.
    expect(Math.abs(light(0.3) - 22.4)).toBeLessThan(0.5);
  });
});

describe('LEAF.WETNESS', () => {
  it('takes the shorter time where two bands meet, and none beyond them', () => {
    expect(numberOf('LEAF.WETNESS', 'downy mildew', 15)).toBe(6);
    expect(numberOf('LEAF.WETNESS', 'grey mould', 24)).toBe(5);
    expect(numberOf('LEAF.WETNESS', 'botrytis', 12)).toBe(7);
    for (const air of [5, 30]) {
      expect(errorOf('LEAF.WETNESS', 'grey mould', air)).toMatch(/^#NUM! grey mould is not known/);
    }
    expect(cellOf('LEAF.WETNESS', 'downy mildew', 28)).toBe(2);
  });
});

describe('water in and out', () => {
  it('closes the balance of what builds up within 0.1 %, on random farms by small steps', () => {
    const farms = fc.record({
      volume: fc.double({ min: 2000, max: 1e5, noNaN: true }),
      from: fc.double({ min: 0, max: 100, noNaN: true }),
      makeup: fc.double({ min: 10, max: 2000, noNaN: true }),
      brings: fc.double({ min: 0, max: 300, noNaN: true }),
      share: fc.constantFrom(0, 0.1, 0.5),
      days: fc.integer({ min: 1, max: 700 }),
      added: fc.constantFrom(0, 20),
    });
    fc.assert(
      fc.property(farms, ({ volume, from, makeup, brings, share, days, added }) => {
        const discharge = share * makeup;
        const end = numberOf('WATER.BUILDUP', volume, from, makeup, brings, discharge, days, added);
        let level = from;
        let out = 0;
        const step = 0.02;
        for (let time = 0; time < days - step / 2; time += step) {
          const middle =
            level + ((step / 2) * (makeup * brings + 1000 * added - discharge * level)) / volume;
          out += step * discharge * middle;
          level += (step * (makeup * brings + 1000 * added - discharge * middle)) / volume;
        }
        const held = (end - from) * volume;
        const came = (makeup * brings + 1000 * added) * days;
        expect(Math.abs(held + out - came)).toBeLessThanOrEqual(0.001 * came + 1);
      }),
      { numRuns: 20, seed: 20261127 },
    );
  });
  it('makes up what crops, tanks and sludge take, less the rain', () => {
    expect(numberOf('WATER.BALANCE', 960, 60, 250, 120)).toBe(1150);
    expect(numberOf('WATER.BALANCE', 10, 0, 0, 50)).toBe(-40);
  });
});
