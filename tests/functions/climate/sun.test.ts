import * as Astronomy from 'astronomy-engine';
import { getPosition, getTimes } from 'suncalc';
import { describe, expect, it } from 'vitest';
import { calendarDate, serialFromIsoText } from '../../../src/core/serial-date';
import { errorOf, numberOf } from '../../tools/card-value';
import { sunAboveTheAir } from '../../tools/true-sun';

const SUN = Astronomy.Body.Sun;
const HOUR = 3600000;

const serial = (text: string): number => serialFromIsoText(text) ?? NaN;
/** Noon of a date, universal time. */
function noonOf(date: number): Date {
  const { year, month, day } = calendarDate(date);
  return new Date(Date.UTC(year, month - 1, day, 12));
}
/** Every `step` days from the beginning of a common and of a leap year. */
const dates = (step: number): number[] =>
  ['2026-01-01', '2028-01-01'].flatMap((first) =>
    Array.from({ length: Math.floor(365 / step) }, (_, i) => serial(first) + i * step),
  );
const latitudes = [-55, -45, -33.9, -20, -10, 0, 10, 23.4, 35, 45, 52, 55];

/** Hours that the sun's centre spends above the horizon, without refraction. */
function geometricDay(latitude: number, date: number): number {
  const observer = new Astronomy.Observer(latitude, 0, 0);
  const midnight = new Date(noonOf(date).getTime() - 12 * HOUR);
  const rise = Astronomy.SearchAltitude(SUN, observer, +1, midnight, 1, 0);
  const set = rise && Astronomy.SearchAltitude(SUN, observer, -1, rise, 1, 0);
  return rise && set ? (set.ut - rise.ut) * 24 : NaN;
}

/** The sun's height at its own noon on the meridian of Greenwich, without refraction. */
function trueNoon(latitude: number, date: number): number {
  const observer = new Astronomy.Observer(latitude, 0, 0);
  const start = new Date(noonOf(date).getTime() - 3 * HOUR);
  const { time } = Astronomy.SearchHourAngle(SUN, observer, 0, start);
  const { ra, dec } = Astronomy.Equator(SUN, time, observer, true, true);
  return Astronomy.Horizon(time, observer, ra, dec).altitude;
}

describe('sun against astronomy-engine and suncalc, 55 S to 55 N, a common and a leap year', () => {
  it('SUN.HOURS without refraction: largest difference 0.26 h (FAO-56 rounds the sun’s path)', () => {
    let worst = 0;
    for (const latitude of latitudes) {
      for (const date of dates(9)) {
        const other = geometricDay(latitude, date);
        worst = Math.max(worst, Math.abs(numberOf('SUN.HOURS', latitude, date) - other));
      }
    }
    expect(worst).toBeGreaterThan(0.05);
    expect(worst).toBeLessThan(0.26);
  });

  it('SUN.HOURS against sunrise and sunset with refraction (suncalc): 0.06 h longer to 0.46 h shorter, 0.16 h shorter in the mean', () => {
    const differences: number[] = [];
    for (const latitude of latitudes) {
      for (const date of dates(5)) {
        const { sunrise, sunset } = getTimes(noonOf(date), latitude, 0);
        const other = ((sunset?.getTime() ?? NaN) - (sunrise?.getTime() ?? NaN)) / HOUR;
        differences.push(other - numberOf('SUN.HOURS', latitude, date));
      }
    }
    const mean = differences.reduce((sum, value) => sum + value, 0) / differences.length;
    expect(Math.min(...differences)).toBeGreaterThan(-0.06);
    expect(Math.max(...differences)).toBeLessThan(0.46);
    expect(mean).toBeCloseTo(0.16, 2);
  });

  it('SUN.NOON without refraction: largest difference 0.01 degrees on the meridian of Greenwich', () => {
    let worst = 0;
    for (const latitude of [-90, -70, ...latitudes, 66.6, 80, 90]) {
      for (const date of dates(9)) {
        const off = Math.abs(numberOf('SUN.NOON', latitude, date) - trueNoon(latitude, date));
        worst = Math.max(worst, off);
      }
    }
    expect(worst).toBeLessThan(0.01);
  });

  it('SUN.NOON at the other side of the earth and in the years 1900 to 2500: largest difference 0.25 degrees', () => {
    let worst = 0;
    for (const year of [1901, 1950, 2026, 2100, 2300, 2500]) {
      for (const longitude of [-179, -90, 90, 179]) {
        for (let day = 0; day < 360; day += 15) {
          const date = serial(`${year}-01-01`) + day;
          const noon = new Date(noonOf(date).getTime() - (longitude / 15) * HOUR);
          const observer = new Astronomy.Observer(30, longitude, 0);
          const { dec } = Astronomy.Equator(SUN, noon, observer, true, true);
          const other = 90 - Math.abs(30 - dec);
          worst = Math.max(worst, Math.abs(numberOf('SUN.NOON', 30, date) - other));
        }
      }
    }
    expect(worst).toBeLessThan(0.25);
  });

  it('SUN.SHADOW against the height suncalc gives (which counts refraction): within 1 % while the sun stands above 10 degrees', () => {
    for (const latitude of [-45, -20, 10, 35, 52]) {
      for (const date of dates(11)) {
        const { solarNoon } = getTimes(noonOf(date), latitude, 0);
        const { altitude } = getPosition(solarNoon, latitude, 0);
        if (altitude < 10 || altitude > 85) continue;
        const other = 2 / Math.tan((altitude * Math.PI) / 180);
        expect(Math.abs(numberOf('SUN.SHADOW', 2, latitude, date) / other - 1)).toBeLessThan(0.01);
      }
    }
  });

  it('SUN.RADIATION against the sum over the day: largest difference 1.1 MJ/m2/day (September), 0.22 in the mean', () => {
    const off: number[] = [];
    for (const latitude of [-55, -33.9, -10, 0, 20, 40, 55]) {
      for (const date of dates(45)) {
        off.push(
          Math.abs(numberOf('SUN.RADIATION', latitude, date) - sunAboveTheAir(latitude, date)),
        );
      }
    }
    expect(Math.max(...off)).toBeLessThan(1.1);
    expect(off.reduce((sum, value) => sum + value, 0) / off.length).toBeLessThan(0.22);
  });
});

