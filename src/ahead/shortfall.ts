/** Why a week of a crop stays short although a batch planted in time could be cut in it. */
import { EVEN_SHARE } from '../core/feed-area';
import { bedClasses, weeksKept } from './bed-classes';
import { fits } from './bed-model';
import { harvestShares } from './harvest-spread';
import { type PlannedBatch, restAfter, type Season, weekOf } from './season';
import { seasonValues } from './season-value';

/**
 * beds: those that suit it hold what serves more. nursery: full. feed: more plants would call for feed that is
 * not given. lumps: one more part of a bed would give more that nobody wants than it serves. gap: another part
 * of a bed would serve it; the plan is within its gap of the best without.
 */
export type Shortfall = 'beds' | 'nursery' | 'feed' | 'lumps' | 'gap';

/** Feed called for by all that stands, g/day in each week of the horizon. */
export function feedCalled(season: Season, plantings: readonly PlannedBatch[]): readonly number[] {
  const called = Array.from(
    { length: season.horizon },
    (_, week) => season.standingFeed[week] ?? 0,
  );
  for (const planting of plantings) {
    const crop = season.crops.find(({ name }) => name === planting.crop);
    const bed = season.beds.find(({ name }) => name === planting.bed);
    const ratio = crop && bed ? crop.feedRatio(bed.kind) : 0;
    const first = weekOf(season, planting.plantedOut);
    for (let week = first; week < first + weeksKept(season, planting.crop, planting); week++) {
      if (week >= 0 && week < season.horizon) {
        called[week] = (called[week] as number) + planting.area * ratio;
      }
    }
  }
  return called;
}

/** Reads the reasons off a plan: what one more part of a bed would meet with. */
export function shortfalls(
  season: Season,
  plantings: readonly PlannedBatch[],
  supplies: readonly (readonly number[])[],
): (crop: number, week: number) => Shortfall {
  const values = seasonValues(season);
  const called = feedCalled(season, plantings);
  const classes = bedClasses(season);
  const free = classes.map(({ beds, free, placeArea }) => {
    const names = new Set(beds.map(({ name }) => name));
    const left = free.map((places) => places * placeArea);
    for (const planting of plantings) {
      if (!names.has(planting.bed)) continue;
      const first = weekOf(season, planting.plantedOut);
      const until = weekOf(season, planting.cleared + restAfter(season, planting.crop) + 6);
      for (let week = Math.max(0, first); week < Math.min(until, left.length); week++) {
        left[week] = (left[week] as number) - planting.area;
      }
    }
    return left;
  });
  const seedlings = Array.from(
    { length: season.horizon },
    (_, week) => season.nurseryHeld?.[week] ?? 0,
  );
  for (const { crop, plantedOut, plants } of plantings) {
    const nursery = season.crops.find(({ name }) => name === crop)?.nurseryWeeks ?? 0;
    const out = weekOf(season, plantedOut);
    for (let week = Math.max(0, out - nursery); week < out && week < season.horizon; week++) {
      seedlings[week] = (seedlings[week] as number) + plants;
    }
  }

  /** What feed out of balance costs in a week when so much more is called for. */
  const feedCost = (week: number, more: number): number => {
    const given = season.feed?.[week];
    if (given === undefined) return 0;
    const off = (calls: number): number =>
      Math.max(0, calls - given * (1 + EVEN_SHARE), given * (1 - EVEN_SHARE) - calls);
    const now = called[week] ?? 0;
    return values.feedGram * (off(now + more) - off(now));
  };

  return (c, shortWeek) => {
    const crop = season.crops[c];
    if (!crop) return 'gap';
    const value = values.unit[c] ?? 0;
    let best: Shortfall = 'beds';
    const order: readonly Shortfall[] = ['beds', 'nursery', 'feed', 'lumps', 'gap'];
    classes.forEach((bedClass, k) => {
      const plants = Math.floor(bedClass.placeArea * crop.density + 1e-9);
      if (!fits(crop, bedClass) || plants === 0) return;
      crop.batches.forEach((batch, planted) => {
        if ('why' in batch) return;
        const shares = harvestShares(season, batch);
        if (!shares.some(([week]) => week === shortWeek)) return;
        const kept = weeksKept(season, crop.name, batch);
        const until = Math.min(planted + kept, season.horizon);
        for (let week = planted; week < until; week++) {
          if ((free[k]?.[week] ?? 0) < bedClass.placeArea - 1e-6) return;
        }
        let found: Shortfall = 'gap';
        const nurseryFrom = Math.max(0, planted - crop.nurseryWeeks);
        const crowded = seedlings
          .slice(nurseryFrom, planted)
          .some((count) => count + plants > (season.nursery ?? Infinity));
        if (crowded) found = 'nursery';
        else {
          let gain = 0;
          for (const [week, share] of shares) {
            if (week < 0 || week >= season.horizon) continue;
            const units = share * plants * crop.unitsPerPlant;
            const gap = Math.max(0, (crop.wanted[week] ?? 0) - (supplies[c]?.[week] ?? 0));
            gain += value * Math.min(gap, units);
            gain -= value * values.surplusShare * Math.max(0, units - gap);
          }
          gain += values.emptyArea * bedClass.placeArea * (until - planted);
          let feed = 0;
          for (let week = planted; week < until; week++) {
            feed += feedCost(week, bedClass.placeArea * crop.feedRatio(bedClass.kind));
          }
          if (gain - feed <= 0) found = gain > 0 && feed > 0 ? 'feed' : 'lumps';
        }
        if (order.indexOf(found) > order.indexOf(best)) best = found;
      });
    });
    return best;
  };
}

const week = (count: number): string => `${count} ${count === 1 ? 'week' : 'weeks'}`;

/** The reason in words, for so many weeks. */
export const shortfallText = (why: Shortfall, count: number): string =>
  ({
    beds: `${week(count)} for which the beds that suit it are taken, by rows of the Plantings or by what serves more`,
    nursery: `${week(count)} for which the nursery is full`,
    feed: `${week(count)} for which more plants would call for more feed than is given`,
    lumps: `${week(count)} in which one more part of a bed would give more that nobody wants than it serves`,
    gap: `${week(count)} that the best possible plan might serve`,
  })[why];
