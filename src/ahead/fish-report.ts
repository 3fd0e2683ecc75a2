/** A plan of the fish as data: what a program reads from a report. Dates are yyyy-mm-dd, weights g, masses kg. */
import { isoText } from '../core/serial-date';
import type { LeftOut } from './fish-farm';
import { type FishPlan, forecastOfPlan } from './fish-plan';
import { dayOfWeek, type FishWanted } from './fish-wanted';

const rounded = (value: number, digits = 1): number => Number(value.toFixed(digits));

/** Nothing is fed the day before fish are handled, so that they come through it. */
const unfed = (date: number): string => isoText(date - 1);

export function fishReport(wanted: FishWanted, plan: FishPlan, leftOut: readonly LeftOut[] = []) {
  const log = forecastOfPlan(wanted, plan.rows);
  const { rows } = plan;
  return {
    asOf: isoText(wanted.asOf),
    weeks: wanted.weeks,
    species: wanted.species.name,
    wantedKgMonth: wanted.kgMonth,
    plannedKgMonth: rounded(plan.kgMonth),
    groups: [
      ...wanted.groups.map(({ tank, fish, weight }) => ({
        from: 'standing',
        date: isoText(wanted.asOf),
        tank,
        fish,
        weight: rounded(weight),
      })),
      ...rows
        .filter(({ kind }) => kind === 'stocked')
        .map(({ date, tank, fish, expected, lot }) => ({
          from: 'stocked',
          lot,
          date: isoText(date),
          tank,
          fish,
          weight: rounded(expected),
        })),
    ],
    moves: rows
      .filter(({ kind }) => kind === 'moved')
      .map(({ date, tank, toTank, fish, expected }) => ({
        date: isoText(date),
        noFeed: unfed(date),
        from: tank,
        to: toTank,
        fish,
        weight: rounded(expected),
      })),
    sales: rows
      .filter(({ kind }) => kind === 'sold')
      .map(({ date, tank, fish, expected, early }) => ({
        date: isoText(date),
        noFeed: unfed(date),
        tank,
        fish,
        weight: rounded(expected),
        kg: rounded((fish * expected) / 1000),
        ...(early && { early }),
      })),
    tanks: wanted.tanks.map(({ name, volume, density }) => ({ name, volume, limit: density })),
    leftOut,
    // On the last day of each week, before fish are handled: as full as the tank gets in it.
    density: Array.from({ length: wanted.weeks + 1 }, (_, week) => {
      const day = dayOfWeek(wanted, week) - 1;
      return {
        week,
        date: isoText(day),
        tanks: Object.fromEntries(
          log.stateOn(day).map(({ tank, density = 0 }) => [tank, rounded(density, 2)]),
        ),
      };
    }),
    // kg that the plan is worth, what no plan of its kind can exceed, and how far apart they are.
    objective: rounded(plan.worth),
    bound: rounded(plan.bound),
    gap: rounded(plan.gap, 4),
    status: plan.status,
    seconds: rounded(plan.seconds),
    empty: rounded(plan.empty, 3),
    reasons: plan.reasons,
  };
}

export type FishReport = ReturnType<typeof fishReport>;
