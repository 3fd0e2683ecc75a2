import { describe, expect, it } from 'vitest';
import { saturationPressure } from '../../../src/core/air';
import { dayOfYear, serialFromIsoText, serialOf } from '../../../src/core/serial-date';
import { distanceFactor, elevationAtNoon, shadowLength, sunsetAngle } from '../../../src/core/sun';
import { hargreaves, MM_PER_MJ } from '../../../src/core/water-use';
import { numberOf } from '../../tools/card-value';
import { input, type PublishedCheck, publishedChecks, titleOf } from '../../tools/published-checks';

const checks = publishedChecks('climate-money.json').filter(
  ({ id }) => !id.startsWith('MON') && !id.startsWith('YLD'),
);

type Run = (check: PublishedCheck) => number | readonly number[];

/** A date of a common year with that day of the year. */
const dateOfDay = (day: number): number => serialOf({ year: 2026, month: 1, day });
/** The day on which the sun's declination is the one that a check names. */
const dateOfTilt = (tilt: number): string =>
  tilt > 0 ? '2026-06-21' : tilt < 0 ? '2026-12-21' : '2026-03-20';
/** Latitude and date at which the noon sun stands so high. */
const placeOfElevation = (elevation: number): readonly [number, string] =>
  elevation === 26.56 ? [40, '2026-12-21'] : [52, dateOfTilt(Math.round(elevation) - 38)];
/** AIR.VPD at half humidity is half of the saturation pressure. */
const saturation = (air: number): number => 2 * numberOf('AIR.VPD', air, 0.5);
const watered = (area: number, crop?: number): number =>
  numberOf('WATER.USE', area, 26.6, 14.8, 45.72, '2026-07-15', crop);

