import { describe, expect, it } from 'vitest';
import { cellOf, numberOf } from '../../tools/card-value';
import { input, publishedChecks, titleOf } from '../../tools/published-checks';

type Of = (name: string) => number;

const transfer: (of: Of) => number = (of) =>
  numberOf('OXYGEN.TRANSFER', of('SOTR'), of('temperature'), of('DO'), of('alpha'), of('beta'));
const minutes: (of: Of) => number = (of) =>
  numberOf(
    'OXYGEN.MINUTES',
    of('volume'),
    of('DO_start'),
    of('DO_critical'),
    (of('biomass') * of('rate')) / 1000,
  );

/** L/h, and m/s, of a return of 100 mm at 1 %. */
const carries = (filled: number): number => numberOf('FLOW.DRAIN', 100, 0.01, filled);
const runs = (filled: number): number => numberOf('FLOW.SPEED', carries(filled), 100, filled);
const drain: (of: Of) => number = (of) =>
  numberOf('FLOW.DRAIN', of('inner_diameter'), of('slope') / 100, 0.5, of('n'));

const underCover = (cover: number, shade = 0): number =>
  numberOf('LIGHT.INSIDE', 52, '2026-06-15', 0.5, cover, shade) /
  numberOf('LIGHT.INSIDE', 52, '2026-06-15', 0.5, 1);
/** kWh in a unit of fuel. */
const content = (fuel: string): number => 1 / numberOf('HEAT.FUEL', 1, fuel, 1);
/** Temperatures at which a disease infects at all. */
const infects = (disease: string): number[] =>
  Array.from({ length: 81 }, (_, i) => i / 2).filter(
    (air) => typeof cellOf('LEAF.WETNESS', disease, air) === 'number',
  );

/** Each check through the functions, as a grower would ask. */
const ways: Readonly<Record<string, (of: Of) => number | number[]>> = {
  'otr-28-5': transfer,
  'otr-15-7': transfer,
  'otr-20-0': transfer,
  // Stones that dissolve all of it, in the conditions of the rating.
  'o2-per-air': () => 1 / numberOf('AIR.DIFFUSED', 1000, 1, 20, 0, 1, 1, 1),
  'blower-air': (of) =>
    numberOf(
      'AIR.DIFFUSED',
      of('O2') * 1000,
      1,
      of('temperature'),
      of('DO'),
      of('SOTE') / 100,
      of('alpha'),
      of('beta'),
    ),
  'blower-power': (of) =>
    numberOf('AIR.BLOWER', of('flow'), 0, of('pressure'), of('efficiency') / 100),
  'o2-cutthroat': (of) =>
    1000 *
    numberOf(
      'OXYGEN.FISH',
      25,
      40,
      'rainbow trout',
      12,
      of('ration') * 10,
      of('O2_per_feed') / 1000,
    ),
  'o2-tilapia-100-28': (of) =>
    1000 * numberOf('OXYGEN.FISH', 10, of('weight'), 'Nile tilapia', of('temperature'), 0.001),
  'time-critical-50': minutes,
  'time-critical-trout': minutes,
  'co2-strip-5': (of) => 100 * (1 - numberOf('CARBON.STRIPPED', 10, of('GLR')) / 10),
  'co2-strip-fit-3': (of) => 7 - numberOf('CARBON.STRIPPED', 7, of('GLR')),
  'pump-point-cengel': (of) =>
    numberOf('FLOW.PUMP', of('H0'), 60 * Math.sqrt(of('H0') / of('a')), of('static'), of('b'), 60) /
    60,
  'pump-point-linear': (of) =>
    numberOf(
      'FLOW.PUMP',
      of('H0'),
      (3.6e6 * of('H0')) / of('slope'),
      of('static'),
      of('b'),
      3.6e6,
      'straight',
    ) / 3.6e6,
  'manning-exam': (of) =>
    numberOf('FLOW.DRAIN', of('diameter') * 1000, of('slope'), 1, of('n')) / 3600,
  'manning-quarter': (of) => carries(of('depth_ratio')) / carries(0.5),
  'manning-quarter-v': (of) => runs(of('depth_ratio')) / runs(0.5),
  'manning-threequarter-v': (of) => runs(of('depth_ratio')) / runs(0.5),
  'drain-half-50mm-1pct': drain,
  'drain-half-100mm-1pct': drain,
  'clarifier-hrt': (of) => numberOf('FLOOD.MINUTES', of('volume') * 1000, of('flow') * 60),
  'clarifier-surface': (of) =>
    3600 * numberOf('FLOW.SPEED', of('flow') * 1000, of('diameter') * 1000),
  drainback: (of) => numberOf('PIPE.VOLUME', of('inner_diameter'), of('length')),
  'sump-volume': (of) =>
    numberOf(
      'SUMP.VOLUME',
      of('pipe_water'),
      of('bed_flood_each') * of('beds_at_once'),
      of('pump_minimum'),
    ),
  'SEA-L01': (of) => numberOf('LIGHT.LAMPS', of('ppfd'), of('hours')),
  'SEA-L04': (of) => of('outside') * underCover(of('transmission')),
  'SEA-L05': (of) => of('outside') * underCover(of('transmission'), of('shade')),
  'SEA-T20': (of) => numberOf('LEAF.WETNESS', 'downy mildew', of('temperature')),
  'SEA-T21': (of) => numberOf('LEAF.WETNESS', 'downy mildew', of('temperature')),
  'SEA-T22': (of) => numberOf('LEAF.WETNESS', 'downy mildew', of('temperature')),
  'SEA-T23': () => infects('downy mildew').at(-1) ?? NaN,
  'SEA-T24': () => {
    const quickest = infects('grey mould').filter(
      (air) => numberOf('LEAF.WETNESS', 'grey mould', air) === 5,
    );
    return [quickest[0] ?? NaN, quickest.at(-1) ?? NaN];
  },
  'SEA-W09': (of) => (100 * numberOf('WATER.BALANCE', of('loss'))) / of('volume'),
  'SEA-H01': (of) =>
    (numberOf('HEAT.COVER', `${of('ends')} ft2`, `${of('U_ends')} Btu/h/ft2/degF`, 1, 0) +
      numberOf('HEAT.COVER', `${of('roof')} ft2`, `${of('U_roof')} Btu/h/ft2/degF`, 1, 0)) /
    // W/K in a Btu/h/degF
    (1055.05585262 / 3600 / (5 / 9)),
  'SEA-H04': () => content('propane'),
  'SEA-H05': () => content('heating oil no 2'),
  'SEA-H06': () => content('natural gas'),
  'SEA-H07': () => content('wood pellets'),
  'SEA-H08': () => content('kerosene'),
  'SEA-H11': (of) => numberOf('HEAT.FUEL', of('heat'), 'propane', of('efficiency')),
  'SEA-H12': (of) => numberOf('HEAT.EVAPORATION', of('water')),
};

describe('published figures of the plant room, through the functions', () => {
  const checks = publishedChecks('plant-room.json');
  it('each has a way, and each way a figure', () => {
    expect(checks.map(({ id }) => id).sort()).toEqual(Object.keys(ways).sort());
  });
  it.each(checks.map((check) => [titleOf(check), check] as const))('%s', (_, check) => {
    const value = ways[check.id]?.((name) => input(check, name)) ?? NaN;
    const expected = [check.expected.value].flat().map(Number);
    const found = [value].flat();
    expect(found).toHaveLength(expected.length);
    found.forEach((one, i) =>
      expect(Math.abs(one - (expected[i] ?? NaN))).toBeLessThanOrEqual(check.tolerance + 1e-9),
    );
  });
});
