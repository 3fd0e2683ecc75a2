/**
 * Feed by fish weight and water temperature.
 *
 * The rate by weight is read off the species' table along straight lines between its weights. Below the first
 * and above the last it goes with the inverse cube root of the weight, as the growth of a day does
 * (growth.ts), up to what fry are given at most.
 *
 * Appetite away from the best temperatures is what growth follows, too: see growingTemperature.
 */
import { feedWeights, type Species } from './tables/species';

/** Way from the best range to the feeding limit of that side, 0 within the best range and 1 at the limit. */
const wayToColdLimit = ({ facts }: Species, water: number): number =>
  (facts.best_low[0] - water) / (facts.best_low[0] - facts.feed_low[0]);
const wayToWarmLimit = ({ facts }: Species, water: number): number =>
  (water - facts.best_high[0]) / (facts.feed_high[0] - facts.best_high[0]);

/**
 * Share of the full ration, 0 to 1, that fish take in water of `water` degC: full in the best range and
 * nothing from the feeding limits on. Between them it falls along a parabola, in cool water at least in
 * proportion to the temperature, which is the thermal-unit rule of growth. Young carp grew by 0.21, 0.70 and
 * 0.94 of the best at 12, 18 and 24 degC (Goolish & Adelman 1984); this gives 0.25, 0.72 and 0.96.
 */
export function appetite(fish: Species, water: number): number {
  const away = Math.max(0, wayToColdLimit(fish, water), wayToWarmLimit(fish, water));
  return away >= 1 ? 0 : Math.min(1 - away * away, water / fish.facts.best_low[0]);
}

/**
 * Share of the best use of feed, 1 to 2/3, that is left in water above the best range. Appetite peaks some
 * 1.5 degC warmer than growth (barramundi: Katersky & Carter 2007; largemouth bass: 26.8 against 25.1 degC),
 * so that conversion worsens towards the warm limit. By how much is common practice, no source. In cool water
 * it stays as it is: the upkeep of carp was as large a part of their growth at 12 as at 30 degC.
 */
export function feedUtilisation(fish: Species, water: number): number {
  const away = Math.min(1, Math.max(0, wayToWarmLimit(fish, water)));
  return 1 - (away * away) / 3;
}

/** Share of their weight a day that fry are fed at most (SRAC 282: 20 % falling to 15 % up to 1 g). */
export const MAX_FEED_RATE = 0.2;

/** Feed a day as a share of body weight at best temperature, before what fry are given at most; `weight` in g. */
function tableFeedRate({ feedRates }: Species, weight: number): number {
  let right = 1;
  while (right < feedWeights.length - 1 && weight > (feedWeights[right] as number)) right++;
  const from = feedWeights[right - 1] as number;
  const to = feedWeights[right] as number;
  const low = feedRates[right - 1] as number;
  const high = feedRates[right] as number;
  if (weight <= from) return low * Math.cbrt(from / weight);
  if (weight >= to) return high * Math.cbrt(to / weight);
  return low + ((high - low) * (weight - from)) / (to - from);
}

/** Fish that grow by a coefficient and convert by a conversion of their own. */
export interface OwnRates {
  /** Growth coefficient, x1000 scale. */
  readonly coefficient?: number | undefined;
  /** Feed for each unit of gain. */
  readonly conversion?: number | undefined;
}

/**
 * What fish eat for each of what the species' usual fish of the same weight eat. Feed is growth times conversion
 * (Haskell 1959), and growth at a weight goes with the coefficient: fish that grow faster eat more, fish that
 * convert better eat less.
 */
export const feedAgainstTable = (
  { facts }: Pick<Species, 'facts'>,
  { coefficient = facts.tgc[0], conversion = facts.fcr[0] }: OwnRates,
): number => (coefficient / facts.tgc[0]) * (conversion / facts.fcr[0]);

/**
 * Feed a day as a share of body weight; without `water` at best temperature. Fish that grow by another
 * `coefficient` or on another `conversion` than the species' own eat in proportion to both.
 */
export function feedRate(
  fish: Species,
  weight: number,
  water?: number,
  coefficient?: number,
  conversion?: number,
): number {
  const own = feedAgainstTable(fish, { coefficient, conversion });
  const full = Math.min(MAX_FEED_RATE, tableFeedRate(fish, weight) * own);
  return water === undefined ? full : full * appetite(fish, water);
}

/**
 * Conversions with which fish on dry feed can be planned. The best that is published are 0.6 to 0.7 (trout from 0.6,
 * juvenile African catfish 0.71, tilapia fry in green water 0.75), the worst of fish that still grow 4.0 to 5.8
 * (largemouth bass at 35 degC). A gram of fish holds about a quarter of a gram of dry matter, and a gram of feed nine
 * tenths: at 0.5 more than half of the feed would have become fish. The bounds themselves are common practice, no source.
 */
export const FEED_CONVERSIONS = [0.5, 10] as const;

/** Feed for a gain from which on the gain is too small, or in another unit, to say how feed was used. */
export const MAX_MEASURED_CONVERSION = 100;

/** Feed conversion ratio: feed given for a gain in weight, both in the same unit. */
export const feedConversion = (feed: number, gain: number): number => feed / gain;
