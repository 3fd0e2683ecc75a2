import { type PlannedBatch, restAfter, type Season } from '../../src/ahead/season';

/** Batches that stand in more of a bed than there is, rest days included, or before it is free. */
export function heldTwice(of: Season, plantings: readonly PlannedBatch[]): string[] {
  return of.beds.flatMap(({ name, area, freeFrom }) => {
    const own = plantings.filter((planting) => planting.bed === name);
    const early = own.filter((planting) => planting.plantedOut < freeFrom);
    const crowded = own.filter((planting) => {
      const there = own
        .filter(
          (other) =>
            other.plantedOut <= planting.plantedOut &&
            planting.plantedOut < other.cleared + restAfter(of, other.crop),
        )
        .reduce((sum, other) => sum + other.area, 0);
      return there > area + 1e-6;
    });
    return [...early, ...crowded].map(
      ({ crop, plantedOut }) => `${name}: ${crop} on ${plantedOut}`,
    );
  });
}
