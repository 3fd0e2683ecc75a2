import {
  dayLength,
  LEAST_SHADOW_ELEVATION,
  noonElevation,
  noonShadow,
  radiation,
} from '../core/sun';
import { card, type Source, type ValueCard } from './card';
import { latitude } from './climate-parameters';
import { date, number } from './parameter';
import { PLAIN_NO_ANSWER } from './plain';
import { fao56 } from './sources';

interface Place {
  readonly latitude: string;
  readonly date: string;
}

const plainDay = (day: string): string => `(INT(${day})-DATE(YEAR(${day}),1,0))`;
const plainTilt = (day: string): string => `(0.409*SIN(2*PI()*${plainDay(day)}/365-1.39))`;
const plainSunset = (a: Place): string =>
  `ACOS(MAX(-1,MIN(1,(0-TAN(RADIANS(${a.latitude})))*TAN(${plainTilt(a.date)}))))`;

/** MJ/m2/day above the air (FAO-56 equation 21). */
export function plainRadiation(a: Place): string {
  const [north, tilt, sunset] = [`RADIANS(${a.latitude})`, plainTilt(a.date), plainSunset(a)];
  const sum = `${sunset}*SIN(${north})*SIN(${tilt})+COS(${north})*COS(${tilt})*SIN(${sunset})`;
  return `(24*60/PI())*0.082*(1+0.033*COS(2*PI()*${plainDay(a.date)}/365))*MAX(0,${sum})`;
}

function plainNoonTilt(day: string): string {
  const days = `(INT(${day})-36526)`;
  const anomaly = `RADIANS(357.528+0.9856003*${days})`;
  const longitude = `RADIANS(280.46+0.9856474*${days}+1.915*SIN(${anomaly})+0.02*SIN(2*${anomaly}))`;
  return `DEGREES(ASIN(SIN(RADIANS(23.439-0.0000004*${days}))*SIN(${longitude})))`;
}

const plainElevation = (a: Place): string => `(90-ABS(${a.latitude}-${plainNoonTilt(a.date)}))`;

const almanac: Source = {
  author: 'Nautical Almanac Office, U.S. Naval Observatory',
  year: 1996,
  title: 'The Astronomical Almanac',
  where: 'page C24, low-precision formulas for the sun',
  standing: 'read',
};

const noonGeometry: Source = {
  author: 'Geometry',
  year: '',
  title: 'the noon sun stands 90 degrees less the distance between latitude and declination high',
  standing: 'definition',
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
  formula:
    'N = 24 / pi * acos(-tan(phi) * tan(delta)); delta = 0.409 * sin(2 * pi * J / 365 - 1.39)',
  symbols: {
    N: 'day length, h',
    phi: 'latitude, as radians',
    delta: 'height of the sun over the equator (declination), as radians',
    J: 'day of the year',
  },
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
  plain: (a) => `24*${plainSunset(a)}/PI()`,
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
  formula:
    'elevation = 90 - abs(phi - delta); sin(delta) = sin(23.439) * sin(lambda); lambda = 280.46 + 0.9856474 * n + 1.915 * sin(g) + 0.02 * sin(2 * g); g = 357.528 + 0.9856003 * n',
  symbols: {
    phi: 'latitude',
    delta: 'height of the sun over the equator (declination)',
    lambda: 'longitude of the sun on its yearly path',
    g: 'its mean anomaly',
    n: 'days from 1 January 2000',
  },
  sources: [almanac, noonGeometry],
  validity:
    'Any latitude, 1900 to 2500, within 0.25 degrees at every longitude. Angles of the formula are degrees, n is days from 1 January 2000. Without refraction, which lifts a sun at the horizon by half a degree. The declination of FAO-56, which serves day length and radiation, would be up to 1.2 degrees off.',
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
  plain: plainElevation,
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
  formula: 'shadow = height / tan(elevation)',
  symbols: { elevation: 'height of the noon sun (SUN.NOON)' },
  sources: [almanac, noonGeometry],
  validity: `Level ground, noon: at other hours it is longer. Between the tropics the sun passes on the pole’s side for part of the year and the shadow then points to the equator (at 10 N from mid April to late August); with the sun overhead it is 0. #NUM! where the noon sun is below the horizon or less than ${LEAST_SHADOW_ELEVATION} degree above it.`,
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
  plain: (a) => {
    const elevation = plainElevation(a);
    return `IF(${elevation}<${LEAST_SHADOW_ELEVATION},${PLAIN_NO_ANSWER},${a.height}*TAN(RADIANS(90-${elevation})))`;
  },
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
  formula:
    'Ra = 24 * 60 / pi * 0.082 * (1 + 0.033 * cos(2 * pi * J / 365)) * (omega * sin(phi) * sin(delta) + cos(phi) * cos(delta) * sin(omega)); omega = acos(-tan(phi) * tan(delta)); delta = 0.409 * sin(2 * pi * J / 365 - 1.39)',
  symbols: {
    phi: 'latitude, as radians',
    delta: 'height of the sun over the equator (declination), as radians',
    omega: 'angle of the sunset, as radians',
    J: 'day of the year',
  },
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
  plain: plainRadiation,
});

export const sunCards: readonly ValueCard[] = [hours, noon, shadow, above];
