import { describe, expect, it } from 'vitest';
import { numberOf } from '../../tools/card-value';
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

/** Each check through the functions, as a grower would ask. */
const ways: Readonly<Record<string, (of: Of) => number>> = {
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
};

describe('published figures of the plant room, through the functions', () => {
  const checks = publishedChecks('plant-room.json');
  it('each has a way, and each way a figure', () => {
    expect(checks.map(({ id }) => id).sort()).toEqual(Object.keys(ways).sort());
  });
  it.each(checks.map((check) => [titleOf(check), check] as const))('%s', (_, check) => {
    const value = ways[check.id]?.((name) => input(check, name)) ?? NaN;
    expect(Math.abs(value - Number(check.expected.value))).toBeLessThanOrEqual(
      check.tolerance + 1e-9,
    );
  });
});
