/** A plan of the fish as data: what a program reads from a report. Dates are yyyy-mm-dd, figures in the farm's units. */
import type { FishLog } from '../core/fish-log';
import { isoText } from '../core/serial-date';
import { type QuantityId, shownIn, toShown, type UnitSystem } from '../plan/quantities';
import type { LeftOut } from './fish-farm';
import { type FishPlan, forecastOfPlan } from './fish-plan';
import { dayOfWeek, type FishWanted } from './fish-wanted';

const rounded = (value: number, digits = 1): number => Number(value.toFixed(digits));

/** Nothing is fed the day before fish are handled, so that they come through it. */
const unfed = (date: number): string => isoText(date - 1);

export function fishReport(
  wanted: FishWanted,
  plan: FishPlan,
  {
    leftOut = [],
    notes = [],
    units = 'metric',
  }: { leftOut?: readonly LeftOut[]; notes?: readonly string[]; units?: UnitSystem } = {},
) {
  const shown = (id: QuantityId, digits = 1) => {
    const more = units === 'US' && id !== 'volume' && id !== 'mass' && id !== 'massMonth' ? 2 : 0;
    return (figure: number): number => rounded(toShown(figure, id, units), digits + more);
  };
  const grams = shown('fishWeight');
  const kilograms = shown('mass');
  const month = shown('massMonth');
  const unit = (id: QuantityId): string => shownIn(id, units).unit;
  const { rows } = plan;
  /** Of known weight: a grading, which stands among what is fixed, too. */
  const isGraded = ({ kind, weight }: (typeof rows)[number]): boolean =>
    kind !== 'stocked' && weight !== undefined;
  const log = forecastOfPlan(
    wanted,
    rows.filter((row) => !isGraded(row)),
  );
  return {
    asOf: isoText(wanted.asOf),
    weeks: wanted.weeks,
    species: wanted.species.name,
    units: {
      weight: unit('fishWeight'),
      mass: unit('mass'),
      month: unit('massMonth'),
      volume: unit('volume'),
      density: unit('density'),
      feed: unit('feedDay'),
    },
    wantedMonth: month(wanted.kgMonth),
    plannedMonth: month(plan.kgMonth),
    groups: [
      ...wanted.groups.map(({ tank, fish, weight, on = wanted.asOf }) => ({
        from: on > wanted.asOf ? 'rows of the Fish log' : 'standing',
        date: isoText(on),
        tank,
        fish,
        weight: grams(weight),
      })),
      ...rows
        .filter(({ kind }) => kind === 'stocked')
        .map(({ date, tank, fish, expected, lot }) => ({
          from: 'stocked',
          lot,
          date: isoText(date),
          tank,
          fish,
          weight: grams(expected),
        })),
    ],
    moves: rows
      .filter(({ kind }) => kind === 'moved')
      .map((row) => ({
        date: isoText(row.date),
        noFeed: unfed(row.date),
        from: row.tank,
        to: row.toTank,
        fish: row.fish,
        weight: grams(row.expected),
        ...(isGraded(row) && { graded: true }),
      })),
    sales: rows
      .filter(({ kind }) => kind === 'sold')
      .map((row) => ({
        date: isoText(row.date),
        noFeed: unfed(row.date),
        tank: row.tank,
        fish: row.fish,
        weight: grams(row.expected),
        mass: kilograms((row.fish * row.expected) / 1000),
        ...(row.early && { early: row.early }),
        ...(isGraded(row) && { graded: true }),
      })),
    tanks: wanted.tanks.map(({ name, volume, density }) => ({
      name,
      volume: shown('volume', 0)(volume),
      limit: shown('density')(density),
    })),
    leftOut,
    // On the last day of each week, before fish are handled: as full as the tank gets in it.
    density: Array.from({ length: wanted.weeks + 1 }, (_, week) => {
      const day = dayOfWeek(wanted, week) - 1;
      return {
        week,
        date: isoText(day),
        tanks: Object.fromEntries(
          log
            .stateOn(day)
            .slice(0, wanted.tanks.length)
            .map(({ tank, density = 0 }) => [tank, shown('density', 2)(density)]),
        ),
      };
    }),
    // On the day that begins each week.
    feed: feedByWeek(log, wanted.weeks).map((feed, week) => ({
      week,
      date: isoText(wanted.asOf + 7 * week),
      feed: shown('feedDay')(feed),
    })),
    // Mass that the plan is worth, what no plan of its kind can exceed, and how far apart they are.
    objective: kilograms(plan.worth),
    bound: kilograms(plan.bound),
    gap: rounded(plan.gap, 4),
    status: plan.status,
    seconds: rounded(plan.seconds),
    empty: rounded(plan.empty, 3),
    reasons: plan.reasons,
    notes,
  };
}

function feedByWeek(log: FishLog, weeks: number): number[] {
  const all = Array.from({ length: weeks + 1 }, () => 0);
  for (const { week, feed } of log.weeks(weeks)) all[week] = (all[week] as number) + feed;
  return all;
}

export type FishReport = ReturnType<typeof fishReport>;
