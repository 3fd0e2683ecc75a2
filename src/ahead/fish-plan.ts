/**
 * The plan of the fish: when to stock how many, when to move how many where, and when to sell, so that no tank passes its
 * limit, sales are even and near what is wanted, and fish are handled seldom.
 */
import { type FishFarm, type FishLog, fishLog, type FishRow } from '../core/fish-log';
import { isoText } from '../core/serial-date';
import { FishCourses } from './fish-courses';
import { type Batch, emptyShare, movesOf, type PlannedRow, setOut, worthOf } from './fish-moves';
import { chooseCourses, MONTH_WEEKS } from './fish-program';
import {
  capacityOf,
  checkWanted,
  dayOfWeek,
  expectedSurvival,
  type FishWanted,
} from './fish-wanted';
import { type QuantityId, shownIn, toShown, type UnitSystem } from '../plan/quantities';
import { gapOf, type Progress, type SolveStatus, type Solver } from './solver';

export interface FishPlanOptions {
  /** Most seconds; 60 where it is left out. */
  readonly seconds?: number;
  /** Gap that is good enough, as a share; 0.01 where it is left out. */
  readonly gap?: number;
  readonly progress?: (now: Progress) => void;
  readonly stop?: () => boolean;
  /** For the figures in sentences; metric where it is left out. */
  readonly units?: UnitSystem;
}

export interface FishPlan {
  /** Planned rows of the Fish log in the order in which they are to be done, up to the last week of the plan. */
  readonly rows: readonly PlannedRow[];
  /** Those after it, until what was stocked within it is sold. */
  readonly later: readonly PlannedRow[];
  readonly batches: readonly Batch[];
  /** What the plan is worth, and what no plan of its kind can be worth more than: kg, see fish-program.ts. */
  readonly worth: number;
  readonly bound: number;
  /** (bound - worth)/bound. */
  readonly gap: number;
  readonly status: SolveStatus;
  readonly seconds: number;
  /** kg a month over the weeks from the first sale to the last that is looked at. */
  readonly kgMonth: number;
  /** Share of the tanks' weeks in which they stand empty. */
  readonly empty: number;
  /** In sentences: limits that are passed, and why; why less is sold than wanted; why no more is proven. */
  readonly reasons: readonly string[];
}

/** Share of a plan's worth beyond which the distance from the bound is explained. */
const FAR = 0.05;

const inWords = (figure: number, id: QuantityId, units: UnitSystem): string =>
  `${Number(toShown(figure, id, units).toPrecision(3))} ${shownIn(id, units).unit}`;

/** The farm as the Fish log sees it, for the forecast of a plan. */
export const farmOfPlan = (wanted: FishWanted): FishFarm => ({
  tanks: [
    ...wanted.tanks.map(({ name, volume }) => ({
      name,
      volume,
      species: wanted.species,
      coefficient: wanted.coefficient,
    })),
    ...(wanted.fixed?.others ?? []),
  ],
  water: wanted.water,
  asOf: wanted.asOf,
  dailySurvival: expectedSurvival(wanted),
});

/** What is there and what is typed for later, as rows of a log that begins on the day of the plan. */
export const stockingRows = ({ groups, asOf, fixed }: FishWanted): readonly FishRow[] =>
  fixed?.rows ??
  groups.map(({ tank, fish, weight }) => ({
    date: asOf,
    kind: 'stocked',
    tank,
    fish,
    weight,
    lot: `in ${tank} on ${isoText(asOf)}`,
  }));

/** The forecast that a plan's rows give in the Fish log. */
export const forecastOfPlan = (wanted: FishWanted, rows: readonly FishRow[]): FishLog =>
  fishLog([...stockingRows(wanted), ...rows], farmOfPlan(wanted));

