/**
 * Thermal-unit growth (Iwama & Tautz 1981; Cho 1992): the cube root of the weight rises in proportion to
 * temperature times days,
 *     W2^(1/3) = W1^(1/3) + coefficient/1000 * temperature * days        (g, degC; coefficient x1000)
 * The method fails in water warmer than the best, where growth falls again, and takes no account of fish
 * that do not feed (Jobling 2003). So the temperature counts only up to the species' best, and fish at or
 * beyond their feeding limits do not grow.
 */
import type { Species } from './tables/species';

/** The temperature that counts for growth in water of `water` degC; 0 where the fish do not feed. */
export function growingTemperature({ facts }: Species, water: number): number {
  if (water <= facts.feed_low[0] || water >= facts.feed_high[0]) return 0;
  return Math.min(water, facts.best_high[0]);
}

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

/** The coefficient (x1000) that a farm's own weights show; `temperature` is the mean over the days. */
export const growthCoefficient = (
  from: number,
  to: number,
  days: number,
  temperature: number,
): number => (1000 * (Math.cbrt(to) - Math.cbrt(from))) / (temperature * days);
