import { noAnswer } from './errors';

/**
 * Water vapour in air. One saturation curve serves everything here: FAO-56 equation 11 (Tetens form),
 * over liquid water also below 0 degC, because weather services state humidity so. Against the ASHRAE
 * curve over water it differs by less than 0.15 % from 0 to 45 degC.
 */

/** g K/J: molar mass of water over the gas constant (ideal gas). */
export const VAPOUR_GAS_FACTOR = 2.16679;
/** Dew points below this are outside what the saturation curve was fitted to. */
export const MIN_DEW_POINT = -40;

/** Vapour pressure of saturated air in kPa; `air` in degC, -60 to 60. FAO-56 equation 11. */
export const saturationPressure = (air: number): number =>
  0.6108 * Math.exp((17.27 * air) / (air + 237.3));

/** How much more vapour the air could hold, kPa; `humidity` a share. FAO-56, before equation 20. */
export const vapourDeficit = (air: number, humidity: number): number =>
  saturationPressure(air) * (1 - humidity);

/** Temperature in degC at which the air is saturated. FAO-56 equation 14 solved for temperature. */
export function dewPoint(air: number, humidity: number): number {
  const exponent = Math.log(humidity) + (17.27 * air) / (air + 237.3);
  const found = (237.3 * exponent) / (17.27 - exponent);
  if (found < MIN_DEW_POINT) {
    throw noAnswer(
      `The dew point of air this dry and cold lies below ${MIN_DEW_POINT} °C, where the formula no longer holds`,
    );
  }
  return found;
}

/** g of water vapour in a cubic metre of air. Ideal gas. */
export const moisture = (air: number, humidity: number): number =>
  (VAPOUR_GAS_FACTOR * 1000 * saturationPressure(air) * humidity) / (air + 273.15);
