/** How long something waits after a treatment before it may be cut or sold: as the Treatments sheet has it. */
import type { TreatmentEntry } from '../plan/farm';
import { placeKey } from '../plan/registers-of-farm';

/** The first day on which what was treated may be cut or sold. */
export const freeFrom = ({ date, wait = 0 }: Pick<TreatmentEntry, 'date' | 'wait'>): number =>
  date + wait;

/** Treatments for which something from a place still has to wait on a day; those of all water count everywhere. */
export const waitsFor = (
  treatments: readonly TreatmentEntry[],
  place: string,
  day: number,
): TreatmentEntry[] => {
  const key = placeKey(place);
  return treatments.filter(
    (wait) =>
      [key, 'all'].includes(placeKey(wait.where)) && wait.date <= day && freeFrom(wait) > day,
  );
};
