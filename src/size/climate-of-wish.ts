import type { Species } from '../core/tables/species';
import { monthsBetween } from './month-curve';
import type { Wish } from './wish';

/** The months of a wish: air between its two extremes, and the water that follows from it. */

/** From the mean of a day to its highest and lowest under cover, K. Common practice, no source. */
export const DAY_SWING = 5;
/** Relative humidity under cover. Common practice, no source. */
export const HUMIDITY = 0.75;

/** Water in a tank is hardly ever colder, whatever the air, nor warmer, since it evaporates, degC. */
const FREEZING = 0.5;
const HOTTEST = 40;

export interface MonthOfWish {
  readonly high?: number;
  readonly low?: number;
  readonly humidity?: number;
  readonly water?: number;
}

export interface ClimateOfWish {
  /** Mean air of January to December; undefined where an answer is missing. */
  readonly air?: readonly number[];
  readonly water?: readonly number[];
  readonly months: readonly MonthOfWish[];
  /** degC to which the water is held. */
  readonly heatedTo?: number;
}

const tidy = (degrees: number): number => Number(degrees.toFixed(1));

export function climateOf(wish: Wish, species: Species | undefined): ClimateOfWish {
  const { coldest, warmest, latitude, heated } = wish;
  const nothing = Array.from({ length: 12 }, () => ({}));
  if (coldest === undefined || warmest === undefined || latitude === undefined)
    return { months: nothing };
  const air = monthsBetween(coldest, warmest, latitude).map(tidy);
  // Heated water is held where the fish begin to do their best; what the sun adds stays.
  const heatedTo = heated === true ? species?.facts.best_low[0] : undefined;
  const isKnown = heated === false || heatedTo !== undefined;
  const water = air.map((mean) => Math.min(HOTTEST, Math.max(mean, heatedTo ?? FREEZING)));
  return {
    air,
    ...(isKnown && { water }),
    ...(heatedTo !== undefined && { heatedTo }),
    months: air.map((mean, i) => ({
      high: tidy(mean + DAY_SWING),
      low: tidy(mean - DAY_SWING),
      humidity: HUMIDITY,
      ...(isKnown && { water: water[i] as number }),
    })),
  };
}
