/**
 * Planning again from the day of the plan: what is done stays done, rows that somebody typed stay as they are, and only
 * the planner's own rows that are still planned make room for new ones.
 */
import { fishLog, type FishRow } from '../core/fish-log';
import { isoText } from '../core/serial-date';
import { PLANNER_REMARK, type PlannedRow } from './fish-moves';
import { farmOfPlan, type FishPlan, type FishPlanOptions, planFish } from './fish-plan';
import { withRows } from './fish-facts';
import type { FishWanted } from './fish-wanted';
import { isOwnFishRow } from './planner-rows';
import type { Solver } from './solver';

/** Everything but the groups, which follow from the rows. */
export type FishWishes = Omit<FishWanted, 'groups' | 'fixed'>;

export interface FishReplan {
  readonly plan: FishPlan;
  /** The register as it is to be: kept rows in their order, then the new ones. */
  readonly rows: readonly FishRow[];
  /** Places, in the rows given, of the planner's rows that are taken back. */
  readonly takenBack: readonly number[];
  /** What the new plan does otherwise than the one before, in sentences. */
  readonly changes: readonly string[];
  /** Rows typed for later that the plan cannot follow, in sentences. */
  readonly notes: readonly string[];
}

const isPlannerRow = (row: FishRow): boolean =>
  isOwnFishRow(row) || (row.planned === true && row.remark === PLANNER_REMARK);

const told = ({ kind, fish, tank, toTank }: FishRow): string =>
  kind === 'moved'
    ? `move ${fish} fish from ${tank} to ${toTank}`
    : kind === 'stocked'
      ? `stock ${tank} with ${fish} fish`
      : `sell ${fish} fish of ${tank}`;

const sortOf = ({ kind, tank, toTank }: FishRow): string => JSON.stringify([kind, tank, toTank]);

/** What became of each planned row: the n-th of a kind and tank is compared with the n-th of the new plan. */
export function changesBetween(before: readonly FishRow[], after: readonly FishRow[]): string[] {
  const waiting = new Map<string, FishRow[]>();
  const byDate = (a: FishRow, b: FishRow): number => (a.date ?? 0) - (b.date ?? 0);
  for (const row of [...after].sort(byDate)) {
    const alike = waiting.get(sortOf(row));
    if (alike === undefined) waiting.set(sortOf(row), [row]);
    else alike.push(row);
  }
  const changes: { date: number; text: string }[] = [];
  const say = (date: number | undefined, text: string): void => {
    changes.push({ date: date ?? 0, text });
  };
  for (const row of [...before].sort(byDate)) {
    const now = waiting.get(sortOf(row))?.shift();
    const on = isoText(row.date ?? 0);
    if (now === undefined) say(row.date, `no longer: ${told(row)} on ${on}`);
    else if (now.date !== row.date) {
      say(
        now.date,
        `${told(now)} on ${isoText(now.date ?? 0)}, not on ${on}${now.fish === row.fish ? '' : `, and not ${row.fish}`}`,
      );
    } else if (now.fish !== row.fish) say(now.date, `${told(now)} on ${on}, not ${row.fish}`);
  }
  for (const row of [...waiting.values()].flat()) {
    say(row.date, `new: ${told(row)} on ${isoText(row.date ?? 0)}`);
  }
  return changes.sort((a, b) => a.date - b.date).map(({ text }) => text);
}

/** Plans again from the register's rows. */
export function planAgain(
  rows: readonly FishRow[],
  wishes: FishWishes,
  solve: Solver,
  options: FishPlanOptions = {},
): FishReplan {
  const takenBack = rows.flatMap((row, at) => (isPlannerRow(row) ? [at] : []));
  const kept = rows.filter((row) => !isPlannerRow(row));
  const farm = farmOfPlan({ ...wishes, groups: [] });
  const standing = fishLog(kept, farm)
    .stateOn(wishes.asOf)
    .flatMap(({ tank, fish, weight }) => (fish > 0 ? [{ tank, fish, weight }] : []));
  const { wanted, notes } = withRows(wishes, standing, kept);
  const plan = planFish(wanted, solve, options);
  const fresh: readonly PlannedRow[] = plan.rows;
  return {
    plan,
    rows: [...kept, ...fresh],
    takenBack,
    changes: changesBetween(
      takenBack.map((at) => rows[at] as FishRow),
      fresh,
    ),
    notes,
  };
}
