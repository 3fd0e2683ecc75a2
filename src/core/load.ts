/**
 * What a day's feed puts into the water and takes out of it. Feed in g/day; results in g/day.
 */
import { GRAMS_PER_EQUIVALENT_CACO3, molarMass } from './molar-mass';

/**
 * TAN, as N, for each gram of protein fed: 0.16 nitrogen in protein x 0.80 assimilated x 0.80 of that
 * excreted x 0.90 excreted as ammonia, printed as 0.092 (Timmons & Ebeling, Recirculating Aquaculture).
 */
export const TAN_PER_PROTEIN = 0.092;

/** Protein of a feed for fish that eat everything, FAO 589 ch. 8: its area ratios assume 32 %. */
export const USUAL_PROTEIN = 0.32;

/**
 * g O2 for each g of feed, fish and nitrifiers together. Usual practice: 0.35 for the fish (0.25 to 0.40)
 * and 0.13 for nitrifying the ammonia of a 32 % feed, rounded up. Solids left in the water add 0.1 to 0.25;
 * burning all of the feed would take 1.25 (Boyd), which no tank reaches while its solids are removed.
 */
export const OXYGEN_PER_FEED = 0.5;

/** g O2 for each g of feed that the fish themselves take, of the above: usual practice, 0.25 to 0.40. */
export const FISH_OXYGEN_PER_FEED = 0.35;

/** g CO2 given off for each g O2 used when as many molecules come out as go in. */
export const CO2_PER_OXYGEN = 1.375;

/** g CO2 for each g of feed, at that rate and the usual oxygen use. */
export const CO2_PER_FEED = CO2_PER_OXYGEN * OXYGEN_PER_FEED;

/** g dry solids for each g of feed: usual practice, 0.2 to 0.3. */
export const SOLIDS_PER_FEED = 0.25;

/**
 * g CaCO3 of alkalinity used up in nitrifying 1 g TAN: two equivalents a mole, 7.145. What nitrifiers build
 * into themselves would lower it by about 1 % (7.05); the larger figure errs towards enough base.
 */
export const ALKALINITY_PER_TAN = (2 * GRAMS_PER_EQUIVALENT_CACO3) / molarMass('N');

/** `protein` as a fraction of the feed. */
export const tanFromFeed = (feed: number, protein: number): number =>
  feed * protein * TAN_PER_PROTEIN;

/** Any load that goes with the feed: oxygen, carbon dioxide, solids. */
export const loadFromFeed = (feed: number, perFeed: number): number => feed * perFeed;

/**
 * g CaCO3/day that nitrifying `tan` g/day uses up. Each share of that nitrogen which plants take up as nitrate
 * (`uptake`) or which is lost as gas (`denitrified`) gives one of its two equivalents back.
 */
export const alkalinityUsed = (tan: number, uptake: number, denitrified: number): number =>
  tan * ALKALINITY_PER_TAN * (1 - (uptake + denitrified) / 2);

/**
 * g CaCO3 of base for each kg of feed that published farms dosed: 16, 21, 33 and 36 (Nozzi et al. 2018; Rakocy
 * et al. 1997, bases recalled; a greenhouse in Arizona). A practitioner's table: 70 with plants, 140 without.
 */
export const PUBLISHED_BASE = { least: 16, most: 36, planted: 70, bare: 140 } as const;
