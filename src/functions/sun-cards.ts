import { dayLength, MIN_SHADOW_ELEVATION, noonElevation, noonShadow, radiation } from '../core/sun';
import { card, type Source, type ValueCard } from './card';
import { latitude } from './climate-parameters';
import { date, number } from './parameter';
import { fao56 } from './shared-sources';

/** FAO-56 equations 24 and 25; angles are radians. */
const sunset = {
  omega: 'ACOS(MAX(-1, MIN(1, (0 - TAN(phi)) * TAN(delta))))',
  delta: '0.409 * SIN(2 * PI() * J / 365 - 1.39)',
  J: 'INT(date) - DATE(YEAR(date), 1, 0)',
  phi: 'RADIANS(latitude)',
} as const;

const sunsetSymbols = {
  omega: 'angle of the sunset, as radians',
  delta: 'height of the sun over the equator (declination), as radians',
  J: 'day of the year',
  phi: 'latitude, as radians',
};

/** Radiation above the air in MJ/m2/day (FAO-56 equation 21). */
export const radiationFormula = {
  Ra: '24 * 60 / PI() * 0.082 * (1 + 0.033 * COS(2 * PI() * J / 365)) * MAX(0, omega * SIN(phi) * SIN(delta) + COS(phi) * COS(delta) * SIN(omega))',
  ...sunset,
} as const;

export const radiationSymbols = {
  Ra: 'sunshine above the air (SUN.RADIATION), MJ/m²/day',
  ...sunsetSymbols,
};

/** Height of the noon sun in degrees, by the Astronomical Almanac. */
const noonSun = {
  elevation: '90 - ABS(latitude - delta)',
  delta: 'DEGREES(ASIN(SIN(RADIANS(23.439 - 0.0000004 * n)) * SIN(RADIANS(lambda))))',
  lambda: '280.46 + 0.9856474 * n + 1.915 * SIN(g) + 0.02 * SIN(2 * g)',
  g: 'RADIANS(357.528 + 0.9856003 * n)',
  n: 'INT(date) - 36526',
} as const;

const noonSymbols = {
  elevation: 'height of the noon sun, degrees',
  delta: 'height of the sun over the equator (declination), degrees',
  lambda: 'longitude of the sun on its yearly path, degrees',
  g: 'its mean anomaly, as radians',
  n: 'days from 1 January 2000',
};

const almanac: Source = {
  author: 'Nautical Almanac Office, U.S. Naval Observatory',
  year: 1996,
  title: 'The Astronomical Almanac',
  where: 'page C24, low-precision formulas for the sun',
  evidence: 'read',
};

const noonGeometry: Source = {
  author: 'Geometry',
  year: '',
  title: 'the noon sun stands 90 degrees less the distance between latitude and declination high',
  evidence: 'definition',
};

const day = date('date', 'the day');

const hours = card({
  id: 'SUN.HOURS',
  subject: 'Sun and season',
  summary: 'Day length: hours from sunrise to sunset',
  searchWords: [
    'daylight',
    'photoperiod',
    'winter',
    'season',
    'ten hours',
    'slow winter growth',
    'leggy plants',
    'supplemental light',
  ],
  parameters: [latitude, day],
  result: { kind: 'number', unit: 'h', meaning: 'day length' },
  method:
    'Sunset angle from latitude and the day of the year. 24 in polar day, 0 in polar night. The day of the year counts 29 February, so after it a leap year runs one day ahead.',
  formula: { N: '24 * omega / PI()', ...sunset },
  symbols: sunsetSymbols,
  sources: [fao56('equations 24, 25 and 34')],
  validity:
    'Any latitude. The sun is a point and the air bends no light: almanacs, which count refraction and the sun’s edge, give 0.16 h more in the mean between 55 N and 55 S and at most 0.46 h. Nearer the poles the difference grows.',
  examples: [
    {
      args: [-20, '2015-09-03'],
      result: 11.66559,
      tolerance: 0.00005,
      says: '20 degrees south on 3 September (FAO-56 example 9: 11.7 h)',
    },
    {
      args: [52, '2026-12-21'],
      result: 7.507,
      tolerance: 0.001,
      says: 'The shortest day at 52 N: 7.5 h, too short for leafy growth',
    },
    { args: ['70 N', '2026-06-21'], result: 24, says: 'Polar day' },
  ],
  seeAlso: ['SUN.RADIATION', 'SUN.NOON'],
  compute: dayLength,
});

