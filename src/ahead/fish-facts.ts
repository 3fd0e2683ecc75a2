/**
 * Rows of the Fish log for days to come as facts of a plan: a tank of which they speak is theirs until the last of
 * them is done; what it holds then, or that it is empty, is where the planner goes on.
 */
import { fishLog, type FishRow, type FishTank } from '../core/fish-log';
import { isoText } from '../core/serial-date';
import { farmOfPlan } from './fish-plan';
import { dayOfWeek, firstWeekAfter, type FishWanted, type GroupInTank } from './fish-wanted';

/** A week that is in no plan. */
const NEVER = 1e6;

const key = (name: string): string => name.trim().toLowerCase();

/** A row that is to change nothing before its figures are known. */
const isOpenLook = ({ kind, fish, weight }: FishRow): boolean =>
  (kind === 'weighed' && weight === undefined) || (kind === 'counted' && fish === undefined);

/** Of a register: what is meant to happen from the day of the plan on. */
const isAhead = ({ date, planned }: FishRow, asOf: number): boolean =>
  date !== undefined && (date > asOf || (planned === true && date === asOf));

export interface FishFacts {
  readonly wanted: FishWanted;
  /** What the reader must know, in sentences. */
  readonly notes: readonly string[];
}

/**
 * A wish with what stands in the tanks and what is typed for later.
 *
 * @param standing what all tanks hold on the day of the plan, `others` among them
 * @param register rows of the Fish log; those of days that are gone count in `standing`
 * @param others tanks that are not planned for
 */
export function withRows(
  wishes: Omit<FishWanted, 'groups' | 'fixed'>,
  standing: readonly GroupInTank[],
  register: readonly FishRow[],
  others: readonly FishTank[] = [],
): FishFacts {
  const { asOf } = wishes;
  const ahead = register
    .filter((row) => isAhead(row, asOf) && !isOpenLook(row))
    .map((row): FishRow => ({ ...row, planned: true }));
  const began = standing.map(({ tank, fish, weight }): FishRow => {
    const lot = `in ${tank} on ${isoText(asOf)}`;
    return { date: asOf, kind: 'stocked', tank, fish, weight, lot };
  });
  const farm = farmOfPlan({ ...wishes, groups: [], fixed: { rows: [], others, sold: new Map() } });
  const rows = [...began, ...ahead];
  const log = fishLog(rows, farm);
  const notes: string[] = [];
  const until = new Map<string, number>();
  const sold = new Map<number, number>();
  const planned = new Set(wishes.tanks.map(({ name }) => key(name)));
  ahead.forEach((row, at) => {
    const outcome = log.rows[began.length + at];
    const date = row.date as number;
    // A row that cannot be keeps its tanks, too: with fish of the plan in them it could.
    if (outcome?.status === 'impossible') {
      notes.push(
        `the Fish log's row of ${isoText(date)} (${row.kind} ${row.tank}) cannot be: ${outcome.problem}; the plan does without it`,
      );
    }
    if (outcome?.doubt !== undefined) notes.push(`Fish log, ${isoText(date)}: ${outcome.doubt}`);
    for (const name of [row.tank, row.toTank]) {
      if (name !== undefined && name.trim() !== '') {
        until.set(key(name), Math.max(until.get(key(name)) ?? 0, date));
      }
    }
    if (
      outcome?.status === 'planned' &&
      row.kind === 'sold' &&
      planned.has(key(row.tank as string))
    ) {
      const week = Math.max(0, Math.round((date - dayOfWeek(wishes, 0)) / 7));
      const kg = ((outcome.fish ?? 0) * (outcome.weight ?? 0)) / 1000;
      sold.set(week, (sold.get(week) ?? 0) + kg);
    }
  });
  const tanks = wishes.tanks.map((tank) => {
    const day = until.get(key(tank.name));
    if (day === undefined) return tank;
    const week = firstWeekAfter(wishes, day);
    // Rows that reach beyond the weeks of the plan keep the tank for all of them.
    return { ...tank, freeFrom: week < wishes.weeks ? week : NEVER };
  });
  const groups = tanks.flatMap((tank, at): FishWanted['groups'][number][] => {
    const day = until.get(key(tank.name));
    if (day === undefined) return standing.filter((group) => group.tank === tank.name);
    const state = log.stateOn(day)[at];
    if (state === undefined || state.fish === 0 || tank.freeFrom === NEVER) return [];
    const { fish, weight } = state;
    return [{ tank: tank.name, fish, weight, on: day }];
  });
  return {
    wanted: {
      ...wishes,
      tanks,
      groups,
      ...(ahead.length > 0 && { fixed: { rows, others, sold } }),
    },
    notes,
  };
}
