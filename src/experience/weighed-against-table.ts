/**
 * A farm's few batches weighed against the table: the fewer there are and the more they differ, the more the
 * table counts. Buehlmann 1967, ASTIN Bulletin 4:199-207, "Experience rating and credibility": the share of the
 * own mean is n / (n + k), where k is the variance from batch to batch over the variance from farm to farm.
 */
import { deviationsFor } from '../core/certainty';
import { between, type TableFigure } from '../plan/own-figure-rows';
import type { BatchMean } from './mean-of-batches';

/** The table's range is read as that of nine farms in ten. */
const FARMS_IN_RANGE = 0.9;

/** From farm to farm where the table has no range, as a share of its figure: common practice, no source. */
const FARMS_DIFFER = 0.2;

/** From batch to batch where there is one batch alone, as a share of its figure: common practice, no source. */
const BATCHES_DIFFER = 0.2;

/** Standard deviation from farm to farm. */
export const farmSpread = ({ usual, range }: TableFigure): number => {
  const half = range === undefined ? 0 : (range[1] - range[0]) / 2;
  return half > 0 ? half / deviationsFor(FARMS_IN_RANGE) : FARMS_DIFFER * Math.abs(usual);
};

export interface Blend {
  /** Share of the farm's own mean, 0 to 1; the rest is the table's. */
  readonly own: number;
  readonly figure: number;
}

/** The figure between the table's and the farm's own. */
export function blended(table: TableFigure, { batches, mean, spread }: BatchMean): Blend {
  // Two or three batches that happen to be alike do not show that all are.
  const usualSpread = BATCHES_DIFFER * Math.abs(mean);
  const variance =
    spread === undefined
      ? usualSpread ** 2
      : ((batches - 1) * spread ** 2 + usualSpread ** 2) / batches;
  const farms = farmSpread(table) ** 2;
  const own = farms === 0 && variance === 0 ? 1 : (batches * farms) / (batches * farms + variance);
  return { own, figure: between(table.usual, mean, own) };
}
