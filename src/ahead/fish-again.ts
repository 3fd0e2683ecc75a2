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
import { shiftOf } from './earlier-fish';
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

/** So few fish, or such a share of them, are no change of a row: more or fewer live than was expected. */
const FEW = 2;
const FEW_SHARE = 0.02;

const isNearly = ({ fish: was = 0 }: FishRow, { fish: now = 0 }: FishRow): boolean =>
  Math.abs(was - now) <= Math.max(FEW, FEW_SHARE * was);

/**
 * What became of each planned row: compared with the row of its kind and tank on the same day, or else the n-th of those
 * that are left with the n-th.
 */
export function changesBetween(before: readonly FishRow[], after: readonly FishRow[]): string[] {
  const byDate = (a: FishRow, b: FishRow): number => (a.date ?? 0) - (b.date ?? 0);
  const onDay = (row: FishRow): string => `${sortOf(row)} ${row.date}`;
  const days = new Set(before.map(onDay));
  const [sameDay, waiting] = [new Map<string, FishRow[]>(), new Map<string, FishRow[]>()];
  const add = (rows: Map<string, FishRow[]>, sort: string, row: FishRow): void => {
    const alike = rows.get(sort);
    if (alike === undefined) rows.set(sort, [row]);
    else alike.push(row);
  };
  for (const row of [...after].sort(byDate)) {
    if (days.has(onDay(row))) add(sameDay, onDay(row), row);
    else add(waiting, sortOf(row), row);
  }
  const changes: { date: number; text: string }[] = [];
  const say = (date: number | undefined, text: string): void => {
    changes.push({ date: date ?? 0, text });
  };
  let nearly = 0;
  for (const row of [...before].sort(byDate)) {
    const now = sameDay.get(onDay(row))?.shift() ?? waiting.get(sortOf(row))?.shift();
    const on = isoText(row.date ?? 0);
    if (now === undefined) say(row.date, `no longer: ${told(row)} on ${on}`);
    else if (now.date !== row.date) {
      say(
        now.date,
        `${told(now)} on ${isoText(now.date ?? 0)}, not on ${on}${now.fish === row.fish ? '' : `, and not ${row.fish}`}`,
      );
    } else if (isNearly(row, now)) nearly += now.fish === row.fish ? 0 : 1;
    else say(now.date, `${told(now)} on ${on}, not ${row.fish}`);
  }
  for (const row of [...sameDay.values(), ...waiting.values()].flat()) {
    say(row.date, `new: ${told(row)} on ${isoText(row.date ?? 0)}`);
  }
  return [
    ...changes.sort((a, b) => a.date - b.date).map(({ text }) => text),
    ...(nearly === 0
      ? []
      : [
          `as planned but for up to ${FEW} fish or ${100 * FEW_SHARE} %, since more or fewer live: ${nearly} ${nearly === 1 ? 'row' : 'rows'}`,
        ]),
  ];
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
  const earlier = takenBack
    .map((at) => rows[at] as FishRow)
    .filter(({ date = 0 }) => date > wishes.asOf);
  const again =
    earlier.length === 0
      ? wishes
      : { ...wishes, earlier, shift: wishes.shift ?? shiftOf(earlier, wishes.asOf) };
  const { wanted, notes } = withRows(again, standing, kept);
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
