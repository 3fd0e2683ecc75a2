import { type Crop, usual } from './tables/crops';

/** Limits of a season that planner and sheets name; no loss is reckoned for what is beyond them. */

/**
 * A crop grows too slowly to be planned where the mean air stays nearer to its base temperature than this,
 * degC. Common practice, no source: 8 degC for lettuce, 14 degC for tomato.
 */
export const ABOVE_BASE = 4;

/** In days shorter than this leafy crops hardly grow, whatever the warmth, hours. Common practice, no source. */
export const SHORT_DAY = 10;

/** Mean air in which a crop is grown at all, from coldest to warmest, degC. */
export const growingAir = (crop: Crop): readonly [coldest: number, warmest: number] => [
  usual(crop, 'base_temp') + ABOVE_BASE,
  usual(crop, 'heat_limit') ?? Infinity,
];