const byQuantity: Readonly<Record<string, Run>> = {
  'day of year': (c) => dayOfYear(serialFromIsoText(String(c.inputs['date']?.value)) ?? NaN),
  'inverse relative distance Earth-Sun dr': (c) => distanceFactor(input(c, 'J')),
  'sunset hour angle': (c) => sunsetAngle(input(c, 'latitude'), input(c, 'declination')),
  'daylight hours N': (c) => numberOf('SUN.HOURS', input(c, 'latitude'), dateOfDay(input(c, 'J'))),
  'extraterrestrial radiation Ra': (c) =>
    numberOf('SUN.RADIATION', input(c, 'latitude'), dateOfDay(input(c, 'J'))),
  'solar elevation at solar noon': (c) => [
    numberOf('SUN.NOON', input(c, 'latitude'), dateOfTilt(input(c, 'declination'))),
    elevationAtNoon(input(c, 'latitude'), input(c, 'declination')),
  ],
  'shadow length on level ground': (c) => [
    numberOf('SUN.SHADOW', input(c, 'height'), ...placeOfElevation(input(c, 'solar_elevation'))),
    shadowLength(input(c, 'height'), input(c, 'solar_elevation')),
  ],
  'saturation vapour pressure e0(T), FAO-56 formula': (c) => [
    saturation(input(c, 'T')),
    saturationPressure(input(c, 'T')),
  ],
  'mean saturation vapour pressure es': (c) =>
    (saturation(input(c, 'Tmax')) + saturation(input(c, 'Tmin'))) / 2,
  'actual vapour pressure from RHmax and RHmin': (c) =>
    (saturation(input(c, 'Tmin')) * input(c, 'RHmax') +
      saturation(input(c, 'Tmax')) * input(c, 'RHmin')) /
    200,
  'actual vapour pressure from mean RH': (c) =>
    ((saturation(input(c, 'Tmax')) + saturation(input(c, 'Tmin'))) / 2) *
    (input(c, 'RHmean') / 100),
  'actual vapour pressure from dew point': (c) => saturation(input(c, 'Tdew')),
  'vapour pressure deficit es - ea': (c) =>
    (saturation(input(c, 'Tmax')) + saturation(input(c, 'Tmin'))) / 2 - input(c, 'ea'),
  'dew point (FAO-56 vapour-pressure formula inverted)': (c) =>
    numberOf('AIR.DEWPOINT', input(c, 'T'), `${input(c, 'RH')} %`),
  // The handbook's example 1 finds 14 % for the same air.
  'dew point (worked example 1)': (c) => numberOf('AIR.DEWPOINT', input(c, 'T'), 0.14),
  'absolute humidity at saturation': (c) =>
    numberOf('AIR.MOISTURE', input(c, 'T'), `${input(c, 'RH')} %`),
  'condensation on a cold film: dew point of the air': (c) =>
    numberOf('AIR.DEWPOINT', input(c, 'T'), `${input(c, 'RH')} %`),
  // So many cubic feet a minute on a square foot: that depth of air, changed once a minute.
  'one air change a minute as airflow per floor area': (c) =>
    numberOf('VENT.FLOW', input(c, 'airflow') * 0.3048, 60),
  'Hargreaves reference evapotranspiration': (c) => {
    const [high, low] = [input(c, 'Tmax'), input(c, 'Tmin')];
    const mean = c.inputs['Tmean'] ? input(c, 'Tmean') : (high + low) / 2;
    const formula = hargreaves(mean, high - low, input(c, 'Ra'));
    // Example 20 is Lyon, 45.72 N, in July: its radiation is that of the place and date.
    return c.id === 'ET-05' ? [formula, watered(1)] : formula;
  },
  'Hargreaves with Ra in MJ/m2/day': (c) =>
    hargreaves(
      (input(c, 'Tmax') + input(c, 'Tmin')) / 2,
      input(c, 'Tmax') - input(c, 'Tmin'),
      input(c, 'Ra'),
    ),
  'equivalent evaporation of energy': (c) => MM_PER_MJ * input(c, 'energy'),
  // The coefficient that makes the day's reference 4 mm stands in for the evapotranspiration.
  'crop water use per day': (c) =>
    watered(input(c, 'area'), (input(c, 'ETo') / watered(1)) * input(c, 'Kc')),
  'U-value conversion': () => numberOf('HEAT.COVER', 1, '1 Btu/h/ft2/degF', 1, 0),
  'U of a single polyethylene film': (c) =>
    numberOf('HEAT.COVER', 1, `${input(c, 'U')} Btu/h/ft2/degF`, 1, 0),
  'U of an inflated double polyethylene film': (c) =>
    numberOf('HEAT.COVER', 1, `${input(c, 'U')} Btu/h/ft2/degF`, 1, 0),
  'transmission heat loss, single film': (c) =>
    numberOf('HEAT.COVER', input(c, 'area'), input(c, 'U'), input(c, 'dT'), 0),
  'transmission heat loss, double film': (c) =>
    numberOf('HEAT.COVER', input(c, 'area'), input(c, 'U'), input(c, 'dT'), 0),
  'saving from a second film layer, by U': (c) =>
    100 *
    (1 -
      numberOf('HEAT.COVER', 240, input(c, 'U2'), 15, 0) /
        numberOf('HEAT.COVER', 240, input(c, 'U1'), 15, 0)),
  'energy to warm water': (c) =>
    numberOf('HEAT.WATER', input(c, 'volume'), 20, 20 + input(c, 'dT')),
  'time to warm water with a heater': (c) =>
    numberOf('HEAT.WATER', input(c, 'volume'), 20, 20 + input(c, 'dT')) /
    (input(c, 'power') - input(c, 'losses')),
  'infiltration heat loss': (c) =>
    (numberOf(
      'HEAT.MONTH',
      0,
      1,
      input(c, 'volume'),
      input(c, 'air_changes'),
      input(c, 'dT'),
      0,
      0,
      1,
    ) *
      1000) /
    24,
  'grey mould outbreak warning: weekly mean wetness > 7 h/day and night hours (18:00-08:00) at 9-21 degC > 9.5 h/day':
    (c) =>
      Number(numberOf('LEAF.WARNING', input(c, 'wet_hours'), input(c, 'night_hours_9_21')) > 0),
};

