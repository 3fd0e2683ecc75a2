import { type Crop, usual } from './tables/crops';

/** What a batch passes through, in this order, counted in days from sowing. */
export const stages = ['emerge', 'transplant', 'first cut', 'clear'] as const;
export type Stage = (typeof stages)[number];

/**
 * Days from sowing to a stage. Undefined where the crop has no such stage: one sown in place is never
 * transplanted, one from plugs or cuttings does not emerge (day 0 is then potting up).
 *
 * `clear` is the day from which the place is free: the first cut and the harvest days, in which a crop
 * that is cut once is taken batch by batch and one that grows again is cut for the last time.
 */
export function dayOfStage(crop: Crop, stage: Stage): number | undefined {
  const transplant = usual(crop, 'transplant_days');
  switch (stage) {
    case 'emerge':
      return crop.start === 'plugs' || crop.start === 'cuttings'
        ? undefined
        : usual(crop, 'emerge_days');
    case 'transplant':
      return crop.start === 'in place' ? undefined : transplant;
    case 'first cut':
      return transplant + usual(crop, 'bed_days');
    case 'clear':
      return transplant + usual(crop, 'bed_days') + usual(crop, 'harvest_days');
  }
}

/** Weeks that a plant keeps its place in the bed: from transplanting, or sowing in place, to clearing. */
export function weeksInBed(crop: Crop): number {
  const nursery = crop.start === 'in place' ? 0 : usual(crop, 'transplant_days');
  const clear =
    usual(crop, 'transplant_days') + usual(crop, 'bed_days') + usual(crop, 'harvest_days');
  return (clear - nursery) / 7;
}
