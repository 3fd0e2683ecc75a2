import { MAX_FEED_RATE } from '../core/feeding';

/** Steps that the formulas of the fish cards share; they ask for the parameters `species` and `water`. */

/** Share of the full ration that a species takes at a water temperature. */
export const appetite = {
  appetite: 'MAX(0, MIN(1 - MIN(1, MAX(0, cold, warm))^2, water / species.best_low))',
  cold: '(species.best_low - water) / (species.best_low - species.feed_low)',
  warm: '(water - species.best_high) / (species.feed_high - species.best_high)',
} as const;

/** The table's feed rate at a `weight`, slowed where the water is given. */
export const usualFeedRate = {
  full: `MIN(${MAX_FEED_RATE}, table)`,
  table: 'by_table * (held / weight)^(1/3)',
  by_table: 'ALONG(species.feed_rates, weight)',
  held: 'MEDIAN(MIN(species.feed_weights), weight, MAX(species.feed_weights))',
  slowed: 'IF(water = "", 1, appetite)',
  ...appetite,
} as const;

/** The same for fish of their own `coefficient` and `conversion`. */
export const feedRate = {
  ...usualFeedRate,
  full: `MIN(${MAX_FEED_RATE}, table * own * converted)`,
  own: 'IF(coefficient = "", 1, coefficient / species.tgc)',
  converted: 'IF(conversion = "", 1, conversion / species.fcr)',
} as const;

export const usualFeedRateSymbols = {
  full: 'rate for the weight at the best temperatures, fry at most 20 %',
  table: 'the same of the species’ usual fish, before the most for fry',
  by_table: 'rate of the table for the weight, along straight lines',
  held: 'the weight, held within those of the table, g',
  slowed: 'share of the full ration',
  cold: 'way from the best range down to the lower feeding limit, as a share',
  warm: 'way from the best range up to the upper feeding limit, as a share',
};

export const feedRateSymbols = {
  ...usualFeedRateSymbols,
  own: 'what these fish grow for each of what the species’ usual fish grow',
  converted: 'what these fish take for a gain, for each of what the usual fish take',
};

/** The temperature that counts for growth; 0 where the fish do not feed. */
export const growingTemperature = {
  temperature:
    'MEDIAN(species.best_low, water, species.best_high) * appetite * (1 - MEDIAN(0, warm, 1)^2 / 3)',
  ...appetite,
} as const;

/** The same with the species' growth coefficient, unless the farm has its own. */
export const growth = {
  tgc: 'IF(coefficient = "", species.tgc, coefficient)',
  ...growingTemperature,
} as const;

export const growthSymbols = {
  temperature: 'the temperature that counts: within the best range that of the water, °C',
  appetite: 'share of the full ration',
  cold: feedRateSymbols.cold,
  warm: feedRateSymbols.warm,
};
