/** The weeks to come of a farm in one piece of work: fish, or beds, or fish and then beds to their feed. */
import type { Farm } from '../plan/farm';
import { planBedsAgain } from './bed-again';
import { planBeds } from './bed-plan';
import { type BedReport, bedReport } from './bed-report';
import { seenFrom } from './earlier-report';
import { feedOfPlan } from './feed-of-fish';
import { fishOfFarm } from './fish-farm';
import type { PlannedRow } from './fish-moves';
import { planFish } from './fish-plan';
import { type FishReport, fishReport } from './fish-report';
import type { PlannedBatch } from './season';
import { seasonOfFarm, type SeasonWishes } from './season-of-farm';
import type { Progress, Solver } from './solver';

/** What is asked for, as plain data, so that it can be sent to a worker. */
export interface AheadAsked {
  readonly farm: Farm;
  readonly fish?: { readonly weeks: number; readonly without: readonly string[] } | undefined;
  readonly beds?:
    | (Omit<SeasonWishes, 'feed'> & {
        /** An earlier plan that is kept to. */
        readonly earlier?: readonly PlannedBatch[];
      })
    | undefined;
  /** Most seconds for each of the two. */
  readonly seconds: number;
}

export interface AheadPlanned {
  readonly fish?: { readonly report: FishReport; readonly rows: readonly PlannedRow[] };
  readonly beds?: {
    /** `changes`: what is otherwise than in the earlier plan. */
    readonly report: BedReport & { readonly changes?: readonly string[] };
    readonly plantings: readonly PlannedBatch[];
  };
}

export interface AheadHooks {
  readonly progress?: (what: 'fish' | 'beds', now: Progress) => void;
  readonly stop?: () => boolean;
}

/** Plans what is asked for. Throws a sentence where the figures contradict each other. */
export function planAhead(
  { farm, fish, beds, seconds }: AheadAsked,
  solve: Solver,
  { progress, stop }: AheadHooks = {},
): AheadPlanned {
  const options = (what: 'fish' | 'beds') => ({
    seconds,
    ...(stop && { stop }),
    ...(progress && { progress: (now: Progress) => progress(what, now) }),
  });
  let feed: ((week: number) => number) | undefined;
  let ofFish: AheadPlanned['fish'];
  if (fish) {
    const { wanted, leftOut, notes } = fishOfFarm(farm, fish);
    const plan = planFish(wanted, solve, { ...options('fish'), units: farm.units });
    ofFish = {
      report: fishReport(wanted, plan, { leftOut, notes, units: farm.units }),
      rows: plan.rows,
    };
    if (beds) feed = feedOfPlan(farm, wanted, plan);
  }
  if (!beds) return { ...(ofFish && { fish: ofFish }) };
  const { season, notes } = seasonOfFarm(farm, { ...beds, ...(feed && { feed }) });
  const before = beds.earlier && seenFrom(farm, season, beds.earlier);
  const { plan, changes } = before
    ? planBedsAgain(solve, season, before.ahead, options('beds'))
    : { plan: planBeds(solve, season, options('beds')), changes: undefined };
  const report = bedReport(farm, season, plan, [...notes, ...(before?.notes ?? [])]);
  return {
    ...(ofFish && { fish: ofFish }),
    beds: { report: { ...report, ...(changes && { changes }) }, plantings: plan.plantings },
  };
}
