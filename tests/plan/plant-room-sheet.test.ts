import { describe, expect, it } from 'vitest';
import { calendarDate } from '../../src/core/serial-date';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { numberOf } from '../tools/card-value';
import { sunAboveTheAir } from '../tools/true-sun';
import { figuresOf } from './plan-figures';

// The demo farm with what a grower types on both sheets.
const farm = readFarm({
  ...demoFarm,
  figures: {
    Plant_pump_shutoff: 4,
    Plant_pump_most: 60000,
    Plant_settler_area: 3,
    Plant_screen: 0.5,
    Plant_source_hardness: 180,
    Plant_source_chlorine: 1.5,
    Plant_disinfectant: 'chloramine',
    Plant_drain_length: 12,
    Plant_fuel_price: 0.9,
    Plant_energy_price: 0.3,
    Plant_watts_lamps: 400,
    Plant_lamps_ppfd: 120,
    Plant_outage_pumps: 'yes',
    Plant_wet_hours: 7.5,
    Plant_night_hours: 10.5,
    Flood_together: 0.25,
    Plant_bed_flow: 9000,
    Plant_bed_turn: 120,
    Plant_battery_there: 5,
    Plant_generator_there: 900,
    Plant_heater_there: 20000,
  },
});
const live = figuresOf(planWorkbook(farm, { formulas: 'live' }));
const plain = figuresOf(planWorkbook(farm, { formulas: 'plain' }));

/** Minutes from one level to another, by small steps; all tilapia: 2 mg/L is critical, bacteria use 2 mg/L/h. */
function byHand(volume: number, use: number, supply = 0, from = 5.5): number {
  let level = from;
  let time = 0;
  while (level > 2) {
    level -= (((use - supply) * 1000) / volume + 2) / 6000;
    time += 0.01;
  }
  return time;
}

describe('the tanks of the Plant room sheet', () => {
  const stocked = farm.tanks.filter(({ fish, weight }) => fish > 0 && weight !== undefined);
  const minutes = live.numbers('Plant_all_stops');
  const use = live.numbers('Plant_use');

  it('last as long as an integration by hand says, now and with what lengthens it', () => {
    const [unfed, unfedUse] = [live.numbers('Plant_unfed'), live.numbers('Plant_unfed_use')];
    const [halved, saturated] = [live.numbers('Plant_halved'), live.numbers('Plant_saturated')];
    expect(minutes).toHaveLength(stocked.length);
    stocked.forEach(({ volume }, i) => {
      const now = use[i] ?? NaN;
      const pairs: readonly [number | undefined, number][] = [
        [minutes[i], byHand(volume, now)],
        [unfed[i], byHand(volume, unfedUse[i] ?? NaN)],
        [halved[i], byHand(volume, now / 2)],
        [saturated[i], byHand(volume, now, 0, live.number('Pump_full'))],
      ];
      for (const [ours, theirs] of pairs)
        expect(Math.abs((ours ?? NaN) - theirs)).toBeLessThan(0.02);
      for (const longer of [unfed[i], halved[i], saturated[i]])
        expect(longer).toBeGreaterThan(minutes[i] ?? NaN);
    });
  });

  it('have stand-by stones that bring what a transfer in the field leaves of their rating', () => {
    const supply =
      1000 *
      numberOf('OXYGEN.TRANSFER', 2.4 * 1.204 * 0.2315 * 0.03, live.number('Water_now'), 5.5);
    expect(live.number('Plant_standby_brings')).toBeCloseTo(supply, 6);
    live
      .all('Plant_backup')
      .slice(0, stocked.length)
      .forEach((lasts, i) => {
        expect(Math.abs(Number(lasts) - byHand(7800, use[i] ?? NaN, supply))).toBeLessThan(0.02);
      });
  });

  it('have their fullest week from the forecast, with the fish, weight and water of that week', () => {
    const weeks = live.all('Ahead_fish').length / live.numbers('Weeks_water').length;
    const place = live.numbers('Plant_full_place');
    const full = live.numbers('Plant_full');
    expect(full.length).toBeGreaterThanOrEqual(stocked.length);
    full.forEach((lasts, k) => {
      const column = (name: string): number[] =>
        live
          .all(name)
          .filter((_, i) => i % weeks === k)
          .map(Number);
      const kilos = column('Ahead_fish').map(
        (fish, week) => fish * (column('Ahead_weights')[week] as number),
      );
      const week = kilos.indexOf(Math.max(...kilos));
      expect(place[k]).toBe(week + 1);
      const peak =
        1.4 *
        numberOf(
          'OXYGEN.FISH',
          column('Ahead_fish')[week],
          column('Ahead_weights')[week],
          'Nile tilapia',
          live.numbers('Weeks_water')[week],
        );
      expect(Math.abs(lasts - byHand(7800, peak))).toBeLessThan(0.02);
    });
  });

  it('are answered for at the top: the least of now and of the fullest weeks', () => {
    const answer = String(live.all('Plant_answer')[0]);
    expect(answer).toContain(`lasts ${Math.round(Math.min(...minutes))} minutes now`);
    expect(answer).toContain(
      `lasts ${Math.round(Math.min(...live.numbers('Plant_full')))} in its fullest week`,
    );
    expect(answer).toContain('alarm');
  });

  it('use, with the filter, what the Balance sheet counts for all of the feed', () => {
    expect(live.number('Plant_fish_oxygen') + live.number('Plant_filter_oxygen')).toBeCloseTo(
      live.number('Load_oxygen'),
      6,
    );
  });
});

