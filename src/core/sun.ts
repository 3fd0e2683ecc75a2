import { noAnswer } from './errors';
import { dayOfYear } from './serial-date';

/**
 * The sun over a latitude in degrees, south negative. Geometry of the sun's centre, without the air's
 * refraction.
 *
 * Day length and radiation follow FAO-56 equations 21 to 34 as printed, with the day of the year
 * (29 February is day 60; in a leap year every later day counts one more), because water use rests on them.
 * Their declination is up to 1.2 degrees off near the September equinox, too much for a shadow, so the
 * noon elevation takes the Astronomical Almanac's.
 */

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const degrees = (angle: number): number => (angle * 180) / Math.PI;

/** A lower noon sun gives no useful shadow: refraction alone is half a degree there. */
export const MIN_SHADOW_ELEVATION = 1;
/** MJ/m2/min, FAO-56 equation 21. */
const SOLAR_CONSTANT = 0.082;

/** Inverse relative distance to the sun. FAO-56 equation 23. */
export const distanceFactor = (day: number): number =>
  1 + 0.033 * Math.cos((2 * Math.PI * day) / 365);

/** Declination in radians. FAO-56 equation 24. */
export const declination = (day: number): number =>
  0.409 * Math.sin((2 * Math.PI * day) / 365 - 1.39);

/**
 * Sunset hour angle in radians: 0 in polar night, pi in polar day. FAO-56 equation 25.
 * `tilt` is the declination in radians.
 */
export const sunsetAngle = (latitude: number, tilt: number): number =>
  Math.acos(Math.max(-1, Math.min(1, -Math.tan(radians(latitude)) * Math.tan(tilt))));

/** Hours from sunrise to sunset, 0 to 24. FAO-56 equation 34. */
export const dayLength = (latitude: number, date: number): number =>
  (24 * sunsetAngle(latitude, declination(dayOfYear(date)))) / Math.PI;

/**
 * Declination in degrees at noon of a date (universal time): Astronomical Almanac, page C5 (C24 in older
 * years), printed as good to 0.01 degree from 1950 to 2050. Days are counted from noon of 2000-01-01,
 * so leap years need no care.
 */
export function noonDeclination(date: number): number {
  const days = date - 36526;
  const anomaly = radians(357.528 + 0.9856003 * days);
  const longitude =
    280.46 + 0.9856474 * days + 1.915 * Math.sin(anomaly) + 0.02 * Math.sin(2 * anomaly);
  const obliquity = 23.439 - 0.0000004 * days;
  return degrees(Math.asin(Math.sin(radians(obliquity)) * Math.sin(radians(longitude))));
}

/** Degrees above the horizon at noon for a declination in degrees; negative below the horizon. */
export const elevationAtNoon = (latitude: number, tilt: number): number =>
  90 - Math.abs(latitude - tilt);

/** Degrees above the horizon at noon on a date. */
export const noonElevation = (latitude: number, date: number): number =>
  elevationAtNoon(latitude, noonDeclination(date));

/** m of shadow on level ground of something `height` m tall, the sun `elevation` degrees high (to 90). */
export const shadowLength = (height: number, elevation: number): number =>
  height * Math.tan(radians(90 - elevation));

/** The shadow at noon on a date, m. */
export function noonShadow(height: number, latitude: number, date: number): number {
  const elevation = noonElevation(latitude, date);
  if (elevation < MIN_SHADOW_ELEVATION) {
    throw noAnswer(
      elevation < 0
        ? 'The sun stays below the horizon at noon on this date, so there is no shadow'
        : `The noon sun is only ${elevation.toFixed(1)} degrees high on this date: the shadow has no useful length`,
    );
  }
  return shadowLength(height, elevation);
}

/** MJ/m2/day on level ground above the air for a day of the year. FAO-56 equation 21. */
export function radiationOnDay(latitude: number, day: number): number {
  const tilt = declination(day);
  const sunset = sunsetAngle(latitude, tilt);
  const north = radians(latitude);
  const sum =
    sunset * Math.sin(north) * Math.sin(tilt) + Math.cos(north) * Math.cos(tilt) * Math.sin(sunset);
  // At the edge of polar night rounding can leave a trace below zero.
  return ((24 * 60) / Math.PI) * SOLAR_CONSTANT * distanceFactor(day) * Math.max(0, sum);
}

/** MJ/m2/day above the air on a date. */
export const radiation = (latitude: number, date: number): number =>
  radiationOnDay(latitude, dayOfYear(date));
