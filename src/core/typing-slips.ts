/** Figures that are ten times too large or too small among their neighbours: a point that slipped. */

export interface SeriesPoint {
  readonly day: number;
  /** Above 0. */
  readonly value: number;
}

/** Neighbours on both sides together by which a figure is judged; fewer say too little. */
const NEIGHBOURS = 6;
const FEWEST = 4;

/** Half of ten on a scale of ratios: nearer to ten times than to once. */
export const HALF_OF_TEN = Math.log(10) / 2;

/** Of the spread that neighbours have anyway, a slip is this many times as far. */
const BEYOND = 3.5;

/** From the median absolute deviation to the standard deviation of a normal distribution. */
const NORMAL = 1.4826;

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const high = sorted[half] as number;
  return sorted.length % 2 === 1 ? high : ((sorted[half - 1] as number) + high) / 2;
};

export interface Slip {
  readonly at: number;
  /** What the neighbours have in the middle. */
  readonly usual: number;
}

/** Places in `points` of figures that stand ten times off, with what is usual there. */
export function slipsOfTen(points: readonly SeriesPoint[]): Slip[] {
  if (points.length <= FEWEST) return [];
  const order = points.map((point, at) => ({ ...point, at })).sort((a, b) => a.day - b.day);
  const near = order.map((_, i) => {
    const first = Math.max(0, Math.min(i - NEIGHBOURS / 2, order.length - 1 - NEIGHBOURS));
    const others = order.slice(first, first + NEIGHBOURS + 1).filter((other) => other !== order[i]);
    return median(others.map(({ value }) => Math.log(value)));
  });
  const off = order.map(({ value }, i) => Math.log(value) - (near[i] as number));
  const spread = NORMAL * median(off.map(Math.abs));
  const far = Math.max(HALF_OF_TEN, Math.min(BEYOND * spread, Math.log(6)));
  return order.flatMap(({ at }, i) =>
    Math.abs(off[i] as number) >= far ? [{ at, usual: Math.exp(near[i] as number) }] : [],
  );
}

/** Fish that are weighed grow: between weighings a weight may rise, and falls only a little. */
const RISES_IN_30_DAYS = 6;
const FALLS = 2;

/**
 * Of weighings of the same fish, in the order of their days, the steps that no fish takes: places of the later
 * weighing of each.
 */
export function impossibleSteps(points: readonly SeriesPoint[]): number[] {
  return points.flatMap(({ day, value }, i) => {
    const before = points[i - 1];
    if (before === undefined) return [];
    const ratio = value / before.value;
    const most = RISES_IN_30_DAYS ** Math.max(1, (day - before.day) / 30);
    // Small fish multiply their weight in a month, large ones do not.
    const held =
      before.value > 50 ? Math.min(most, 3.2 ** Math.max(1, (day - before.day) / 30)) : most;
    return ratio > held || ratio < 1 / FALLS ? [i] : [];
  });
}
