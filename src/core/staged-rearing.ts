/**
 * Rearing in stages: fish move on into more water each time their tanks are full, so that no water stands empty
 * while they are small. Arithmetic of the water alone: whole tanks and the weeks of a real year are for a plan.
 */
import { daysToGrow } from './growth';
import { YEAR } from './stocking';
import { roundUpToWhole } from './whole';

export interface StagedRearing {
  readonly stages: readonly {
    readonly days: number;
    /** Tanks of the stage where a batch is sold every `interval` days. */
    readonly tanks: number;
  }[];
  readonly days: number;
  /** Sold a year from each m3 of tank, kg/m3/year, and what it would be with one tank from stocking to sale. */
  readonly output: number;
  readonly allInAllOut: number;
}

/**
 * @param weights at stocking, at each move and at sale, g
 * @param density at the end of each stage, kg/m3
 * @param temperature see growingTemperature
 * @param interval days between two sales
 */
export function stagedRearing({
  weights,
  density,
  temperature,
  coefficient,
  interval,
}: {
  readonly weights: readonly number[];
  readonly density: number;
  readonly temperature: number;
  readonly coefficient: number;
  readonly interval: number;
}): StagedRearing {
  const end = weights[weights.length - 1] as number;
  let waterDays = 0;
  const stages = weights.slice(1).map((to, at) => {
    const days = daysToGrow(weights[at] as number, to, temperature, coefficient);
    waterDays += ((to / end) * days) / density;
    return { days, tanks: roundUpToWhole(days / interval) };
  });
  const days = stages.reduce((sum, stage) => sum + stage.days, 0);
  return { stages, days, output: YEAR / waterDays, allInAllOut: (density * YEAR) / days };
}

/** Tanks of `volume` L that hold `fish` of `weight` g at a density, kg/m3. */
export const tanksFor = (fish: number, weight: number, volume: number, density: number): number =>
  roundUpToWhole((fish * weight) / (volume * density));
