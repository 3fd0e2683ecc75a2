/**
 * Oxygen that fish take from the water, and how long a tank lasts when none comes in.
 *
 * Fish that are fed use oxygen in proportion to their feed. What they use without feed sets the floor: one
 * curve for all species, laid through Nile tilapia of 100 g at 28 degC (227 mg/kg/h), with a mass exponent of
 * -0.2 and a Q10 of 2.06 (pacu from 19 to 33 degC, Aguilar et al. 2017: 2.06 and 0.788 - 1). Against what was
 * measured in other fish it lies within a third: Magadi tilapia of 10 g at 37 degC 593 mg/kg/h (here 689),
 * southern catfish at 27.5 degC 175 (here 219 at 100 g). The equation that the 227 stem from is not used
 * beyond it: it rises again above 134 g at 22 and 224 g at 28 degC.
 */
import { noAnswer, wrongValue } from './errors';
import { feedRate } from './feeding';
import type { Species } from './tables/species';

/** Least minutes within which somebody can be beside a tank and act (common practice, no source). */
export const MINUTES_TO_ACT = 30;

/** mg/L that air is sized to hold where no species needs more (common practice, no source). */
export const USUAL_OXYGEN = 5.5;

/** mg/L that air is sized to hold for species that need so much at least. */
export const oxygenToHold = (leasts: readonly number[]): number =>
  Math.max(USUAL_OXYGEN, ...leasts);

/** mg O2 for each kg of fish an hour, of unfed fish of the reference weight in water of the reference. */
export const RESTING_OXYGEN = 227;
export const RESTING_WEIGHT = 100;
export const RESTING_WATER = 28;
export const RESTING_EXPONENT = -0.2;
export const RESTING_Q10 = 2.06;

/** mg/kg/h that fish use without feed; `weight` g, `water` degC. */
export const restingOxygen = (weight: number, water: number): number =>
  RESTING_OXYGEN *
  (weight / RESTING_WEIGHT) ** RESTING_EXPONENT *
  RESTING_Q10 ** ((water - RESTING_WATER) / 10);

export interface FishGroup {
  readonly fish: number;
  /** g, the mean */
  readonly weight: number;
  readonly species: Species;
}

/**
 * g O2 an hour, as the mean of a day: by the feed, and at least what unfed fish use. Without `water` (degC)
 * the middle of the species' best range; without `feed` (g/day) that of its table. Throws #NUM! in water that kills.
 */
export function oxygenOfFish(
  { fish, weight, species }: FishGroup,
  water: number | undefined,
  feed: number | undefined,
  perFeed: number,
): number {
  const { best_low, best_high, vital_low, vital_high } = species.facts;
  const warmth = water ?? (best_low[0] + best_high[0]) / 2;
  if (warmth < vital_low[0] || warmth > vital_high[0]) {
    throw noAnswer(
      `${species.name} does not live at ${warmth} °C; it lives between ${vital_low[0]} and ${vital_high[0]} °C`,
    );
  }
  const eaten = feed ?? fish * weight * feedRate(species, weight, water);
  const resting = (fish * weight * restingOxygen(weight, warmth)) / 1e6;
  return Math.max((eaten * perFeed) / 24, resting);
}

export interface TankWithoutAir {
  /** L */
  readonly volume: number;
  /** mg/L when the supply stops, and the level that counts as trouble */
  readonly oxygen: number;
  readonly critical: number;
  /** g/h that the fish use */
  readonly use: number;
  /** g/h that still comes in, whatever the level */
  readonly supply: number;
  /** mg/L/h that bacteria in the water use */
  readonly bacteria: number;
  /** L/h of water that still comes in with `inlet` mg/L, and leaves as the tank is */
  readonly flow: number;
  readonly inlet: number | undefined;
}

const never = (settles: string): Error =>
  noAnswer(`oxygen does not fall to the critical level: ${settles}`);

/**
 * Minutes until the oxygen of a mixed tank has fallen to the critical level: volume times dC/dt is flow times
 * (inlet - C) + supply - use, solved exactly. 0 where it is there already.
 * Throws #NUM! where it never gets there.
 */
export function minutesToCritical(tank: TankWithoutAir): number {
  const { volume, oxygen, critical, use, supply, bacteria, flow, inlet } = tank;
  if (oxygen <= critical) return 0;
  const net = use + (volume * bacteria) / 1000 - supply;
  if (flow === 0) {
    if (net <= 0) throw never('the supply covers the use');
    return ((60 * volume) / 1000) * ((oxygen - critical) / net);
  }
  if (inlet === undefined) {
    throw wrongValue('inlet is missing; it must say how much oxygen the flow brings, mg/L');
  }
  const settles = inlet - (1000 * net) / flow;
  if (settles >= critical) {
    throw never(`with this flow it settles at ${settles.toFixed(1)} mg/L`);
  }
  return ((60 * volume) / flow) * Math.log((oxygen - settles) / (critical - settles));
}
