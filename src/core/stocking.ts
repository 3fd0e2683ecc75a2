/** How many fish a tank holds, what becomes of them week by week, and tanks stocked in turn. */
import { noAnswer } from './errors';
import { feedRate } from './feeding';
import { daysToGrow, growingTemperature, grownWeight } from './growth';
import type { Species } from './tables/species';
import { roundDownToWhole, roundUpToWhole } from './whole';

/** Most fish of `weight` g in `volume` L at `density` kg/m3. */
export const stockLimit = (volume: number, weight: number, density: number): number =>
  roundDownToWhole((volume * density) / weight);

/** kg/m3: fish are as heavy as water, and a tank holds no more of them than water. */
export const SOLID_FISH = 1000;

/** kg/m3; `weight` in g, `volume` in L: of records and forecasts, which say themselves what no tank holds. */
export const densityOf = (fish: number, weight: number, volume: number): number =>
  (fish * weight) / volume;

/** As `densityOf`. Throws #NUM! where the fish alone would fill more than the tank. */
export function stockDensity(fish: number, weight: number, volume: number): number {
  const density = densityOf(fish, weight, volume);
  if (density <= SOLID_FISH) return density;
  throw noAnswer(
    `${fish} fish of ${weight} g weigh ${Number(((fish * weight) / 1000).toPrecision(4))} kg, more than the ${volume} L of water themselves; give the volume in L and the weight of one fish in g`,
  );
}

/** Fish to stock so that `harvest` are left when a share of `survival` lives. */
export const fishToStock = (harvest: number, survival: number): number =>
  roundUpToWhole(harvest / survival);

export interface ForecastRow {
  /** 0 is now. */
  readonly week: number;
  /** Not rounded: the share that lives, times the fish stocked. */
  readonly fish: number;
  /** g */
  readonly weight: number;
  /** kg */
  readonly biomass: number;
  /** g/day for the whole group in the week that begins here. */
  readonly feed: number;
}

/**
 * One row for now and one after each week. `waters` holds one temperature, or one for each week at least;
 * the last row's feed is that of the last week's water. `survival` is the share that lives over the whole
 * time, lost evenly.
 */
export function forecast(
  start: { readonly fish: number; readonly weight: number },
  weeks: number,
  waters: readonly number[],
  survival: number,
  kind: Species,
  {
    coefficient,
    conversion,
  }: { readonly coefficient: number; readonly conversion?: number | undefined },
): ForecastRow[] {
  const waterOf = (week: number): number =>
    (waters.length === 1 ? waters[0] : waters[Math.min(week, weeks - 1)]) as number;
  const rows: ForecastRow[] = [];
  let weight = start.weight;
  for (let week = 0; week <= weeks; week++) {
    const fish = start.fish * survival ** (week / weeks);
    const water = waterOf(week);
    rows.push({
      week,
      fish,
      weight,
      biomass: (fish * weight) / 1000,
      feed: fish * weight * feedRate(kind, weight, water, coefficient, conversion),
    });
    weight = grownWeight(weight, 7, growingTemperature(kind, water), coefficient);
  }
  return rows;
}

/** Mean month and year of the calendar, days. */
export const MONTH = 30.4375;
export const YEAR = 365.25;

/** g: smaller fry are reared apart before they are stocked in turn. */
export const MIN_BATCH_WEIGHT = 0.5;

export interface RotationWanted {
  /** kg/month */
  readonly harvest: number;
  /** g, more than `startWeight` */
  readonly harvestWeight: number;
  /** g, at least MIN_BATCH_WEIGHT */
  readonly startWeight: number;
  /** degC, where the fish feed */
  readonly water: number;
  readonly kind: Species;
  readonly coefficient: number;
  /** Share alive at harvest. */
  readonly survival: number;
  /** kg/m3 at harvest */
  readonly density: number;
  /** Batches that grow at the same time, each in its own tank. */
  readonly tanks: number;
}

export interface Rotation {
  readonly daysInTank: number;
  readonly weeksBetween: number;
  readonly stocked: number;
  readonly harvested: number;
  /** kg */
  readonly batch: number;
  /** L for each batch */
  readonly volume: number;
  /** kg in all tanks just before a harvest */
  readonly standing: number;
  /** g/day for all tanks */
  readonly meanFeed: number;
  readonly peakFeed: number;
  readonly fingerlings: number;
}

/**
 * Tanks stocked in turn at even intervals, each batch staying in its tank from stocking to harvest.
 * Mean feed is the average over the time between two harvests (Simpson's rule with the state after, midway
 * and before); peak feed is that just before a harvest.
 */
export function rotation(wanted: RotationWanted): Rotation {
  const { kind, water, tanks, survival, startWeight, harvestWeight } = wanted;
  const daysInTank = daysToGrow(
    startWeight,
    harvestWeight,
    growingTemperature(kind, water),
    wanted.coefficient,
  );
  const daysBetween = daysInTank / tanks;
  const harvested = roundUpToWhole((wanted.harvest * daysBetween * 1000) / (MONTH * harvestWeight));
  const stocked = fishToStock(harvested, survival);
  const batch = (harvested * harvestWeight) / 1000;

  const startRoot = Math.cbrt(startWeight);
  const rise = Math.cbrt(harvestWeight) - startRoot;
  const weightAt = (age: number): number => (startRoot + rise * age) ** 3;
  const gramsAt = (age: number): number => stocked * survival ** age * weightAt(age);
  const feedAt = (age: number): number =>
    gramsAt(age) * feedRate(kind, weightAt(age), water, wanted.coefficient);
  let standing = 0;
  let before = 0;
  let midway = 0;
  for (let place = 1; place <= tanks; place++) {
    standing += gramsAt(place / tanks);
    before += feedAt(place / tanks);
    midway += feedAt((place - 0.5) / tanks);
  }
  const after = before - feedAt(1) + feedAt(0);
  return {
    daysInTank,
    weeksBetween: daysBetween / 7,
    stocked,
    harvested,
    batch,
    volume: (batch / wanted.density) * 1000,
    standing: standing / 1000,
    meanFeed: (after + 4 * midway + before) / 6,
    peakFeed: before,
    fingerlings: (stocked * YEAR) / daysBetween,
  };
}
