import { pickingDays } from './sowing';
import { type Crop, usual } from './tables/crops';

/**
 * Weeks that a plant keeps its place in the bed, from transplanting or from sowing in place. A crop that is
 * cut again keeps it to the end of its harvest; one that is cut once leaves it with the cut. A number in place of the crop is those weeks.
 */
export function weeksInBed(crop: Crop | number): number {
  if (typeof crop === 'number') return crop;
  const sownInPlace = crop.start === 'in place' ? usual(crop, 'transplant_days') : 0;
  return (sownInPlace + usual(crop, 'bed_days') + pickingDays(crop)) / 7;
}

/** Plants that stand in the beds when `perWeek` come and go each week (Little 1961: L = lambda W). */
export const plantsStanding = (perWeek: number, crop: Crop | number): number =>
  perWeek * weeksInBed(crop);

/** m2 that those plants take at `density` plants/m2. */
export const bedArea = (perWeek: number, crop: Crop | number, density: number): number =>
  plantsStanding(perWeek, crop) / density;

export type Pattern = 'square' | 'triangular';

/**
 * Plants/m2 at spacings in cm. `between` is the distance between rows; left out, it is that of the
 * pattern: equal to the spacing in the row, or sqrt(3)/2 of it where rows are staggered so that all
 * neighbours stand equally far apart. Staggering rows of a given distance changes no density.
 */
export function plantDensity(inRow: number, between: number | undefined, pattern: Pattern): number {
  const rows = between ?? inRow * (pattern === 'triangular' ? Math.sqrt(3) / 2 : 1);
  return 10000 / (inRow * rows);
}
