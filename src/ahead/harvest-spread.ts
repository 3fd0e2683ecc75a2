import { type Batch, type Season, WEEK, weekOf } from './season';

/** Week of the season and the share of a batch that is cut in it. */
export type WeekShare = readonly [week: number, share: number];

/**
 * How the yield of a batch spreads over the weeks: evenly over the days from the first cut to clearing, on that
 * of the cut where the crop is cut once. Weeks before the season are there too, below 0.
 */
export function harvestShares(season: Pick<Season, 'from'>, batch: Batch): readonly WeekShare[] {
  const days = Math.max(1, batch.cleared - batch.firstCut);
  const shares: [number, number][] = [];
  for (let day = 0; day < days;) {
    const week = weekOf(season, batch.firstCut + day);
    const inWeek = Math.min(days - day, season.from + (week + 1) * WEEK - (batch.firstCut + day));
    shares.push([week, inWeek / days]);
    day += inWeek;
  }
  return shares;
}