const noon = card({
  id: 'SUN.NOON',
  subject: 'Sun and season',
  summary: 'How high the sun stands at noon',
  searchWords: ['elevation', 'altitude', 'angle', 'low sun'],
  parameters: [latitude, day],
  result: {
    kind: 'number',
    unit: 'degrees',
    meaning: 'height above the horizon at noon; negative where the sun stays below it',
  },
  method:
    '90 less the difference between latitude and the sun’s declination. Noon is the sun’s own, when it stands highest, not twelve on the clock.',
  formula: noonSun,
  symbols: noonSymbols,
  sources: [almanac, noonGeometry],
  validity:
    'Any latitude, 1900 to 2500, within 0.25 degrees at every longitude. Without refraction, which lifts a sun at the horizon by half a degree. The declination of FAO-56, which serves day length and radiation, would be up to 1.2 degrees off.',
  examples: [
    { args: [52, '2026-06-21'], result: 61.4, tolerance: 0.06, says: 'Midsummer at 52 N' },
    { args: [52, '2026-12-21'], result: 14.6, tolerance: 0.06, says: 'Midwinter at 52 N' },
    {
      args: ['35 S', '2026-06-21'],
      result: 31.6,
      tolerance: 0.06,
      says: 'Midwinter at 35 S, in June',
    },
  ],
  seeAlso: ['SUN.SHADOW', 'SUN.HOURS'],
  compute: noonElevation,
});

const shadow = card({
  id: 'SUN.SHADOW',
  subject: 'Sun and season',
  summary: 'Length of the shadow at noon, for placing trellis rows and tall crops',
  searchWords: ['shade', 'trellis', 'row distance', 'wall', 'north'],
  parameters: [
    number('height', 'height of what throws the shadow', { unit: 'm', above: 0, max: 1000 }),
    latitude,
    day,
  ],
  result: { kind: 'number', unit: 'm', meaning: 'length of the shadow on level ground at noon' },
  method:
    'Height divided by the tangent of the noon sun’s elevation. The shadow points to the nearer pole: north on the northern half, south on the southern.',
  formula: {
    shadow: `IF(elevation < ${MIN_SHADOW_ELEVATION}, NO_ANSWER(), height * TAN(RADIANS(90 - elevation)))`,
    ...noonSun,
  },
  symbols: noonSymbols,
  sources: [almanac, noonGeometry],
  validity: `Level ground, noon: at other hours it is longer. Between the tropics the sun passes on the pole’s side for part of the year and the shadow then points to the equator (at 10 N from mid April to late August); with the sun overhead it is 0. #NUM! where the noon sun is below the horizon or less than ${MIN_SHADOW_ELEVATION} degree above it.`,
  examples: [
    {
      args: [3, 52, '2026-12-21'],
      result: 11.55,
      tolerance: 0.01,
      says: 'A 3 m wall at 52 N throws 11.5 m on the shortest day',
    },
    {
      args: [3, 52, '2026-06-21'],
      result: 1.63,
      tolerance: 0.01,
      says: 'The same wall in June: 1.6 m',
    },
    {
      args: ['2 m', '33.9 S', '2026-06-21'],
      result: 3.12,
      tolerance: 0.01,
      says: 'A 2 m trellis at 33.9 S in June shades 3.1 m to its south',
    },
  ],
  seeAlso: ['SUN.NOON', 'SUN.HOURS'],
  compute: noonShadow,
});

const above = card({
  id: 'SUN.RADIATION',
  subject: 'Sun and season',
  summary: 'Sunshine above the air on a level square metre in a day',
  searchWords: [
    'light',
    'extraterrestrial radiation',
    'Ra',
    'solar energy',
    'dark winter',
    'leggy plants',
    'DLI',
    'daily light integral',
    'supplemental light',
  ],
  parameters: [latitude, day],
  result: { kind: 'number', unit: 'MJ/m2/day', meaning: 'radiation above the air' },
  method:
    'Sun height over the day, summed from sunrise to sunset, with the distance of the sun. 0 in polar night.',
  formula: radiationFormula,
  symbols: radiationSymbols,
  sources: [fao56('equations 21 to 25')],
  validity:
    'Any latitude; within 1.1 MJ/m²/day of the sun’s true path, which FAO-56 leaves furthest in September. This is what arrives above the air: on a clear day about three quarters of it reach the ground (FAO-56 equation 37), under dense cloud about one quarter, and a cover takes its part of that.',
  examples: [
    {
      args: [-20, '2015-09-03'],
      result: 32.2,
      tolerance: 0.05,
      says: '20 degrees south on 3 September (FAO-56 example 8: 32.2)',
    },
    {
      args: [50.8, '2026-07-06'],
      result: 41.09,
      tolerance: 0.01,
      says: '50.8 N on 6 July (FAO-56 example 18: 41.09)',
    },
  ],
  seeAlso: ['WATER.USE', 'SUN.HOURS'],
  compute: radiation,
});

export const sunCards: readonly ValueCard[] = [hours, noon, shadow, above];