const sameAs: Readonly<Record<string, string>> = {
  'day of year in a leap year': 'day of year',
  'daylight hours N (more digits)': 'daylight hours N',
  'mean daylight hours N, mid-month': 'daylight hours N',
  'extraterrestrial radiation Ra, 15 January': 'extraterrestrial radiation Ra',
};

/** Published quantities that no function of the catalogue gives. */
const outside = [
  'solar radiation Rs from sunshine (a=0.25, b=0.50)',
  'clear-sky radiation Rso',
  'clear-sky radiation Rso (sea level)',
  'net outgoing longwave radiation Rnl',
  'net shortwave radiation Rns (albedo 0.23)',
  'net radiation Rn',
  'slope of saturation vapour pressure curve',
  'atmospheric pressure',
  'psychrometric constant',
  'actual vapour pressure from wet and dry bulb (ventilated psychrometer, 0.000662 P)',
  'saturation humidity ratio at 101325 Pa',
  'humidity ratio from vapour pressure',
  'humidity ratio from wet bulb',
  'wet bulb temperature',
  'standard atmosphere pressure',
  'relative humidity (worked example 1)',
  'moist air enthalpy (worked example 1)',
  'reference evapotranspiration, FAO Penman-Monteith, monthly',
  'wind speed reduced to 2 m',
  'crop coefficient in the development stage (linear)',
  'make-up water, low end (1 % of volume a day)',
  'make-up water, high end (3 % of volume a day)',
  'crop coefficient of greenhouse cucumber from leaf area index',
];

const HANDBOOK_DEW_POINT = 'dew point (ASHRAE)';
const HANDBOOK_CURVE = 'saturation vapour pressure, ASHRAE formula';
const runOf = (check: PublishedCheck): Run | undefined =>
  byQuantity[sameAs[check.quantity] ?? check.quantity];

describe('published figures of sun, air, crop water and heat', () => {
  it('each has a function that gives it, or is named as outside the catalogue', () => {
    const lost = checks.filter(
      (check) =>
        !runOf(check) && ![...outside, HANDBOOK_CURVE, HANDBOOK_DEW_POINT].includes(check.quantity),
    );
    expect(lost.map((check) => check.id)).toEqual([]);
    const stale = outside.filter((name) => checks.every((check) => check.quantity !== name));
    expect(stale).toEqual([]);
  });

  it.each(checks.filter(runOf).map((check) => [titleOf(check), check] as const))(
    '%s',
    (_, check) => {
      const found = (runOf(check) as Run)(check);
      for (const value of Array.isArray(found) ? (found as number[]) : [found as number]) {
        const off = Math.abs(value - Number(check.expected.value));
        expect(off, `got ${value}`).toBeLessThanOrEqual(check.tolerance + 1e-9);
      }
    },
  );

  // The handbook's curve is another one; below freezing it takes ice, and 100 degC is no air to grow in.
  const handbook = checks.filter(
    (check) =>
      check.quantity === HANDBOOK_DEW_POINT ||
      (check.quantity === HANDBOOK_CURVE && [5, 25].includes(input(check, 'T'))),
  );
  it.each(handbook.map((check) => ({ title: titleOf(check), check })))(
    '$title: within the difference of the two curves, 0.12 % or 0.01 degC',
    ({ check }) => {
      const expected = Number(check.expected.value);
      if (check.quantity === HANDBOOK_DEW_POINT) {
        const found = numberOf('AIR.DEWPOINT', input(check, 'T'), `${input(check, 'RH')} %`);
        expect(Math.abs(found - expected)).toBeLessThan(0.01);
      } else {
        const found = 1000 * saturation(input(check, 'T'));
        expect(Math.abs(found / expected - 1)).toBeLessThan(0.0012);
      }
    },
  );
});
