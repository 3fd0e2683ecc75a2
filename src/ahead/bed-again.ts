/** Planning the beds again from a later day: what is sown stays, and what changes is said. */
import { isoText } from '../core/serial-date';
import type { BedPlan, BedPlanOptions } from './bed-plan';
import { planBeds } from './bed-plan';
import type { PlannedBatch, Season } from './season';
import type { Solver } from './solver';

export interface BedReplan {
  readonly plan: BedPlan;
  /** What the new plan does otherwise than the one before, in sentences, by day. */
  readonly changes: readonly string[];
}

const key = ({ crop, bed, plantedOut }: PlannedBatch): string =>
  JSON.stringify([crop, bed, plantedOut]);

/** What became of each planting of an earlier plan: the same crop in the same bed on the same day is the same. */
export function bedChangesBetween(
  before: readonly PlannedBatch[],
  after: readonly PlannedBatch[],
): string[] {
  const now = new Map(after.map((planting) => [key(planting), planting]));
  const was = new Set(before.map(key));
  const told = ({ crop, bed, plants }: PlannedBatch): string => `${plants} ${crop} into ${bed}`;
  const changes = [
    ...before.flatMap((old) => {
      const on = isoText(old.plantedOut);
      const fresh = now.get(key(old));
      if (fresh === undefined) {
        return [{ day: old.plantedOut, text: `no longer: ${told(old)} on ${on}` }];
      }
      if (fresh.plants === old.plants) return [];
      return [{ day: old.plantedOut, text: `${told(fresh)} on ${on}, not ${old.plants}` }];
    }),
    ...after.flatMap((planting) =>
      was.has(key(planting))
        ? []
        : [
            {
              day: planting.plantedOut,
              text: `new: ${told(planting)} on ${isoText(planting.plantedOut)}`,
            },
          ],
    ),
  ];
  return changes.sort((a, b) => a.day - b.day).map(({ text }) => text);
}

/**
 * Plans a season again. `earlier`: what of the plan before is not planted out yet, without what was lost, its
 * dates as they are expected now.
 */
export function planBedsAgain(
  solve: Solver,
  season: Season,
  earlier: readonly PlannedBatch[],
  options: BedPlanOptions = {},
): BedReplan {
  const end = season.from + 7 * season.weeks;
  const ahead = earlier.filter(({ plantedOut }) => plantedOut >= season.from && plantedOut < end);
  const plan = planBeds(solve, season, { ...options, earlier: ahead });
  return { plan, changes: bedChangesBetween(ahead, plan.plantings) };
}
