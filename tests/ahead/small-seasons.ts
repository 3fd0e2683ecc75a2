import type { Batch, Season, SeasonBed, SeasonCrop } from '../../src/ahead/season';

/** A Monday: 2026-04-13. */
export const MONDAY = 46125;

export const weekly = (weeks: number, figure: number): number[] =>
  Array.from({ length: weeks }, () => figure);

export const bed = (name: string, more: Partial<SeasonBed> = {}): SeasonBed => ({
  name,
  kind: 'raft',
  area: 10,
  freeFrom: MONDAY,
  tall: true,
  ...more,
});

/** A crop that stands `weeks` in its bed and is cut in the last of them. */
export function crop(
  name: string,
  horizon: number,
  weeks: number,
  more: Partial<SeasonCrop> = {},
): SeasonCrop {
  const batches = Array.from({ length: horizon }, (_, week): Batch => {
    const plantedOut = MONDAY + 7 * week;
    return {
      sown: plantedOut - 14,
      plantedOut,
      firstCut: plantedOut + 7 * (weeks - 1),
      cleared: plantedOut + 7 * weeks,
    };
  });
  return {
    name,
    family: name,
    tall: false,
    unit: 'piece',
    unitsPerPlant: 1,
    density: 10,
    kinds: ['raft'],
    price: 1,
    feedRatio: () => 50,
    nurseryWeeks: 2,
    wanted: weekly(horizon, 100),
    standing: weekly(horizon, 0),
    batches,
    ...more,
  };
}

export const season = (
  weeks: number,
  beds: readonly SeasonBed[],
  crops: readonly SeasonCrop[],
  more: Partial<Season> = {},
): Season => ({
  from: MONDAY,
  weeks,
  horizon: weeks,
  beds,
  crops,
  standingFeed: weekly(weeks, 0),
  feed: undefined,
  restDays: 0,
  nursery: undefined,
  rotate: false,
  ...more,
});
