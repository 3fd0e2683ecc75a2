import { GillError } from '../core/errors';
import { feedAgainstTable } from '../core/feeding';
import { MONTH } from '../core/stocking';
import type { Species } from '../core/tables/species';
import type { UnitSystem } from '../plan/quantities';
import { ask, askFigures } from './ask-functions';
import { roundedUpShown } from './figure-words';

/** Tanks stocked in turn for a weight of fish a month, as the Stock plan sheet reckons them. */

/** Smaller tanks are not worth their fittings, and larger ones hard to clear in a day, L. Common practice. */
const MIN_TANK = 1000;
const MAX_TANK = 50_000;
const MAX_TANKS = 52;
/** A single tank gives fish only once in a cycle. */
const MIN_TANKS = 2;
/** g: what hatcheries sell for grow-out. Common practice, no source. */
export const START_WEIGHT = 50;
/** Share of a harvest weight that fingerlings weigh where the fish are sold small. */
const START_SHARE = 0.25;
/** As STOCK.ROTATION takes it. */
export const SURVIVAL = 0.95;

export interface FishWish {
  readonly species: Species;
  /** Mean water of the year, degC. */
  readonly water: number;
  readonly startWeight: number;
  readonly harvestWeight: number;
  /** Share that lives to be sold; left out, SURVIVAL. */
  readonly survival?: number | undefined;
  /** Growth coefficient and feed for a kg of growth of the farm's own; left out, the species'. */
  readonly coefficient?: number | undefined;
  readonly conversion?: number | undefined;
  /** As many tanks; left out, as many as suit the weight. */
  readonly tanks?: number | undefined;
  readonly units: UnitSystem;
}

export interface FishSize {
  readonly species: string;
  readonly kgPerMonth: number;
  readonly water: number;
  readonly startWeight: number;
  readonly harvestWeight: number;
  readonly survival: number;
  /** The farm's own growth coefficient, where it has one. */
  readonly coefficient?: number;
  /** kg/m3 at harvest. */
  readonly density: number;
  readonly daysInTank: number;
  /** Volume of each tank, L. */
  readonly tanks: readonly number[];
  readonly weeksBetween: number;
  readonly stocked: number;
  readonly harvested: number;
  /** kg in all tanks just before a harvest. */
  readonly standing: number;
  /** g/day, mean of the time between two harvests, and just before one. */
  readonly meanFeed: number;
  readonly peakFeed: number;
  /** A year. */
  readonly fingerlings: number;
}

/** Weights between which the fish grow where nobody says them. */
export function usualWeights(species: Species): { startWeight: number; harvestWeight: number } {
  const harvestWeight = species.facts.harvest_weight[0];
  return { harvestWeight, startWeight: Math.min(START_WEIGHT, START_SHARE * harvestWeight) };
}

/**
 * The rotation, with growth and conversion of the farm's own. Days go with the inverse of the coefficient
 * (GROWTH.DAYS), so that a batch is what a harvest larger by as much calls for; feed goes with coefficient and
 * conversion (FEED.RATE); numbers and weights of the fish at each age with neither.
 */
function rotationOf(wish: FishWish, kgPerMonth: number, tanks: number): (label: string) => number {
  const { facts, name } = wish.species;
  const slow = facts.tgc[0] / (wish.coefficient ?? facts.tgc[0]);
  const eats = feedAgainstTable(wish.species, wish);
  const times: Readonly<Record<string, number>> = {
    'Days in the tank': slow,
    'Weeks between harvests': slow,
    'Mean feed, g/day': eats,
    'Peak feed, g/day': eats,
    'Fingerlings a year': 1 / slow,
  };
  const figure = askFigures(
    'STOCK.ROTATION',
    kgPerMonth * slow,
    wish.harvestWeight,
    wish.startWeight,
    wish.water,
    name,
    wish.survival ?? SURVIVAL,
    facts.density_aerated[0],
    tanks,
  );
  return (label) => figure(label) * (times[label] ?? 1);
}

/** A harvest once a month at least, in tanks that are neither tubs nor pools. */
function usualTanks(wish: FishWish, kgPerMonth: number): number {
  const litres = (tanks: number): number =>
    rotationOf(wish, kgPerMonth, tanks)('Water for each batch, L');
  const days = rotationOf(wish, kgPerMonth, 1)('Days in the tank');
  let tanks = Math.min(MAX_TANKS, Math.max(MIN_TANKS, Math.ceil(days / MONTH - 1e-6)));
  while (tanks > MIN_TANKS && litres(tanks) < MIN_TANK) tanks--;
  while (tanks < MAX_TANKS && days / tanks > 7 && litres(tanks) > MAX_TANK) tanks++;
  return tanks;
}

