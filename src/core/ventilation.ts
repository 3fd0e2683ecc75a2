import { saturationPressure, VAPOUR_GAS_FACTOR } from './air';
import { noAnswer } from './errors';
import { AIR_HEAT } from './month-heat';

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

/** Share of the sun's heat in a house that well watered plants turn into vapour (common practice). */
export const USED_BY_PLANTS = 0.5;

export interface SunnyHouse {
  /** m2 of floor, W/m2 of sun on level ground outside */
  readonly area: number;
  readonly radiation: number;
  /** shares: what the cover lets in, what a shade cloth takes, what plants turn into vapour */
  readonly cover: number;
  readonly shade: number;
  readonly used: number;
}

/**
 * m3/h of outside air that carry the sun's heat out of a house which may be `inside` warm while it is `outside`
 * outdoors, degC: a balance of heat, what passes through the cover left out.
 * Throws #NUM! where the air outside is as warm: venting cannot cool below it.
 */
export function sunFlow(house: SunnyHouse, inside: number, outside: number): number {
  if (inside <= outside) {
    throw noAnswer(
      `venting cools no lower than the air outside, ${outside} °C; the house must be allowed to be warmer than that`,
    );
  }
  const { area, radiation, cover, shade, used } = house;
  return (area * radiation * cover * (1 - shade) * (1 - used)) / (AIR_HEAT * (inside - outside));
}
