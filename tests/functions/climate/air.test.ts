import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import { errorOf, numberOf } from '../../tools/card-value';

psychrolib.SetUnitSystem(psychrolib.SI);
const SEA_LEVEL = 101325;

const steps = (from: number, to: number, by: number): number[] =>
  Array.from({ length: Math.round((to - from) / by) + 1 }, (_, i) => from + i * by);
const temperatures = steps(0, 60, 1.5);
const humidities = [0.1, 0.3, 0.5, 0.7, 0.85, 0.95, 1];

/** kg/h that venting removes, by the humidity ratios of psychrolib. */
function dryingByRatios(
  flow: number,
  inside: readonly [number, number],
  outside: readonly [number, number],
  pressure: number,
): number {
  const [w1, w2] = [
    psychrolib.GetHumRatioFromRelHum(...inside, pressure),
    psychrolib.GetHumRatioFromRelHum(...outside, pressure),
  ];
  return (flow * (w1 - w2)) / psychrolib.GetMoistAirVolume(inside[0], w1, pressure);
}

describe('air against psychrolib (ASHRAE 2017), 0 to 60 degC by 1.5 and 10 to 100 %', () => {
  it('AIR.VPD: largest difference 0.12 % of the saturation pressure', () => {
    let worst = 0;
    for (const air of temperatures) {
      const full = psychrolib.GetSatVapPres(air) / 1000;
      for (const humidity of humidities) {
        const off = Math.abs(numberOf('AIR.VPD', air, humidity) - full * (1 - humidity)) / full;
        worst = Math.max(worst, off);
      }
    }
    expect(worst).toBeGreaterThan(0.0005);
    expect(worst).toBeLessThan(0.0012);
  });

  it('AIR.DEWPOINT at or above freezing: largest difference 0.03 degC', () => {
    let worst = 0;
    let count = 0;
    for (const air of temperatures) {
      for (const humidity of humidities) {
        const other = psychrolib.GetTDewPointFromRelHum(air, humidity);
        if (other < 0) continue;
        count += 1;
        worst = Math.max(worst, Math.abs(numberOf('AIR.DEWPOINT', air, humidity) - other));
      }
    }
    expect(count).toBeGreaterThan(200);
    expect(worst).toBeLessThan(0.03);
  });

  it('AIR.MOISTURE: largest difference 0.12 %', () => {
    let worst = 0;
    for (const air of temperatures) {
      for (const humidity of humidities) {
        const ratio = psychrolib.GetHumRatioFromRelHum(air, humidity, SEA_LEVEL);
        const other = (1000 * ratio) / psychrolib.GetMoistAirVolume(air, ratio, SEA_LEVEL);
        worst = Math.max(worst, Math.abs(numberOf('AIR.MOISTURE', air, humidity) / other - 1));
      }
    }
    expect(worst).toBeLessThan(0.0012);
  });

  it('VENT.DRYING: largest difference 0.06 g for each m3 of air, the sign always the same', () => {
    let worst = 0;
    for (const inside of steps(5, 40, 5)) {
      for (const outside of steps(0, 35, 5)) {
        for (const h1 of [0.5, 0.75, 0.9, 1]) {
          for (const h2 of [0.4, 0.7, 1]) {
            const other = dryingByRatios(1000, [inside, h1], [outside, h2], SEA_LEVEL);
            const found = numberOf('VENT.DRYING', 1000, inside, h1, outside, h2);
            worst = Math.max(worst, Math.abs(found - other));
            if (Math.abs(other) > 0.1) expect(Math.sign(found)).toBe(Math.sign(other));
          }
        }
      }
    }
    expect(worst).toBeLessThan(0.06);
  });

  it.each([
    [14, 0.9, 2, 0.85],
    [20, 0.9, 5, 0.8],
    [28, 0.8, 18, 0.6],
    [10, 0.95, 0, 0.9],
  ])(
    'VENT.DRYING at 1500 m, %d degC and %d against %d degC and %d: under 0.5 %% away',
    (a, b, c, d) => {
      const other = dryingByRatios(1000, [a, b], [c, d], 84500);
      expect(Math.abs(numberOf('VENT.DRYING', 1000, a, b, c, d) / other - 1)).toBeLessThan(0.005);
    },
  );

  it('the dew point of ASHRAE example 1 (40 degC, wet bulb 20 degC, printed 7 degC off the chart)', () => {
    const humidity = psychrolib.GetRelHumFromTWetBulb(40, 20, SEA_LEVEL);
    expect(humidity).toBeCloseTo(0.14, 1);
    expect(Math.abs(numberOf('AIR.DEWPOINT', 40, humidity) - 7)).toBeLessThan(0.5);
  });
});

