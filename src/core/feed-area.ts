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

/** Protein of the feed for which the ratios hold, FAO 589. */
export const RATIO_PROTEIN = 0.32;

interface BedFeed {
  /** What the ratio on gravel is multiplied by. */
  readonly factor: number;
  /** g of feed/m2/day between which published beds of this kind ran well, and to which a ratio is held. */
  readonly band: readonly [least: number, most: number];
  readonly spellings: readonly string[];
}

/**
 * Feed by kind of bed. On rafts 40 to 100 g all gave full lettuce (published systems: 63, 82, 96 and 100, and
 * lettuce that lost 7 % between 100 and 40; Rakocy 2007: 60 to 100), which is 80 where gravel has 45. Gravel
 * that keeps its solids sets their nutrients free (FAO 589: 40 to 50 for leafy plants); with the solids taken
 * out before it, it stands between the two (common practice, no source). Film channels take about a quarter of
 * rafts (recalled); troughs without a clarifier were right from 15 to 42 (Endut et al. 2010).
 */
export const bedFeeds = {
  gravel: {
    factor: 1,
    band: [25, 80],
    spellings: ['media', 'media bed', 'clay', 'gravel bed', 'sand'],
  },
  'clean gravel': {
    factor: 4 / 3,
    band: [30, 100],
    spellings: ['gravel without solids', 'media without solids'],
  },
  raft: {
    factor: 16 / 9,
    band: [40, 100],
    spellings: ['rafts', 'deep water', 'floating raft', 'DWC'],
  },
  film: {
    factor: 5 / 9,
    band: [15, 42],
    spellings: ['channel', 'channels', 'trough', 'troughs', 'nutrient film', 'NFT'],
  },
} as const satisfies Record<string, BedFeed>;

export type BedKind = keyof typeof bedFeeds;

/** The ratio on a kind of bed and with a feed of `protein` (a fraction), from that on gravel with 32 %. */
export function ratioOn(ratio: number, bed: BedKind, protein: number): number {
  const { factor, band } = bedFeeds[bed];
  const held = bed === 'gravel' ? ratio : Math.min(Math.max(ratio * factor, band[0]), band[1]);
  return (held * RATIO_PROTEIN) / protein;
}

/**
 * g of feed/m2/day between which published beds of a kind ran well, with a feed of `protein` (a fraction): a
 * farm anywhere between them is in balance.
 */
export function bandOn(bed: BedKind, protein: number): readonly [least: number, most: number] {
  const [least, most] = bedFeeds[bed].band;
  return [(least * RATIO_PROTEIN) / protein, (most * RATIO_PROTEIN) / protein];
}

/** m2 of grow-area that `feed` g/day supplies at `ratio` g of feed/m2/day. */
export const areaFor = (feed: number, ratio: number): number => feed / ratio;

/** g of feed a day that `area` m2 calls for at `ratio` g of feed/m2/day. */
export const feedFor = (area: number, ratio: number): number => area * ratio;

/**
 * The planner of beds aims at the usual ratio within this part of it: counts and weighings are no better.
 * Common practice, no source. Whether a farm is in balance is said by `bandOn`.
 */
export const EVEN_SHARE = 0.15;

/**
 * Feed over the usual want of beds of unknown kinds, between which all of them would be in balance: the
 * narrowest of the bands (gravel from 25 of 45, rafts to 100 of 80).
 */
export const EVEN_BAND: readonly [least: number, most: number] = [0.56, 1.25];