describe('the water ways of the Plant room sheet', () => {
  it('stand where the curve of the pump meets lift and friction', () => {
    const flow = live.number('Plant_pump_flow');
    const [lift, asked] = [1.6, live.number('Plant_turnover')];
    const friction = live.number('Plant_head') - lift;
    const holds = 4 * (1 - (flow / 60000) ** 2);
    expect(holds).toBeCloseTo(lift + friction * (flow / asked) ** 2, 9);
  });

  it('close the balance of water, and ask the sump for all that comes back', () => {
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

  it('treat the make-up, and say what chloramine leaves: 14.007 of 70.906', () => {
    expect(live.number('Plant_thiosulphate')).toBeCloseTo(
      numberOf('DOSE.DECHLOR', live.number('Plant_makeup'), 1.5),
      6,
    );
    expect(Math.abs(live.number('Plant_chloramine') - (1.5 * 14.007) / 70.906)).toBeLessThan(1e-4);
    // All that comes in and does not go out stays, as for sodium.
    expect(live.number('Plant_hardness') / live.number('Plant_sodium')).toBeCloseTo(18, 6);
  });

  it('let solids through settler and screen one after the other', () => {
    expect(live.number('Plant_solids_left')).toBeCloseTo(
      (1 - live.number('Plant_settled')) * 0.5,
      9,
    );
  });

  it('flood the gravel beds in turn: all of their water passes the pump once a round', () => {
    const [beds, together, groups] = ['Plant_beds', 'Plant_bed_together', 'Plant_bed_groups'].map(
      (name) => live.number(name),
    ) as [number, number, number];
    expect([beds, together, groups]).toEqual([24, 6, 4]);
    const order = live.rows('Plant room', 'From bed').map(([, from, to]) => [from, to]);
    expect(order).toEqual([
      ['G01', 'G06'],
      ['G07', 'G12'],
      ['G13', 'G18'],
      ['G19', 'G24'],
    ]);
    const pumped = ((live.number('Plant_bed_fill') * groups) / 60) * 9000;
    const held = numberOf('FLOOD.VOLUME', live.number('Gravel_area'), live.number('Flood_depth'));
    expect(Math.abs(pumped / held - 1)).toBeLessThan(0.001);
    expect(live.number('Plant_bed_drain')).toBeCloseTo(
      numberOf('FLOOD.DRAIN', 6, live.number('Flood_depth'), 25, 0.3, 1500),
      6,
    );
    // Torricelli with 0.6: what an outlet of 25 mm passes under 60 and under 30 cm.
    const passes = (head: number): number =>
      3.6e6 * 0.6 * (Math.PI / 4) * 0.025 ** 2 * Math.sqrt(2 * 9.80665 * head);
    expect(live.number('Plant_bed_full')).toBeCloseTo(passes(live.number('Flood_depth') + 0.3), 6);
    expect(live.number('Plant_bed_least')).toBeCloseTo(passes(0.3), 6);
  });
});

describe('the house of the Plant room sheet', () => {
  it('has the heat of twelve months from the house as it is without a heater, and its cost', () => {
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
        high[0],
        low[0],
        31,
      ),
      6,
    );
    const year = heat.reduce((sum, month) => sum + month, 0);
    expect(live.number('Plant_fuel_cost')).toBeCloseTo(
      0.9 * numberOf('HEAT.FUEL', year, 'propane'),
      6,
    );
  });

  it('has the light of each month over what each crop that is sold wants at least, lamps included', () => {
    // 120 µmol for 14 hours.
    const lamps = (120 * 14 * 3600) / 1e6;
    const light = live.numbers('Plant_light');
    const found = live.rows('Plant room', 'Wants, mol/m² a day');
    const crops = [...new Set(farm.markets.map(({ crop }) => crop))];
    expect(found.map(([name]) => name)).toEqual(crops);
    for (const [name, least, ...months] of found) {
      const wants = numberOf('FACT.CROP', String(name), 'daily light min');
      expect(least).toBe(wants);
      light.forEach((mol, month) => {
        expect(months[month]).toBeCloseTo((mol + lamps) / wants, 9);
      });
    }
  });

  it('gives each bed the mean light of the days until its cut, within 4 % of that by the true path of the sun (astronomy-engine)', () => {
    const [from, to] = [live.all('Beds_light_from'), live.all('Beds_light_to')];
    const monthly = live.numbers('Plant_light');
    let compared = 0;
    live.all('Beds_light').forEach((light, bed) => {
      if (typeof light !== 'number') return;
      const first = Number(from[bed]);
      const days = Array.from({ length: Number(to[bed]) - first }, (_, i) => first + i);
      const mean = (of: (day: number) => number): number =>
        days.reduce((sum, day) => sum + of(day), 0) / days.length;
      const inside = mean((day) => monthly[calendarDate(day).month - 1] ?? NaN) + 6.048;
      expect(light, farm.beds[bed]?.name).toBeCloseTo(inside, 6);
      if (bed % 8 === 5) {
        const sun = mean((day) => 2.0565 * sunAboveTheAir(farm.site.latitude ?? NaN, day));
        expect(Math.abs(light / (0.5 * 0.7 * sun + 6.048) - 1)).toBeLessThan(0.04);
        compared++;
      }
      const wants = numberOf('FACT.CROP', String(live.all('Beds_crop')[bed]), 'daily light min');
      expect(live.all('Beds_light_share')[bed]).toBeCloseTo(light / wants, 9);
    });
    expect(compared).toBeGreaterThan(3);
  });

  it('counts what the tanks lose to the air around them, and by evaporation', () => {
    const january = live.numbers('Plant_tank_heat')[0] ?? NaN;
    const sides = live.number('Plant_tank_sides');
    // Five round tanks of 7.8 m3, a metre deep.
    expect(sides).toBeCloseTo(5 * (7.8 + 2 * Math.sqrt(Math.PI * 7.8)), 6);
    const walls = numberOf('HEAT.MONTH', sides, 5, 0, 0, 25.5, 17, 10, 31);
    const evaporated =
      31 * numberOf('WATER.USE', 39, 17, 7, live.number('Farm_latitude'), '2026-01-15', 1.05);
    expect(january).toBeCloseTo(walls + numberOf('HEAT.EVAPORATION', evaporated), 6);
  });

  it('vents the sun of a clear noon', () => {
    const noon =
      1361 *
      0.75 *
      Math.sin((numberOf('SUN.NOON', live.number('Farm_latitude'), '2026-06-15') * Math.PI) / 180);
    const flow = numberOf('VENT.HEAT', live.number('Plant_floor'), noon, 5, 0, 0.7);
    expect(live.numbers('Plant_vent')[5]).toBeCloseTo(flow / live.number('House_volume'), 6);
    expect(live.number('Plant_mould')).toBeCloseTo(0.5, 9);
  });
});

