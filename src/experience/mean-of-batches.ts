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

/**
 * Between which the true mean lies in nine of ten such sets of batches: Student's t (Student 1908, Biometrika 6:1).
 * Undefined for a single batch, of which nobody knows how far it is from others.
 */
export function meanInterval({ batches, mean, spread }: BatchMean): Interval | undefined {
  if (spread === undefined) return undefined;
  const half = (nineInTen(batches - 1) * spread) / Math.sqrt(batches);
  return [mean - half, mean + half];
}
