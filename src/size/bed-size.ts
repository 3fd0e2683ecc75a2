import { weeksInBed } from '../core/bed';
import { type Crop, range, usual } from '../core/tables/crops';
import { cropTable } from '../functions/crop-table';
import { feedOfBed, type FedFarm } from '../plan/bed-feed';
import { type BedEntry, bedKinds } from '../plan/farm';
import type { UnitSystem } from '../plan/quantities';
import { unitsPerPlant } from '../plan/units-per-plant';
import { groupRatios } from '../core/feed-area';
import { growingAir } from '../core/season-limits';
import { ask } from './ask-functions';
import { lengthUp } from './figure-words';
import type { WishedCrop } from './wish';

/** Beds for what the market takes each week. */

export type Kind = BedEntry['kind'];

/** m. Common practice: what one reaches over from both sides, and rafts cut from boards of 0.6 m. */
export const BED_WIDTH = 1.2;
export const NARROW = 0.6;
export const BED_DEPTH: Readonly<Record<Kind, number | undefined>> = {
  raft: 0.3,
  gravel: 0.3,
  film: undefined,
};
/** m: beds longer than this are walked round. Common practice. */
export const MAX_LENGTH = 24;
export const MIN_LENGTH = 2.4;
/** m: what a farm file takes for a bed. */
export const FILE_LENGTH = 990;
/** A farm file holds a thousand beds. */
export const MAX_BEDS = 900;
const WEEK = 7;

export interface BedGroup {
  /** Undefined where the feed alone says how much bed there is. */
  readonly crop?: string;
  readonly kind: Kind;
  readonly count: number;
  readonly length: number;
  readonly width: number;
  readonly depth?: number;
  /** m2 of all of them. */
  readonly area: number;
  /** Feed that they call for, g/day; undefined as long as nobody knows which feed. */
  readonly feed?: number;
}

export const cropNamed = (name: string): Crop => {
  const crop = cropTable.book.find(name);
  if (crop === undefined) throw new Error(`there is no crop ${name}`);
  return crop;
};

/** The kind of bed that a crop is given: the one that is chosen where it grows there, else its best. */
export function bedKindOf(crop: Crop, chosen: Kind | undefined): Kind | undefined {
  const kinds = crop.beds
    .split(', ')
    .flatMap((kind) => bedKinds.find((known) => known === kind) ?? []);
  return kinds.find((kind) => kind === chosen) ?? kinds[0];
}

/** Months (from 0) in which a crop is grown at the mean air, as the Site sheet has it. */
export function monthsThatFit(crop: Crop, air: readonly number[]): readonly number[] {
  const [low, high] = growingAir(crop);
  return air.flatMap((mean, month) => (mean >= low && mean <= high ? [month] : []));
}

/** mol/m2 of light a day that a crop wants at least. */
export const leastLight = (crop: Crop): number | undefined =>
  range(crop, 'daily_light')?.[0] ?? usual(crop, 'daily_light');

/** Days between two sowings: the table's, or a week for what is cut once, half its harvest for what is cut again. */
export function sowEvery(crop: Crop): number {
  const own = usual(crop, 'sow_every');
  if (own !== undefined) return Math.round(own);
  if (crop.cut === 'once') return WEEK;
  const half = Math.round(usual(crop, 'harvest_days') / 2 / WEEK) * WEEK;
  return Math.min(52 * WEEK, Math.max(WEEK, half));
}

/** Plants a week that a wish of the market asks for. */
export const plantsPerWeek = ({ crop, unit, perWeek, perPlant }: WishedCrop): number =>
  perWeek / unitsPerPlant(cropNamed(crop), { unit, ...(perPlant !== undefined && { perPlant }) });

/** m2 under a crop for a steady weekly cut, as the Sowing sheet has it. */
export const areaFor = (wished: WishedCrop): number =>
  ask('BED.AREA', plantsPerWeek(wished), wished.crop);

/** Beds of one size that come to an area: one for each batch that stands at a time, where they are not too short. */
export function bedsOf(
  area: number,
  {
    kind,
    crop,
    units,
    most = MAX_BEDS,
  }: {
    readonly kind: Kind;
    readonly crop?: string;
    readonly units: UnitSystem;
    /** Beds that this crop may take of those that a farm file holds. */
    readonly most?: number;
  },
  fed: FedFarm | undefined,
): BedGroup {
  const wide = Math.max(BED_WIDTH, area / (most * FILE_LENGTH));
  const width = area < BED_WIDTH * BED_WIDTH ? NARROW : wide;
  const batches =
    crop === undefined
      ? 1
      : Math.ceil((weeksInBed(cropNamed(crop)) * WEEK) / sowEvery(cropNamed(crop)) - 1e-6);
  const room = Math.max(1, Math.floor(area / (width * MIN_LENGTH)));
  const long = Math.ceil(area / (width * MAX_LENGTH) - 1e-9);
  const count = Math.min(most, Math.max(1, long, Math.min(batches, room)));
  const length = Math.min(FILE_LENGTH, lengthUp(area / (count * width), units));
  const depth = BED_DEPTH[kind];
  return groupOf(
    { kind, count, length, width, ...(depth && { depth }), ...(crop && { crop }) },
    fed,
  );
}

/** A group with its area and the feed that it calls for. */
export function groupOf(
  group: Omit<BedGroup, 'area' | 'feed'>,
  fed: FedFarm | undefined,
): BedGroup {
  const area = group.count * group.length * group.width;
  return { ...group, area, ...(fed && { feed: feedOn(group.kind, area, group.crop, fed) }) };
}

/** g/day, as the Beds sheet reckons; beds without a crop count as leafy ones. */
export function feedOn(kind: Kind, area: number, crop: string | undefined, fed: FedFarm): number {
  const ratio = crop === undefined ? groupRatios.leafy : usual(cropNamed(crop), 'feed_ratio');
  return feedOfBed({ kind, area, ratio }, fed).wanted;
}

/** How many of what is usually sold of a crop: heads of a leafy one, bunches of a herb, the rest by weight. */
export function usualUnit(crop: Crop, units: UnitSystem): WishedCrop['unit'] {
  if (crop.group === 'herb') return 'bunch';
  if (crop.group === 'leafy' && crop.cut === 'once') return 'piece';
  return units === 'US' ? 'lb' : 'kg';
}

/** Units a week of a crop from a bed area that is always full. */
export const cutFrom = (area: number, wished: Omit<WishedCrop, 'perWeek'>): number =>
  area / areaFor({ ...wished, perWeek: 1 });