describe('power and what to buy, on Money', () => {
  it('adds up what runs, and sizes battery and generator by what must run', () => {
    const [pumps, blower] = [
      live.numbers('Pumps_power').reduce((sum, watts) => sum + watts, 0),
      live.number('Plant_blower'),
    ];
    expect(live.number('Plant_watts')).toBeCloseTo(pumps + blower + 400, 6);
    const kilowattHours = 0.365 * (24 * (pumps + blower) + 14 * 400);
    expect(live.number('Plant_energy')).toBeCloseTo(kilowattHours, 6);
    expect(live.number('Plant_energy_cost')).toBeCloseTo(0.3 * kilowattHours, 6);
    expect(live.number('Plant_outage_watts')).toBeCloseTo(pumps + blower, 6);
    expect(live.number('Plant_battery')).toBeCloseTo(
      ((pumps + blower) * 12) / 1000 / 0.8 / 0.85,
      6,
    );
    expect(live.number('Plant_batteries')).toBe(Math.ceil(live.number('Plant_battery') / 1.2));
  });

  it('says how long the battery that is there lasts, and what would be enough', () => {
    const must = live.number('Plant_outage_watts');
    const hours = (5 * 0.8 * 0.85 * 1000) / must;
    expect(live.number('Plant_battery_lasts')).toBeCloseTo(hours, 9);
    const verdict = live.text('Money', 'The battery lasts');
    expect(verdict).toContain(`lasts ${hours.toFixed(1)} h of 12.0 h`);
    expect(verdict).toContain(
      `generator of ${(2 * must).toLocaleString('en', { maximumFractionDigits: 0 })} W`,
    );
  });
});

it('says the same live and plain', () => {
  for (const name of [
    'Plant_all_stops',
    'Plant_air',
    'Plant_full',
    'Plant_unfed',
    'Plant_saturated',
    'Plant_heat',
    'Plant_tank_heat',
    'Plant_light',
    'Plant_vent',
  ]) {
    const [one, other] = [live.numbers(name), plain.numbers(name)];
    expect(one.length).toBeGreaterThan(3);
    one.forEach((value, i) => expect(other[i]).toBeCloseTo(value, 8));
  }
  for (const name of [
    'Plant_blower',
    'Plant_sump',
    'Plant_sodium',
    'Plant_pump_flow',
    'Plant_bed_fill',
    'Plant_bed_drain',
    'Plant_hardness',
    'Plant_mould',
    'Plant_generator',
  ] as const) {
    expect(plain.number(name)).toBeCloseTo(live.number(name), 6);
  }
});
