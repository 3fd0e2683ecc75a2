import { describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { numberOf } from '../tools/card-value';
import { figuresOf } from './plan-figures';

const farm = readFarm(demoFarm);
const live = figuresOf(planWorkbook(farm, { formulas: 'live' }));
const plain = figuresOf(planWorkbook(farm, { formulas: 'plain' }));

describe('the Plant room sheet', () => {
  it('gives each stocked tank the minutes that an integration by hand gives, today and at its limit', () => {
    const minutes = live.numbers('Plant_all_stops');
    const full = live.numbers('Plant_full');
    const use = live.numbers('Plant_use');
    const stocked = farm.tanks.filter(({ fish, weight }) => fish > 0 && weight !== undefined);
    expect(minutes).toHaveLength(stocked.length);
    stocked.forEach(({ volume }, i) => {
      // All tilapia: from 5.5 to 2 mg/L, small steps, bacteria at 2 mg/L an hour.
      let level = 5.5;
      let time = 0;
      while (level > 2) {
        level -= (((use[i] ?? NaN) * 1000) / volume + 2) / 6000;
        time += 0.01;
      }
      expect(Math.abs((minutes[i] ?? NaN) - time)).toBeLessThan(0.02);
      expect(full[i]).toBeLessThanOrEqual((minutes[i] ?? NaN) + 1e-9);
    });
  });

  it('counts fish and filter as the Balance sheet does: the fish are seven tenths of all the oxygen', () => {
    const fish = live.numbers('Plant_use').reduce((sum, use) => sum + use, 0) / 1.4;
    const all = live.number('Load_oxygen') / 24;
    expect(fish / all).toBeCloseTo(0.7, 1);
  });

  it('closes the balance of water, and asks the sump for all that comes back', () => {
    expect(live.number('Plant_makeup')).toBeCloseTo(
      live.number('Plant_crop_water') +
        live.number('Plant_evaporation') +
        0.005 * live.number('Water_total'),
      6,
    );
    const pipes = live.numbers('Plant_pipe_water').reduce((sum, litres) => sum + litres, 0);
    expect(live.number('Plant_sump')).toBeCloseTo(
      pipes + live.number('Flood_volume') + 100 + live.number('Plant_evaporation'),
      6,
    );
  });

  it('has the heat of twelve months from the house as it is without a heater', () => {
    const heat = live.numbers('Plant_heat');
    expect(heat).toHaveLength(12);
    const [high, low] = [live.numbers('Month_high'), live.numbers('Month_low')];
    expect(heat[0]).toBeCloseTo(
      numberOf(
        'HEAT.MONTH',
        live.number('Plant_cover'),
        6.5,
        live.number('House_volume'),
        1,
        10,
        high[0] ?? NaN,
        low[0] ?? NaN,
        31,
      ),
      6,
    );
  });

  it('says the same live and plain', () => {
    for (const name of [
      'Plant_all_stops',
      'Plant_air',
      'Plant_full',
      'Plant_heat',
      'Plant_light',
    ]) {
      const [one, other] = [live.numbers(name), plain.numbers(name)];
      expect(one.length).toBeGreaterThan(3);
      one.forEach((value, i) => expect(other[i]).toBeCloseTo(value, 8));
    }
    for (const name of ['Plant_blower', 'Plant_sump', 'Plant_sodium', 'Plant_generator'] as const) {
      expect(plain.number(name)).toBeCloseTo(live.number(name), 6);
    }
  });
});
