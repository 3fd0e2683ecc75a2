import { roundUpToWhole } from './whole';

/**
 * Seeds to sow so that `plants` are left: whole, rounded up. `germination` is the share that comes up
 * (more than 0, at most 1), `losses` the share of those that is lost before the cut (0 to less than 1).
 */
export const seedsToSow = (plants: number, germination: number, losses: number): number =>
  roundUpToWhole(plants / (germination * (1 - losses)));

/** Failures looked at before a count of seeds is given up: far more than a sowing has. */
export const MAX_FAILURES = 5000;

/**
 * Least number of seeds of which at least `plants` (whole, 1 or more) become plants with a chance of `sure`, when
 * each does so by itself with a chance of `share`: the exact binomial count, found over the failures before the
 * last plant. Infinity where more than MAX_FAILURES would have to be allowed for.
 */
export function seedsToBeSure(plants: number, share: number, sure: number): number {
  if (share >= 1) return plants;
  const fails = Math.log1p(-share);
  let log = plants * Math.log(share);
  let chance = Math.exp(log);
  let failures = 0;
  while (chance < sure - 1e-12) {
    if (++failures >= MAX_FAILURES) return Infinity;
    log += Math.log((plants + failures - 1) / failures) + fails;
    chance += Math.exp(log);
  }
  return plants + failures;
}

/** Trays of `cells` that hold `seeds`, one in a cell: whole, rounded up. */
export const traysFor = (seeds: number, cells: number): number => roundUpToWhole(seeds / cells);
