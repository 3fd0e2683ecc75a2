/** Rows of the registers, as other rows and people speak of them. */
import { isoText } from '../core/serial-date';
import type { Farm, PlantingEntry } from '../plan/farm';

/** Registers by the list of the farm file that each holds. */
export const registerNames = {
  fishLog: 'Fish log',
  feedLog: 'Feed log',
  plantings: 'Plantings',
  harvests: 'Harvest log',
  waterTests: 'Water log',
  treatments: 'Treatments',
} as const;

export type RegisterList = keyof typeof registerNames;

/** An entry of a register. */
export type Entry<L extends RegisterList> = Farm[L][number];

/** A name of a batch of plants: the grower's own, else its first day, its crop and its bed, as fish have day and tank. */
export function batchName({ batch, crop, bed, sown, planted }: PlantingEntry): string {
  const own = batch?.trim();
  if (own) return own;
  const day = sown ?? planted;
  return [
    ...(day === undefined ? [] : [isoText(day)]),
    crop,
    ...(bed === undefined ? [] : [bed.trim()]),
  ].join(' ');
}

/** What was done: not marked as planned, done otherwise or not done. */
export const isDone = ({ planned }: { readonly planned?: string | undefined }): boolean =>
  planned === undefined;
