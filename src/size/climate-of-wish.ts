import type { Species } from '../core/tables/species';
import { monthsBetween } from './month-curve';
import type { Wish } from './wish';

/** The months of a wish: air between its two extremes, and the water that follows from it. */

/** From the mean of a day to its highest and lowest under cover, K. Common practice, no source. */
export const DAY_SWING = 5;
/** Relative humidity under cover. Common practice, no source. */
export const HUMIDITY = 0.75;

/** Water in a tank is hardly ever colder, whatever the air, nor warmer, since it evaporates, degC. */
export const FREEZING = 0.5;
export const HOTTEST = 40;

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

/** degC to which heated water is held: where the fish begin to do their best; what the sun adds stays. */
const heldAt = (heated: boolean | undefined, species: Species | undefined): number | undefined =>
  heated === true ? species?.facts.best_low[0] : undefined;

/** Water of a month by its mean air, and by what it is held at where it is heated, degC. */
export const waterOf = (air: number, heatedTo: number | undefined): number =>
  Math.min(HOTTEST, Math.max(air, heatedTo ?? FREEZING));

/** The mean of a day, from its highest and lowest. */
export const meanOf = (high: number, low: number): number => Number(((high + low) / 2).toFixed(6));

function climateOfMonths(
  own: NonNullable<Wish['months']>,
  heated: boolean | undefined,
  species: Species | undefined,
): ClimateOfWish {
  const heatedTo = heldAt(heated, species);
  const air = own.map(({ high, low }) => meanOf(high, low));
  const water = own.map((month, i) => month.water ?? waterOf(air[i] as number, heatedTo));
  return {
    air,
    water,
    ...(heatedTo !== undefined && { heatedTo }),
    months: own.map(({ high, low, humidity = HUMIDITY }, i) => ({
      high,
      low,
      humidity,
      water: water[i] as number,
    })),
  };
}

export function climateOf(wish: Wish, species: Species | undefined): ClimateOfWish {
  const { months: own } = wish;
  if (own !== undefined) return climateOfMonths(own, wish.heated, species);
  const { coldest, warmest, latitude, heated } = wish;
  const nothing = Array.from({ length: 12 }, () => ({}));
  if (coldest === undefined || warmest === undefined || latitude === undefined)
    return { months: nothing };
  const air = monthsBetween(coldest, warmest, latitude).map(tidy);
  const heatedTo = heldAt(heated, species);
  const isKnown = heated === false || heatedTo !== undefined;
  const water = air.map((mean) => waterOf(mean, heatedTo));
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
