import { wrongValue } from './errors';
import { radiation } from './sun';

/** mm of water that 1 MJ/m2 evaporates. FAO-56 equation 20. */
export const MM_PER_MJ = 0.408;

/**
 * Reference evapotranspiration of well-watered grass in mm/day: Hargreaves, FAO-56 equation 52.
 * `mean` degC and `range` K of the day's air temperature, `radiationAbove` MJ/m2/day above the air. Below -17.8 degC the
 * equation turns negative: ice evaporates next to nothing, which is taken as 0.
 */
export const hargreaves = (mean: number, range: number, radiationAbove: number): number =>
  0.0023 * Math.max(0, mean + 17.8) * Math.sqrt(range) * MM_PER_MJ * radiationAbove;

/**
 * L/day that a crop takes up: reference evapotranspiration x crop coefficient x area, as 1 mm on 1 m2 is
 * 1 L (FAO-56 equation 58). `high` and `low` degC of the day.
 */
export function waterUse(
  area: number,
  high: number,
  low: number,
  latitude: number,
  date: number,
  coefficient: number,
): number {
  if (high < low) {
    throw wrongValue(`high must not be below low; got a high of ${high} and a low of ${low} °C`);
  }
  return area * coefficient * hargreaves((high + low) / 2, high - low, radiation(latitude, date));
}
