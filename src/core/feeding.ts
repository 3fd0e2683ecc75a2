/**
 * Feed by fish weight and water temperature.
 *
 * The rate by weight is read off the species' table along straight lines between its weights. Away from
 * the best temperatures it falls along a parabola and is nothing from the feeding limits on. The parabola
 * follows the growth of young carp at 12, 18 and 24 degC within a tenth of the best (Goolish & Adelman
 * 1984); fish whose growth falls off faster than their appetite, such as largemouth bass, are overfed by it
 * in cold water if nobody watches them.
 */
import { feedWeights, type Species } from './tables/species';

/** Share of the full ration, 0 to 1, that fish take in water of `water` degC. */
export function appetite({ facts }: Species, water: number): number {
  const bestLow = facts.best_low[0];
  const bestHigh = facts.best_high[0];
  const away = Math.max(
    0,
    (bestLow - water) / (bestLow - facts.feed_low[0]),
    (water - bestHigh) / (facts.feed_high[0] - bestHigh),
  );
  return away >= 1 ? 0 : 1 - away * away;
}

/** Feed a day as a share of body weight at best temperature; `weight` in g. */
export function fullFeedRate({ feedRates }: Species, weight: number): number {
  let right = 1;
  while (right < feedWeights.length - 1 && weight > (feedWeights[right] as number)) right++;
  const from = feedWeights[right - 1] as number;
  const to = feedWeights[right] as number;
  const low = feedRates[right - 1] as number;
  const high = feedRates[right] as number;
  if (weight <= from) return low;
  if (weight >= to) return high;
  return low + ((high - low) * (weight - from)) / (to - from);
}

/** Feed a day as a share of body weight; without `water` at best temperature. */
export const feedRate = (fish: Species, weight: number, water?: number): number =>
  water === undefined
    ? fullFeedRate(fish, weight)
    : fullFeedRate(fish, weight) * appetite(fish, water);

/** Feed conversion ratio: feed given for a gain in weight, both in the same unit. */
export const feedConversion = (feed: number, gain: number): number => feed / gain;
