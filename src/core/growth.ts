/**
 * Thermal-unit growth (Iwama & Tautz 1981; Cho 1992): the cube root of the weight rises in proportion to
 * temperature times days,
 *     W2^(1/3) = W1^(1/3) + coefficient/1000 * temperature * days        (g, degC; coefficient x1000)
 * The method fails in water warmer than the best, where growth falls again, and takes no account of fish
 * that do not feed (Jobling 2003). So the temperature that counts follows appetite: fish grow on what they
 * eat, and where they eat nothing they do not grow.
 *
 * Fry below a fifth of a gram grow more slowly than the cube root has it: tilapia of 0.02 g weigh 0.5 to 1 g
 * after 30 days (SRAC 282), 11 to 13 % a day and not a third.
 */
import { appetite, feedUtilisation } from './feeding';
import type { Species } from './tables/species';

/**
 * The temperature that counts for growth in water of `water` degC: the water's own, held within the best
 * range, times the appetite and, in water warmer than the best, the use of feed. Within the best range it is
 * the water's own; 0 where the fish do not feed.
 */
export function growingTemperature(fish: Species, water: number): number {
  const { best_low, best_high } = fish.facts;
  const held = Math.min(Math.max(water, best_low[0]), best_high[0]);
  return held * appetite(fish, water) * feedUtilisation(fish, water);
}

/** g from which on the rule holds. */
export const MIN_GROWING_WEIGHT = 0.2;

/** Days over which growth may be reckoned: thirty years, longer than any farmed fish is kept. */
export const MAX_GROWING_DAYS = 11000;

/**
 * Coefficients (x1000) that fish can have. Published for farmed fish are 0.5 (largemouth bass) to 2.2 (fast trout);
 * a fifth of the slowest and twice the fastest are slips of the scale, of g or of days. How far beyond what is
 * published: common practice, no source.
 */
export const GROWTH_COEFFICIENTS = [0.1, 5] as const;

/** Weight in g after `days` at `temperature` (see growingTemperature). */
export const grownWeight = (
  weight: number,
  days: number,
  temperature: number,
  coefficient: number,
): number => {
  const rise = (coefficient / 1000) * temperature * days;
  // No growth gives back the very same number, without the traces of root and cube.
  return rise === 0 ? weight : (Math.cbrt(weight) + rise) ** 3;
};

/** Days from one weight to another; Infinity where the fish do not grow. */
export const daysToGrow = (
  from: number,
  to: number,
  temperature: number,
  coefficient: number,
): number => (Math.cbrt(to) - Math.cbrt(from)) / ((coefficient / 1000) * temperature);

/**
 * The coefficient (x1000) that two weights show. With the mean temperature of the water it is the coefficient
 * as it is published; with the temperature that counts (growingTemperature) the one that grownWeight takes.
 */
export const growthCoefficient = (
  from: number,
  to: number,
  days: number,
  temperature: number,
): number => (1000 * (Math.cbrt(to) - Math.cbrt(from))) / (temperature * days);
