import { FEED_CONVERSIONS } from './feeding';
import { GROWTH_COEFFICIENTS } from './growth';
import type { FishFact } from './tables/species';

/**
 * What figures of one's own can be fish of a farm. Conversion and growth as functions take them, water and density as
 * well; the others stand well outside all that the table has, where a slip of the unit or the point begins (common
 * practice, no source).
 */

const WATER = [-2, 50] as const;

export const fishFactRanges: Readonly<Record<FishFact, readonly [least: number, most: number]>> = {
  vital_low: WATER,
  feed_low: WATER,
  best_low: WATER,
  best_high: WATER,
  feed_high: WATER,
  vital_high: WATER,
  density_backyard: [1, 500],
  density_aerated: [1, 500],
  protein: [0.1, 0.7],
  fcr: FEED_CONVERSIONS,
  tgc: GROWTH_COEFFICIENTS,
  harvest_weight: [1, 50000],
  oxygen_least: [1, 20],
  oxygen_critical: [0.5, 20],
  tan_most: [0.01, 20],
  unionised_most: [0.001, 2],
  nitrite_most: [0.01, 50],
  carbon_dioxide_most: [1, 200],
  handling_low: WATER,
  handling_high: WATER,
};

/** Feed a day as a share of body weight. */
export const feedRateRange = [0.0001, 1] as const;

/** Facts of which the first must lie below the second; or may be as much, where `equal`. */
export const fishFactOrders: readonly (readonly [low: FishFact, high: FishFact, equal: boolean])[] =
  [
    ['vital_low', 'feed_low', true],
    ['feed_low', 'best_low', false],
    ['best_low', 'best_high', true],
    ['best_high', 'feed_high', false],
    ['feed_high', 'vital_high', true],
    ['handling_low', 'handling_high', false],
    ['oxygen_critical', 'oxygen_least', true],
  ];
