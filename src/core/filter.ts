/**
 * Surface on which nitrifying bacteria must live to take up a day's ammonia.
 * All figures are usual practice (Timmons & Ebeling, recalled): 0.45 g TAN/m2/day in water of 25 to 30 degC,
 * 0.15 to 0.25 at 12 to 15 degC. A factor of 1.08 a degree joins the two: 0.17 at 12, 0.21 at 15 degC.
 */

/** g TAN/m2/day in warm water. */
export const NITRIFICATION_RATE = 0.45;
/** degC from which on the rate is taken as it is: warmer water earns nothing. */
export const RATE_WATER = 25;
const PER_DEGREE = 1.08;

/** Share of the warm-water rate that is left in water of this temperature, degC 0 to 40. */
export const temperatureFactor = (water: number): number =>
  PER_DEGREE ** (Math.min(water, RATE_WATER) - RATE_WATER);

/** m2 for `tan` g/day at `rate` g/m2/day in water of 25 degC. */
export const filterSurface = (tan: number, rate: number, water: number): number =>
  tan / (rate * temperatureFactor(water));

/** L of media with `specificSurface` m2/m3. */
export const filterMedia = (
  tan: number,
  specificSurface: number,
  rate: number,
  water: number,
): number => (filterSurface(tan, rate, water) / specificSurface) * 1000;
