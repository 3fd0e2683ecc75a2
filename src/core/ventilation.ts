import { saturationPressure, VAPOUR_GAS_FACTOR } from './air';

/** kPa. At 1500 m the result is less than 0.5 % higher: vapour pressures do not depend on altitude. */
export const SEA_LEVEL_PRESSURE = 101.325;

/** m3/h that renew `volume` m3 of air `changes` times an hour. */
export const airFlow = (volume: number, changes: number): number => volume * changes;

/**
 * kg/h of water that leaves with the vented air; negative where the outside air brings more in.
 * `flow` is m3/h of inside air going out. As much dry air comes in as goes out (ASHRAE Fundamentals 2017,
 * chapter 1: humidity ratio, mass balance), so cold outside air, which swells as it warms, brings in
 * less than its own g/m3 say.
 */
export function drying(
  flow: number,
  insideAir: number,
  insideHumidity: number,
  outsideAir: number,
  outsideHumidity: number,
): number {
  const inside = saturationPressure(insideAir) * insideHumidity;
  const outside = saturationPressure(outsideAir) * outsideHumidity;
  const warmed = (outside * (SEA_LEVEL_PRESSURE - inside)) / (SEA_LEVEL_PRESSURE - outside);
  return (flow * VAPOUR_GAS_FACTOR * (inside - warmed)) / (insideAir + 273.15);
}
