import type { CropGroup } from './tables/crops';

/**
 * g of feed/m2/day by group. Leafy and fruiting are the middle of the ranges of Somerville et al. 2014,
 * FAO Tech. Pap. 589, sections 2.1.4 and 8 (40 to 50 and 50 to 80, feed of 32 % protein); herbs, roots
 * and flowers are taken as leafy plants, brassicas that form a head as half way between.
 */
export const groupRatios: Readonly<Record<CropGroup, number>> = {
  leafy: 45,
  herb: 45,
  brassica: 55,
  root: 45,
  fruiting: 65,
  flower: 45,
};

/** m2 of grow-area that `feed` g/day supplies at `ratio` g of feed/m2/day. */
export const areaFor = (feed: number, ratio: number): number => feed / ratio;

/** g of feed a day that `area` m2 calls for at `ratio` g of feed/m2/day. */
export const feedFor = (area: number, ratio: number): number => area * ratio;

/**
 * Feed and beds within this part of each other count as even: counts and weighings are no better.
 * Common practice, no source.
 */
export const EVEN_SHARE = 0.15;
