/** Feed that the fish of a farm are given in the weeks to come: what the beds are planned to. */
import { feedRate } from '../core/feeding';
import { waterOn } from '../core/month-water';
import type { Farm } from '../plan/farm';
import { type FishPlan, forecastOfPlan } from './fish-plan';
import { speciesOf } from './own-tables';
import type { FishWanted } from './fish-wanted';
import { monthWater } from './needed';

/** Last weeks of the plan whose mean stands for those after it. */
const LAST_WEEKS = 8;

/** Feed of tanks as they stand on a day, g/day; those that are named alone. */
function feedAsStanding(farm: Farm, names: ReadonlySet<string>, day: number): number {
  return farm.tanks.reduce((sum, { name, species, fish, weight }) => {
    if (!names.has(name) || fish === 0 || weight === undefined) return sum;
    const kind = speciesOf(farm, species);
    const water = waterOn(monthWater(farm), day);
    return sum + fish * weight * feedRate(kind, weight, water, kind.facts.tgc[0]);
  }, 0);
}

/** Feed of today for all fish of the farm, g/day. */
export const feedToday = (farm: Farm): number =>
  feedAsStanding(farm, new Set(farm.tanks.map(({ name }) => name)), farm.asOf);

/**
 * Feed by week of a plan of the fish, g/day on the day that begins it, counted from the day of the plan. Tanks that
 * were left out of the plan are fed as they stand today; after the weeks of the plan the mean of its last ones goes on.
 */
export function feedOfPlan(
  farm: Farm,
  wanted: FishWanted,
  plan: Pick<FishPlan, 'rows' | 'later'>,
): (week: number) => number {
  const planned = new Set(
    [...wanted.tanks, ...(wanted.fixed?.others ?? [])].map(({ name }) => name),
  );
  const others = new Set(farm.tanks.flatMap(({ name }) => (planned.has(name) ? [] : [name])));
  const apart = feedAsStanding(farm, others, farm.asOf);
  const log = forecastOfPlan(wanted, [...plan.rows, ...plan.later]);
  const weeks = Array.from({ length: wanted.weeks }, () => apart);
  for (const { week, feed } of log.weeks(wanted.weeks - 1)) {
    weeks[week] = (weeks[week] as number) + feed;
  }
  const last = weeks.slice(-LAST_WEEKS);
  const goesOn = last.reduce((sum, feed) => sum + feed, 0) / Math.max(1, last.length);
  return (week) => weeks[week] ?? goesOn;
}