/** Tanks over their limit in the forecast, each with its worst day before a row takes fish out. */
function passedLimits(wanted: FishWanted, log: FishLog, units: UnitSystem): string[] {
  const worst = new Map<string, { day: number; kg: number }>();
  for (let week = 0; week <= wanted.weeks; week++) {
    const day = dayOfWeek(wanted, week) - 1;
    log.stateOn(day).forEach((state, at) => {
      if (at >= wanted.tanks.length) return;
      const limit = capacityOf(wanted.tanks[at] as FishWanted['tanks'][number]);
      const before = worst.get(state.tank)?.kg ?? 0;
      if (state.biomass > limit + 1e-6 && state.biomass - limit > before) {
        worst.set(state.tank, { day, kg: state.biomass - limit });
      }
    });
  }
  return [...worst].map(
    ([tank, { day, kg }]) =>
      `${tank} is ${inWords(kg, 'mass', units)} over its limit on ${isoText(day)}, before its fish can be moved or sold`,
  );
}

/** Plans the fish. Throws a sentence where the figures contradict each other. */
export function planFish(
  wanted: FishWanted,
  solve: Solver,
  options: FishPlanOptions = {},
): FishPlan {
  checkWanted(wanted);
  const { seconds = 60, gap = 0.01, progress, stop, units = 'metric' } = options;
  const began = Date.now();
  const courses = new FishCourses(wanted);
  const choice = chooseCourses(courses, wanted, solve, { seconds, gap, progress, stop });
  const {
    rows: all,
    batches,
    sold,
  } = movesOf(courses, wanted, setOut(courses, wanted, choice.chosen, solve));
  const cost = batches.reduce((sum, { course }) => sum + course.cost, 0);
  const worth = worthOf(courses, wanted, sold, cost, solve);
  const end = dayOfWeek(wanted, wanted.weeks);
  const rows = all.filter(({ date }) => date < end);
  const { firstSale, horizon } = courses;
  const months = Math.max(1, horizon + 1 - firstSale) / MONTH_WEEKS;
  const fixed = [...(wanted.fixed?.sold ?? [])].filter(([week]) => week <= horizon);
  const total = [...sold, ...fixed].reduce((sum, [, kg]) => sum + kg, 0);
  const kgMonth = firstSale > horizon ? 0 : total / months;
  // What is wanted bounds a plan, too.
  const bound = Math.max(worth, choice.bound);
  const reached = gapOf(-worth, -bound) ?? Infinity;
  const reasons = passedLimits(wanted, forecastOfPlan(wanted, rows), units);
  const sellWeight = inWords(wanted.sellWeight, 'fishWeight', units);
  for (const { early, date, tank, fish, expected } of all) {
    if (!early) continue;
    reasons.push(
      `${tank}: ${fish} fish of ${inWords(expected, 'fishWeight', units)} ${fish === 1 ? 'is' : 'are'} sold early, on ${isoText(date)}, since no tank has room for them until they weigh ${sellWeight}`,
    );
  }
  if (firstSale > horizon) {
    reasons.push(
      `no fish reach ${sellWeight} within ${horizon} weeks in this water, with the growth coefficient ${wanted.coefficient}`,
    );
  } else if (kgMonth < 0.97 * wanted.kgMonth) {
    const more = Number.isFinite(reached) ? ` (${(100 * reached).toFixed(1)} % at most)` : '';
    reasons.push(
      `${inWords(kgMonth, 'massMonth', units)} of the ${inWords(wanted.kgMonth, 'massMonth', units)} wanted: what more the tanks could give${more} is told by the bound`,
    );
  }
  if (reached > FAR) {
    const byParts = gapOf(-choice.worth, -choice.bound) ?? Infinity;
    reasons.push(
      choice.status === 'limit'
        ? `a better plan may be possible: none was found, nor ruled out, in ${Math.round(choice.seconds)} seconds; give more time`
        : choice.status === 'stopped'
          ? 'the search was stopped before more was proven'
          : byParts <= FAR
            ? `with parts of fish the plan would be ${(100 * byParts).toFixed(1)} % from the bound: whole fish, which die one by one, give less`
            : `of all ways to lead the fish the best ${choice.courses} were compared: what the others could give stands in the bound`,
    );
  }
  return {
    rows,
    later: all.filter(({ date }) => date >= end),
    batches,
    worth,
    bound,
    gap: reached,
    status: choice.status,
    seconds: (Date.now() - began) / 1000,
    kgMonth,
    empty: emptyShare(wanted, batches),
    reasons,
  };
}
