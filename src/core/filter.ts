/**
 * Surface on which nitrifying bacteria must live to take up a day's ammonia.
 * Rate: usual practice (Timmons & Ebeling, recalled), 0.45 g TAN/m2/day in water of 25 to 30 degC, 0.15 to 0.25
 * at 12 to 15 degC. Temperature, as published: 4.275 % a degree where ammonia and not oxygen is short (Zhu &
 * Chen 2002, at 20 degC), and in cooler water down to 18 % of the 20-degree rate at 1 degC (Hoang et al. 2014),
 * which is a factor of 1.0945 a degree. Together they give 0.18 at 12 and 0.23 at 15 degC.
 */

/** g TAN/m2/day in warm water. */
export const NITRIFICATION_RATE = 0.45;
/** degC from which on the rate is taken as it is: warmer water earns nothing. */
export const RATE_WATER = 25;
/** degC at which the two published slopes meet. */
export const SLOPES_MEET = 20;
export const PER_WARM_DEGREE = 1.04275;
export const PER_COOL_DEGREE = 1.0945;

/** mg/L of TAN from which on the rate no longer rises with the ammonia in the water. */
export const LEVEL_OF_RATE = 1;

/** Share of the rate that is lost where organic carbon is as much as the nitrogen or more (Zhu & Chen 2001). */
export const LOST_TO_SOLIDS = 0.7;

/** Share of the warm-water rate that is left in water of this temperature, degC 0 to 40. */
export const temperatureFactor = (water: number): number =>
  PER_WARM_DEGREE ** (Math.min(Math.max(water, SLOPES_MEET), RATE_WATER) - RATE_WATER) *
  PER_COOL_DEGREE ** (Math.min(water, SLOPES_MEET) - SLOPES_MEET);

/** Share of the rate in water that holds `level` mg/L TAN: in proportion below 1 mg/L. */
export const levelFactor = (level: number): number => Math.min(1, level / LEVEL_OF_RATE);

/** Share of the rate where `solids` g of organic carbon come with each g of ammonia nitrogen. */
export const solidsFactor = (solids: number): number => 1 - LOST_TO_SOLIDS * Math.min(1, solids);

/** What the water of a filter is like. */
export interface FilterWater {
  /** degC */
  readonly water: number;
  /** mg/L of TAN that the water holds */
  readonly level: number;
  /** g of organic carbon for each g of ammonia nitrogen */
  readonly solids: number;
}

/** g TAN/m2/day that is left of `rate`. */
const rateIn = (rate: number, { water, level, solids }: FilterWater): number =>
  rate * temperatureFactor(water) * levelFactor(level) * solidsFactor(solids);

/** m2 for `tan` g/day at `rate` g/m2/day in clean water of 25 degC. */
export const filterSurface = (tan: number, rate: number, water: FilterWater): number =>
  tan / rateIn(rate, water);

/** L of media with `specificSurface` m2/m3. */
export const filterMedia = (
  tan: number,
  specificSurface: number,
  rate: number,
  water: FilterWater,
): number => (filterSurface(tan, rate, water) / specificSurface) * 1000;

/** m2 of surface in a m3 of the media of beds (FAO 589: coarse gravel 150, expanded clay 250 to 300). */
export const GRAVEL_SURFACE = 150;
const CLAY_SURFACE = 250;

/**
 * What beds do as filters. Rafts took up 0.56 g TAN a day for each m2 of bed in the UVI system (roots, walls and
 * undersides together): 0.5 as a floor. Media count by their surface, at the rate of a filter whose solids stay.
 */
export const bedFilters = {
  raft: { perArea: 0.5, spellings: ['rafts', 'deep water', 'floating raft'] },
  gravel: { surface: GRAVEL_SURFACE, spellings: ['media', 'media bed', 'gravel bed'] },
  clay: { surface: CLAY_SURFACE, spellings: ['expanded clay', 'clay pebbles'] },
} as const;

export type FilterBed = keyof typeof bedFilters;

/** g TAN a day that a m2 of bed takes up in clean water of 25 degC; `depth` m of wetted media. */
export function bedRate(bed: FilterBed, depth: number): number {
  const kind = bedFilters[bed];
  return 'perArea' in kind ? kind.perArea : kind.surface * depth * NITRIFICATION_RATE;
}

/** g TAN a day that `area` m2 of beds take up. */
export const tanUptakeOfBeds = (
  area: number,
  bed: FilterBed,
  depth: number,
  water: FilterWater,
): number => area * rateIn(bedRate(bed, depth), water);