describe('sun at the ends', () => {
  const [june, december, march] = ['2026-06-21', '2026-12-21', '2026-03-20'];

  it('has polar day and polar night, at the poles too', () => {
    for (const latitude of [70, 90]) {
      expect(numberOf('SUN.HOURS', latitude, june)).toBe(24);
      expect(numberOf('SUN.HOURS', latitude, december)).toBe(0);
      expect(numberOf('SUN.HOURS', -latitude, june)).toBe(0);
      expect(numberOf('SUN.HOURS', -latitude, december)).toBe(24);
      expect(numberOf('SUN.RADIATION', latitude, december)).toBe(0);
      expect(numberOf('SUN.NOON', latitude, december)).toBeLessThan(0);
    }
    expect(numberOf('SUN.NOON', 90, june)).toBeCloseTo(23.44, 1);
  });

  it('gives the radiation at the edge of polar night without a trace below zero', () => {
    for (let latitude = 65; latitude < 90; latitude += 0.01) {
      expect(numberOf('SUN.RADIATION', latitude, december)).toBeGreaterThanOrEqual(0);
    }
  });

  it('has no shadow in polar night, nor under a sun on the horizon', () => {
    expect(errorOf('SUN.SHADOW', 2, 70, december)).toBe(
      '#NUM! The sun stays below the horizon at noon on this date, so there is no shadow',
    );
    expect(errorOf('SUN.SHADOW', 2, 66, december)).toBe(
      '#NUM! The noon sun is only 0.6 degrees high on this date: the shadow has no useful length',
    );
    expect(numberOf('SUN.SHADOW', 2, 65.5, december)).toBeGreaterThan(100);
    // The least height of which a shadow is said: 1 degree [common practice, no source].
    const ofHeight = (degrees: number): number =>
      65.5 + numberOf('SUN.NOON', 65.5, december) - degrees;
    expect(numberOf('SUN.SHADOW', 2, ofHeight(1.001), december)).toBeGreaterThan(100);
    expect(errorOf('SUN.SHADOW', 2, ofHeight(0.999), december)).toContain('no useful length');
  });

  it('throws no shadow from the zenith, and one to the equator beyond it', () => {
    expect(numberOf('SUN.SHADOW', 2, 23.435, june)).toBeLessThan(0.001);
    // At 10 N the June sun stands to the north: the shadow falls to the south.
    expect(numberOf('SUN.SHADOW', 2, 10, june)).toBeCloseTo(0.478, 3);
  });

  it('is the same south as north half a year later, within the tilt of a few hours', () => {
    for (const latitude of [10, 35, 52]) {
      expect(numberOf('SUN.HOURS', -latitude, december)).toBeCloseTo(
        numberOf('SUN.HOURS', latitude, june),
        1,
      );
      expect(numberOf('SUN.NOON', -latitude, december)).toBeCloseTo(
        numberOf('SUN.NOON', latitude, june),
        1,
      );
    }
  });

  it('makes December days shorter and shadows longer the further north', () => {
    for (let latitude = -23; latitude < 64; latitude += 1) {
      const [here, there] = [latitude, latitude + 1];
      expect(numberOf('SUN.HOURS', there, december)).toBeLessThan(
        numberOf('SUN.HOURS', here, december),
      );
      expect(numberOf('SUN.RADIATION', there, december)).toBeLessThan(
        numberOf('SUN.RADIATION', here, december),
      );
      expect(numberOf('SUN.SHADOW', 2, there, december)).toBeGreaterThan(
        numberOf('SUN.SHADOW', 2, here, december),
      );
    }
  });

  it('counts 29 February and takes a date with a time of day for that day', () => {
    expect(numberOf('SUN.HOURS', 50, '2028-03-01')).toBe(numberOf('SUN.HOURS', 50, '2027-03-02'));
    expect(numberOf('SUN.HOURS', 50, serial(march) + 0.75)).toBe(numberOf('SUN.HOURS', 50, march));
    expect(numberOf('SUN.NOON', 50, serial(march) + 0.75)).toBe(numberOf('SUN.NOON', 50, march));
  });

  it('reads a latitude by its letter, and refuses a sign beside it', () => {
    expect(numberOf('SUN.HOURS', '33.9 S', june)).toBe(numberOf('SUN.HOURS', -33.9, june));
    expect(numberOf('SUN.HOURS', '33.9° N', june)).toBe(numberOf('SUN.HOURS', 33.9, june));
    expect(errorOf('SUN.HOURS', '-33.9 S', june)).toMatch(/^#VALUE! latitude takes either a sign/);
    expect(errorOf('SUN.HOURS', 'S', june)).toMatch(/^#VALUE! latitude takes/);
    expect(errorOf('SUN.HOURS', 91, june)).toMatch(/^#VALUE! latitude must be between -90 and 90/);
    expect(errorOf('SUN.HOURS', 52, 12)).toMatch(/^#VALUE! date must be a date from 1900-03-01/);
  });
});
