/**
 * Carbon dioxide that a column of falling water and forced air takes out in a pass: the published fit for
 * water of about 7 mg/L (Hu et al. 2011 by a trade page), 6.44 - 5.82 x 0.648^(gas to liquid) mg/L removed.
 * Taken as a share of what the water holds above the air's own level, it serves other levels, too: "inlet
 * level and water flow matter little", and 80 to 88 % goes at a ratio of 5.
 */

/** mg/L that the fit was made at. */
export const FITTED_INLET = 7;
/** mg/L that water of 20 degC keeps under outside air, which the fit cannot take out. */
export const FITTED_AIR = 0.724;
/** Carbon dioxide in the open air, millionths. */
export const OPEN_AIR = 420;

/** Share of the carbon dioxide above the air's level that goes in a pass. */
export const strippedShare = (gasToLiquid: number): number =>
  Math.min(1, (6.44 - 5.82 * 0.648 ** gasToLiquid) / (FITTED_INLET - FITTED_AIR));

/** mg/L that water of `water` degC keeps under air with `air` millionths: Plummer & Busenberg 1982. */
export function carbonDioxideUnder(air: number, water: number): number {
  const t = water + 273.15;
  const logK = 108.3865 + 0.01985076 * t - 6919.53 / t - 40.45154 * Math.log10(t) + 669365 / t ** 2;
  return 0.04401 * air * 10 ** logK;
}

/** mg/L after one pass. */
export function afterStripping(
  carbonDioxide: number,
  gasToLiquid: number,
  water: number,
  air: number,
): number {
  const least = carbonDioxideUnder(air, water);
  return carbonDioxide - strippedShare(gasToLiquid) * (carbonDioxide - least);
}
