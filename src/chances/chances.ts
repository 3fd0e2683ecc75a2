/** The weeks to come not as a line but as a band: many years by chance, the same for the same seed. */
import type { Farm } from '../plan/farm';
import { randomSource } from '../experience/random-source';
import { chanceYear, type Result, results, yearsAhead } from './chance-year';
import { type Input, inputs, type Spreads, spreadsOf } from './spreads';

export interface Band {
  /** A year in ten is lower, half are, nine in ten are; undefined where the farm gives no answer. */
  readonly tenth: number;
  readonly half: number;
  readonly ninetieth: number;
  /** Inputs that move it, most first, each with the share of its variance that follows it. */
  readonly movers: readonly { readonly input: Input; readonly share: number }[];
}

/** A band week by week; NaN in a week of which nothing can be said. */
export interface CourseBand {
  readonly tenth: readonly number[];
  readonly half: readonly number[];
  readonly ninetieth: readonly number[];
}

export interface Chances {
  readonly years: number;
  readonly weeks: number;
  readonly seed: number;
  readonly bands: Readonly<Partial<Record<Result, Band>>>;
  /** The same week by week, from the day of the plan: how `ChanceYear` has them. */
  readonly courses: Readonly<Partial<Record<Result, CourseBand>>>;
  readonly spreads: Spreads;
  readonly notes: readonly string[];
}

/** A quantile of sorted values, between its neighbours: type 7 of Hyndman & Fan 1996, The American Statistician 50:361. */
export function quantile(sorted: ArrayLike<number>, share: number): number {
  const at = (sorted.length - 1) * share;
  const low = Math.floor(at);
  const [a, b] = [sorted[low] as number, sorted[Math.min(low + 1, sorted.length - 1)] as number];
  return a + (at - low) * (b - a);
}

/** Square of the correlation: the share of the variance of one that follows the other in a straight line. */
export function sharedVariance(a: readonly number[], b: readonly number[]): number {
  const mean = (list: readonly number[]): number =>
    list.reduce((all, value) => all + value, 0) / list.length;
  const [x, y] = [mean(a), mean(b)];
  let [xx, yy, xy] = [0, 0, 0];
  a.forEach((value, i) => {
    const [dx, dy] = [value - x, (b[i] as number) - y];
    xx += dx * dx;
    yy += dy * dy;
    xy += dx * dy;
  });
  return xx === 0 || yy === 0 ? 0 : xy ** 2 / (xx * yy);
}

const SHARES = [0.1, 0.5, 0.9] as const;

/** Of many years that band in which eight in ten of them lie. */
function bandOf(values: Iterable<number>): { tenth: number; half: number; ninetieth: number } {
  const sorted = Float64Array.from(values).sort();
  const [tenth, half, ninetieth] = SHARES.map((share) => quantile(sorted, share)) as [
    number,
    number,
    number,
  ];
  return { tenth, half, ninetieth };
}

export interface ChancesAsked {
  readonly farm: Farm;
  readonly weeks: number;
  readonly years: number;
  readonly seed: number;
  readonly spreads?: Spreads;
}

/** Throws a sentence where the farm lacks what the forecast needs. `progress` gets the share that is done. */
export function chances(
  { farm, weeks, years, seed, spreads = spreadsOf(farm) }: ChancesAsked,
  progress: (share: number) => void = () => undefined,
): Chances {
  const ahead = yearsAhead(farm, weeks);
  const random = randomSource(seed);
  const played = Array.from({ length: years }, (_, year) => {
    if (year % 50 === 0) progress(year / years);
    return chanceYear(ahead, spreads, random);
  });
  const known = results.filter((result) =>
    played.every((year) => Number.isFinite(year.results[result])),
  );
  const bands = known.map((result) => {
    const values = played.map((year) => year.results[result]);
    const movers = inputs
      .map((input) => ({
        input,
        share: sharedVariance(
          played.map(({ draws }) => draws[input]),
          values,
        ),
      }))
      .sort((a, b) => b.share - a.share);
    return [result, { ...bandOf(values), movers }] as const;
  });
  const courses = known.map((result) => {
    const length = played[0]?.courses[result].length ?? 0;
    const weekly = Array.from({ length }, (_, week) =>
      bandOf(played.map((year) => year.courses[result][week] as number)),
    );
    return [
      result,
      {
        tenth: weekly.map(({ tenth }) => tenth),
        half: weekly.map(({ half }) => half),
        ninetieth: weekly.map(({ ninetieth }) => ninetieth),
      },
    ] as const;
  });
  return {
    years,
    weeks,
    seed,
    bands: Object.fromEntries(bands),
    courses: Object.fromEntries(courses),
    spreads,
    notes: ahead.notes,
  };
}
