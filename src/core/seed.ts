import { wholeUp } from './whole';

/**
 * Seeds to sow so that `plants` are left: whole, rounded up. `germination` is the share that comes up
 * (more than 0, at most 1), `losses` the share of those that is lost before the cut (0 to less than 1).
 */
export const seedsToSow = (plants: number, germination: number, losses: number): number =>
  wholeUp(plants / (germination * (1 - losses)));

/** Trays of `cells` that hold `seeds`, one in a cell: whole, rounded up. */
export const traysFor = (seeds: number, cells: number): number => wholeUp(seeds / cells);