/** Throws a GillError where the fish do not grow in such water. */
export function fishSize(wish: FishWish, kgPerMonth: number): FishSize {
  const tanks = wish.tanks ?? usualTanks(wish, kgPerMonth);
  const figure = rotationOf(wish, kgPerMonth, tanks);
  const litres = roundedUpShown(figure('Water for each batch, L'), 'volume', wish.units);
  return {
    ...sized(wish, kgPerMonth, figure),
    tanks: Array.from({ length: tanks }, () => litres),
  };
}

function sized(
  wish: FishWish,
  kgPerMonth: number,
  figure: (label: string) => number,
): Omit<FishSize, 'tanks'> {
  return {
    species: wish.species.name,
    kgPerMonth,
    water: wish.water,
    startWeight: wish.startWeight,
    harvestWeight: wish.harvestWeight,
    survival: wish.survival ?? SURVIVAL,
    ...(wish.coefficient !== undefined && { coefficient: wish.coefficient }),
    density: wish.species.facts.density_aerated[0],
    daysInTank: figure('Days in the tank'),
    weeksBetween: figure('Weeks between harvests'),
    stocked: figure('Fish to stock in a batch'),
    harvested: figure('Fish to harvest from a batch'),
    standing: figure('Biomass just before a harvest, kg'),
    meanFeed: figure('Mean feed, g/day'),
    peakFeed: figure('Peak feed, g/day'),
    fingerlings: figure('Fingerlings a year'),
  };
}

/** A weight that is large enough for whole fish not to matter, kg a month. */
export const MANY = 100_000;

/** kg a month whose mean feed is so much, g/day. */
export function fishForFeed(wish: FishWish, feed: number): number {
  return (MANY * feed) / rotationOf(wish, MANY, wish.tanks ?? 4)('Mean feed, g/day');
}

/** What tanks that are there give when they are stocked in turn, full or for less. */
export function fishInTanks(wish: FishWish, tanks: readonly number[], wanted = Infinity): FishSize {
  const turn = Math.min(MAX_TANKS, tanks.length);
  const volume = tanks.reduce((sum, litres) => sum + litres, 0);
  const many = rotationOf(wish, MANY, turn);
  const most = (MANY * volume) / (turn * many('Water for each batch, L'));
  const kgPerMonth = Math.min(most, wanted);
  return { ...sized(wish, kgPerMonth, rotationOf(wish, kgPerMonth, turn)), tanks };
}

export interface FishMonths {
  /** Feed of each month over that at the year's mean water, for the same fish. */
  readonly shares: readonly number[];
  readonly fasting: number;
}

/** How much the fish eat in the water of each month, against the mean of the year. */
export function feedByMonth(fish: FishSize, months: readonly number[]): FishMonths {
  const weight = (fish.startWeight + fish.harvestWeight) / 2;
  const eaten = (water: number): number => ask('FEED.DAY', 1000, weight, fish.species, water);
  const mean = eaten(fish.water);
  const shares = months.map((water) => eaten(water) / mean);
  return { shares, fasting: shares.filter((share) => share === 0).length };
}

/** Why a species cannot be kept, and from which side. */
export interface Harm {
  readonly from: 'cold' | 'heat';
  readonly says: string;
}

/** What keeps a species from living or growing in the water of the months; undefined where nothing does. */
export function harmIn(
  species: Species,
  months: readonly number[],
  degrees: (value: number) => string,
): Harm | undefined {
  const cold = (says: string): Harm => ({ from: 'cold', says: `${species.name} ${says}` });
  const heat = (says: string): Harm => ({ from: 'heat', says: `${species.name} ${says}` });
  const { vital_low, vital_high, feed_low, feed_high } = species.facts;
  const [coldest, warmest] = [Math.min(...months), Math.max(...months)];
  const mean = months.reduce((sum, water) => sum + water, 0) / months.length;
  if (coldest < vital_low[0])
    return cold(
      `does not live below ${degrees(vital_low[0])}, and the coldest month has water of ${degrees(coldest)}`,
    );
  if (warmest > vital_high[0])
    return heat(
      `does not live above ${degrees(vital_high[0])}, and the warmest month has water of ${degrees(warmest)}`,
    );
  if (mean <= feed_low[0])
    return cold(
      `does not feed at ${degrees(feed_low[0])} or below, and the water has ${degrees(mean)} in the mean of the year`,
    );
  if (mean >= feed_high[0])
    return heat(
      `does not feed at ${degrees(feed_high[0])} or above, and the water has ${degrees(mean)} in the mean of the year`,
    );
  return undefined;
}

/** The sentence of a GillError; every other fault is ours. */
export function sentenceOf(thrown: unknown): string {
  if (thrown instanceof GillError) return thrown.message;
  throw thrown;
}
