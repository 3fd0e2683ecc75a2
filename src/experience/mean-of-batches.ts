/** What several batches say together. */
import type { Interval } from '../core/certainty';
import { wrongValue } from '../core/errors';
import { nineInTen } from '../core/students-t';

export interface BatchMean {
  readonly batches: number;
  readonly mean: number;
  /** Lowest and highest of the batches. */
  readonly range: Interval;
  /** Standard deviation from batch to batch; undefined where there is one batch. */
  readonly spread: number | undefined;
}

export function meanOf(values: readonly number[]): BatchMean {
  const batches = values.length;
  if (batches === 0) throw wrongValue('a mean needs one batch or more; got none');
  const mean = values.reduce((sum, value) => sum + value, 0) / batches;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    batches,
    mean,
    range: [Math.min(...values), Math.max(...values)],
    spread: batches > 1 ? Math.sqrt(squares / (batches - 1)) : undefined,
  };
}

/** Shares lie between 0 and 1; amounts are never below 0. */
export type Measured = 'share' | 'amount';

/** Fewer neighbours say nothing of how much they share. */
const MIN_NEIGHBOURS = 5;

/**
 * The variance of the mean of values in their order, over what it would be if they were independent: with neighbours
 * that share a measurement, what it errs by is taken from one and given to the next. Newey and West 1987, Econometrica
 * 55:703-708, with one lag, which counts half: the estimate is never below 0.
 */
function sharedVariance(values: readonly number[]): number {
  if (values.length < MIN_NEIGHBOURS) return 1;
  const { mean } = meanOf(values);
  const off = values.map((value) => value - mean);
  const squares = off.reduce((sum, deviation) => sum + deviation ** 2, 0);
  const products = off
    .slice(1)
    .reduce((sum, deviation, i) => sum + deviation * (off[i] as number), 0);
  return squares === 0 ? 1 : Math.min(1, 1 + products / squares);
}

/**
 * Between which the true mean lies in nine of ten such sets of batches, within what can be.
 *
 * Amounts above 0 (coefficients, days, weights, prices) differ by factors: Cox's interval for the mean of a
 * log-normal distribution with Student's t (Olsson 2005, Journal of Statistics Education 13:1, "modified Cox"),
 *     exp(m + s^2/2 +- t sqrt(s^2/n + s^4/(2 (n - 1))))       m, s of the logarithms
 * which cannot pass below 0 and, where batches are alike, is that of Student. Shares, and amounts of which a batch is
 * 0 or less: Student's t (Student 1908, Biometrika 6:1), cut where a mean cannot be.
 *
 * `neighboursShare`: the values stand in order, and each begins with the measurement that the one before ended with.
 *
 * Undefined for a single batch, of which nobody knows how far it is from others.
 */
export function meanInterval(
  values: readonly number[],
  measured: Measured,
  neighboursShare = false,
): Interval | undefined {
  const { batches, mean, spread } = meanOf(values);
  if (spread === undefined) return undefined;
  const t = nineInTen(batches - 1);
  const factor = (of: readonly number[]): number => (neighboursShare ? sharedVariance(of) : 1);
  if (measured === 'share' || values.some((value) => value <= 0)) {
    const half = t * spread * Math.sqrt(factor(values) / batches);
    const most = measured === 'share' ? 1 : Infinity;
    return [Math.max(0, mean - half), Math.min(most, mean + half)];
  }
  const logs = values.map(Math.log);
  const { mean: middle, spread: apart = 0 } = meanOf(logs);
  const variance = apart ** 2;
  const half =
    t * Math.sqrt((variance * factor(logs)) / batches + variance ** 2 / (2 * (batches - 1)));
  return [middle - half, middle + half].map((log) =>
    Math.exp(log + variance / 2),
  ) as unknown as Interval;
}