describe('air behaves physically', () => {
  it('warmer air at the same humidity draws more, holds more and wets sooner', () => {
    for (const id of ['AIR.VPD', 'AIR.MOISTURE', 'AIR.DEWPOINT']) {
      const values = steps(-20, 60, 0.5).map((air) => numberOf(id, air, 0.8));
      values.slice(1).forEach((value, i) => expect(value).toBeGreaterThan(values[i] as number));
    }
  });

  it('damper air draws less, holds more and wets sooner; saturated air draws nothing', () => {
    const at = (id: string): number[] => steps(0.05, 1, 0.05).map((h) => numberOf(id, 20, h));
    const rises = (values: readonly number[]): boolean =>
      values.slice(1).every((value, i) => value > (values[i] as number));
    expect(rises(at('AIR.VPD').reverse())).toBe(true);
    expect(rises(at('AIR.MOISTURE'))).toBe(true);
    expect(rises(at('AIR.DEWPOINT'))).toBe(true);
    expect(numberOf('AIR.VPD', 20, 1)).toBe(0);
    expect(numberOf('AIR.DEWPOINT', 20, 1)).toBeCloseTo(20, 10);
  });

  it('at its own dew point the air holds the same vapour, saturated', () => {
    for (const air of [5, 15, 25, 35]) {
      for (const humidity of [0.3, 0.6, 0.9]) {
        const dew = numberOf('AIR.DEWPOINT', air, humidity);
        const full = 2 * numberOf('AIR.VPD', dew, 0.5);
        expect(full).toBeCloseTo(2 * numberOf('AIR.VPD', air, 0.5) * humidity, 10);
      }
    }
  });
});

describe('arguments of the air', () => {
  it('says how a humidity is written where 85 stands for 85 %', () => {
    expect(errorOf('AIR.VPD', 20, 85)).toBe(
      '#VALUE! humidity must be between 0.01 and 1, such as 0.6 or "60 %"; got 85',
    );
    expect(numberOf('AIR.VPD', 20, '85 %')).toBe(numberOf('AIR.VPD', 20, 0.85));
  });

  it('takes other units, and names a unit that does not fit', () => {
    expect(numberOf('AIR.VPD', '68 degF', 0.85)).toBeCloseTo(numberOf('AIR.VPD', 20, 0.85), 12);
    expect(errorOf('AIR.VPD', '68 ft', 0.85)).toMatch(/^#VALUE! air takes a temperature/);
  });

  it('treats a missing humidity as missing, and 0 as a temperature', () => {
    expect(errorOf('AIR.VPD', 20, 0)).toMatch(/^#VALUE! humidity is missing/);
    expect(numberOf('AIR.VPD', 0, 0.5)).toBeCloseTo(0.3054, 4);
  });

  it('has no dew point where the curve ends', () => {
    expect(errorOf('AIR.DEWPOINT', -30, 0.05)).toMatch(/^#NUM! .*below -40 °C/);
  });
});

describe('venting', () => {
  it('takes air changes and cubic feet', () => {
    expect(numberOf('VENT.FLOW', '10000 ft3', 2)).toBeCloseTo(566.34, 2);
    expect(errorOf('VENT.FLOW', 350, 0)).toMatch(/^#VALUE! changes is missing/);
  });

  it('dries less the warmer and damper the air outside, until it brings water in', () => {
    const byAir = steps(-20, 30, 2).map((t) => numberOf('VENT.DRYING', 700, 20, 0.85, t, 0.8));
    byAir.slice(1).forEach((value, i) => expect(value).toBeLessThan(byAir[i] as number));
    expect(byAir[0]).toBeGreaterThan(0);
    expect(byAir.at(-1)).toBeLessThan(0);
    expect(numberOf('VENT.DRYING', 700, 20, 0.85, 20, 0.85)).toBeCloseTo(0, 12);
  });

  // Common practice, no source: a tunnel is vented two hours a day even in the cold.
  it('two hours of venting on a cold day carry out litres of water', () => {
    const flow = numberOf('VENT.FLOW', 350, 2);
    const litres = 2 * numberOf('VENT.DRYING', flow, 14, 0.9, 2, 0.85);
    expect(litres).toBeGreaterThan(8);
    expect(litres).toBeLessThan(10);
    // Far more than the air of the tunnel holds at once: the beds dry with it.
    const held = (350 * numberOf('AIR.MOISTURE', 14, 0.9)) / 1000;
    expect(litres).toBeGreaterThan(2 * held);
    // Even foggy air at freezing point dries a tunnel that is warmer.
    expect(numberOf('VENT.DRYING', flow, 14, 0.9, 0, 1)).toBeGreaterThan(0);
  });
});
