import type { Season, SeasonCrop } from './season';

/**
 * What the planner weighs against each other, in the farm's money where prices are typed. A crop without a
 * price counts as if a week of it were worth as much as a week of the priced crops in the middle, so that
 * it is neither forgotten nor put first.
 */
export interface SeasonValues {
  /** Of one unit sold, for each crop of the season. */
  readonly unit: readonly number[];
  /** Lost with a unit that is cut and not sold, as a share of its value. */
  readonly surplusShare: number;
  /** What the market could bring for a m2 of bed in a week, if it bought all that it wants. */
  readonly areaWeek: number;
  /** Of a place that stands empty for a week, per m2. */
  readonly emptyArea: number;
  /** Of a g/day of feed called for beyond or below what is given by more than is called even, a week. */
  readonly feedGram: number;
}

/** A unit that nobody buys costs its seed, room and hands. Common practice, no source. */
const SURPLUS_SHARE = 0.3;
/** An empty m2 and a gram of feed out of balance weigh this share of what the m2 could bring. */
const EMPTY_SHARE = 0.02;
const FEED_SHARE = 0.05;

const wantedWeek = (crop: SeasonCrop): number => Math.max(...crop.wanted, 0);

function middle(figures: readonly number[]): number | undefined {
  const sorted = [...figures].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

export function seasonValues(season: Season): SeasonValues {
  const pricedWeeks = season.crops.flatMap((crop) =>
    crop.price !== undefined && crop.price > 0 && wantedWeek(crop) > 0
      ? [crop.price * wantedWeek(crop)]
      : [],
  );
  const week = middle(pricedWeeks) ?? 100;
  const unit = season.crops.map((crop) =>
    crop.price !== undefined && crop.price > 0 ? crop.price : week / Math.max(1, wantedWeek(crop)),
  );
  const area = season.beds.reduce((sum, bed) => sum + bed.area, 0);
  const marketWeek = season.crops.reduce(
    (sum, crop, i) => sum + (unit[i] ?? 0) * wantedWeek(crop),
    0,
  );
  const areaWeek = area > 0 ? marketWeek / area : 0;
  const feedWeek = Math.max(1, ...(season.feed ?? [1]));
  return {
    unit,
    areaWeek,
    surplusShare: SURPLUS_SHARE,
    emptyArea: EMPTY_SHARE * areaWeek,
    feedGram: (FEED_SHARE * marketWeek) / feedWeek,
  };
}
