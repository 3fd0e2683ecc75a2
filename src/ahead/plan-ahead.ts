/** The weeks to come of a farm in one piece of work: fish, or beds, or fish and then beds to their feed. */
import type { FishRow } from '../core/fish-log';
import type { Farm, FishLogEntry, PlantingEntry } from '../plan/farm';
import { fishRowsOf } from '../plan/registers-of-farm';
import { planBedsAgain } from './bed-again';
import { planBeds } from './bed-plan';
import { type BedReport, bedReport } from './bed-report';
import { batchesOfRows, seenFrom } from './earlier-report';
import { feedOfPlan } from './feed-of-fish';
import { changesBetween } from './fish-again';
import { fishOfFarm } from './fish-farm';
import type { PlannedRow } from './fish-moves';
import { planFish } from './fish-plan';
import { type FishReport, fishReport } from './fish-report';
import type { GradingWish } from './graded-row';
import { ownRows, withoutRows } from './planner-rows';
import type { PlannedBatch } from './season';
import { seasonOfFarm, type SeasonWishes } from './season-of-farm';
import { shortDayNotes } from './short-days';
import type { Progress, Solver } from './solver';

/** What is asked for, as plain data, so that it can be sent to a worker. */
export interface AheadAsked {
  readonly farm: Farm;
  readonly fish?:
    | {
        readonly weeks: number;
        readonly without: readonly string[];
        readonly grade?: GradingWish;
        /** Rows of an earlier plan, from which changes are told. */
        readonly earlier?: readonly FishRow[];
      }
    | undefined;
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
  readonly fish?: {
    /** `changes`: what is otherwise than in the earlier plan. */
    readonly report: FishReport & { readonly changes?: readonly string[] };
    readonly rows: readonly PlannedRow[];
  };
  readonly beds?: {
    readonly report: BedReport & { readonly changes?: readonly string[] };
    readonly plantings: readonly PlannedBatch[];
  };
}

export interface AheadHooks {
  readonly progress?: (what: 'fish' | 'beds', now: Progress) => void;
  readonly stop?: () => boolean;
}

/** Rows in their order; a grading before what the plan does on its day. */
const withGraded = (rows: readonly PlannedRow[], graded: PlannedRow): readonly PlannedRow[] => [
  ...rows.filter(({ date }) => date < graded.date),
  graded,
  ...rows.filter(({ date }) => date >= graded.date),
];

/** Plans what is asked for. Throws a sentence where the figures contradict each other. */
export function planAhead(
  { farm: asked, fish, beds, seconds }: AheadAsked,
  solve: Solver,
  { progress, stop }: AheadHooks = {},
): AheadPlanned {
  const options = (what: 'fish' | 'beds') => ({
    seconds,
    ...(stop && { stop }),
    ...(progress && { progress: (now: Progress) => progress(what, now) }),
  });
  // Rows of an earlier plan that nobody touched make room for the new one.
  const own = ownRows(asked, 'ahead');
  const farm = withoutRows(asked, own);
  let feed: ((week: number) => number) | undefined;
  let ofFish: AheadPlanned['fish'];
  // Of a farm without tanks the beds can be planned alone.
  const fishless = fish !== undefined && beds !== undefined && farm.tanks.length === 0;
  if (fish && !fishless) {
    const before = fishRowsOf(own.fishLog.map((at) => asked.fishLog[at] as FishLogEntry));
    const rowsBefore = (fish.earlier ?? (before.length > 0 ? before : undefined))?.filter(
      ({ date }) => (date ?? 0) > farm.asOf,
    );
    const { wanted, leftOut, notes, graded } = fishOfFarm(farm, { ...fish, earlier: rowsBefore });
    const plan = planFish(wanted, solve, { ...options('fish'), units: farm.units });
    const rows = graded === undefined ? plan.rows : withGraded(plan.rows, graded);
    const report = fishReport(wanted, { ...plan, rows }, { leftOut, notes, units: farm.units });
    const changes = rowsBefore && changesBetween(rowsBefore, plan.rows);
    ofFish = { report: { ...report, ...(changes && { changes }) }, rows };
    if (beds) feed = feedOfPlan(farm, wanted, plan);
  }
  if (!beds) return { ...(ofFish && { fish: ofFish }) };
  const { season, notes } = seasonOfFarm(farm, { ...beds, ...(feed && { feed }) });
  const rowsBefore = own.plantings.map((at) => asked.plantings[at] as PlantingEntry);
  const earlier =
    beds.earlier ?? (rowsBefore.length > 0 ? batchesOfRows(farm, rowsBefore) : undefined);
  const before = earlier && seenFrom(farm, season, earlier);
  const { plan, changes } = before
    ? planBedsAgain(solve, season, before.ahead, options('beds'))
    : { plan: planBeds(solve, season, options('beds')), changes: undefined };
  const report = bedReport(farm, season, plan, [
    ...(fishless ? ['the farm has no tanks: the beds are planned alone, to no feed'] : []),
    ...notes,
    ...(before?.notes ?? []),
    ...(farm.site.latitude === undefined ? [] : shortDayNotes(farm.site.latitude, plan.plantings)),
  ]);
  return {
    ...(ofFish && { fish: ofFish }),
    beds: { report: { ...report, ...(changes && { changes }) }, plantings: plan.plantings },
  };
}
