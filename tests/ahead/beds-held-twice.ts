import { type PlannedBatch, restAfter, type Season } from '../../src/ahead/season';

/**
 * Batches that stand in more of a bed than rows of the Plantings and other batches leave, rest days included, or before
 * it is free. Looked at on each day on which something begins.
 */
export function heldTwice(of: Season, plantings: readonly PlannedBatch[]): string[] {
  return of.beds.flatMap(({ name, area, freeFrom, held = [] }) => {
    const own = plantings.filter((planting) => planting.bed === name);
    const early = own.filter((planting) => planting.plantedOut < freeFrom);
    const until = ({ cleared, crop }: PlannedBatch): number => cleared + restAfter(of, crop);
    const keptOn = (day: number): number =>
      held.reduce(
        (sum, { from, to, share }) => sum + (from <= day && day < to ? share * area : 0),
        0,
      );
    const crowded = own.filter((planting) => {
      const days = [
        planting.plantedOut,
        ...held.flatMap(({ from }) =>
          from > planting.plantedOut && from < until(planting) ? [from] : [],
        ),
      ];
      return days.some((day) => {
        const there = own
          .filter((other) => other.plantedOut <= day && day < until(other))
          .reduce((sum, other) => sum + other.area, 0);
        return there + keptOn(day) > area + 1e-6;
      });
    });
    return [...early, ...crowded].map(
      ({ crop, plantedOut }) => `${name}: ${crop} on ${plantedOut}`,
    );
  });
}
