import { bandOn, type BedKind, bedFeeds, feedFor, RATIO_PROTEIN, ratioOn } from '../core/feed-area';
import { restingOn } from './basis';
import type { BedEntry } from './farm';
import { call, cases, type Formula, part } from './formula-parts';
import { named } from './names';
import { type Figures, presetValue } from './presets';

/** What of a farm the feed of its beds hangs on. */
export interface FedFarm {
  /** Of the feed, a fraction. */
  readonly protein: number;
  /** Figures of the plan that were changed; which gravel the beds hold is among them. */
  readonly figures: Figures | undefined;
}

const kindOn = (kind: BedEntry['kind'], { figures }: FedFarm): BedKind =>
  kind === 'gravel' && presetValue('Gravel_kind', figures) === 'clean gravel'
    ? 'clean gravel'
    : kind;

/** Feed a day that a bed with a crop calls for, and between which such beds ran well, g. */
export interface BedFeed {
  readonly wanted: number;
  readonly least: number;
  readonly most: number;
}

/** The same as the Beds and Balance sheets reckon, from the ratio of the crop on gravel, g/m2/day. */
export function feedOfBed(
  {
    kind,
    area,
    ratio,
  }: { readonly kind: BedEntry['kind']; readonly area: number; readonly ratio: number },
  farm: FedFarm,
): BedFeed {
  const bed = kindOn(kind, farm);
  const [least, most] = bandOn(bed, farm.protein);
  return {
    wanted: feedFor(area, ratioOn(ratio, bed, farm.protein)),
    least: feedFor(area, least),
    most: feedFor(area, most),
  };
}

/**
 * Formula for the feed that a bed calls for, from the ratio of its crop on gravel; the same in live and plain plans.
 * That of the function would look its ratio up by name for each kind of bed: as the formula of a table's column it is
 * longer than a cell takes once a hand-over has made it plain.
 */
export function bedFeedFormula(bed: {
  readonly area: Formula;
  readonly kind: Formula;
  readonly ratio: Formula;
}): Formula {
  const { area, kind, ratio } = bed;
  const on = (id: Exclude<BedKind, 'gravel'>): Formula => {
    const { factor, band } = bedFeeds[id];
    return call('MEDIAN', band[0], ratio.times(factor), band[1]);
  };
  const held = cases(
    [
      [kind.is('raft'), on('raft')],
      [kind.is('film'), on('film')],
      [named('Gravel_kind').is('gravel'), ratio],
    ],
    on('clean gravel'),
  );
  return restingOn(
    'FEED.WANTED',
    area.times(held).times(part(RATIO_PROTEIN)).over(named('Feed_protein')),
  );
}
