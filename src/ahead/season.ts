/**
 * What the planner of beds works on: weeks from a Monday on, beds with what stands in them, and crops with
 * what the market asks for. Made from a farm by `season-of-farm.ts`; dates are sheet serials.
 */

/** A part of a bed that a row of the Plantings keeps; its rest days are among them. */
export interface BedHold {
  readonly from: number;
  readonly to: number;
  /** Of the bed's area. */
  readonly share: number;
  readonly crop: string;
  readonly family: string | undefined;
}

export interface SeasonBed {
  readonly name: string;
  /** Beds of one kind take the same crops. */
  readonly kind: string;
  /** m2 that can be planted. */
  readonly area: number;
  /** First day on which something new may be planted here, beside what `held` keeps. */
  readonly freeFrom: number;
  /** What else is kept, now or later; left out: nothing. */
  readonly held?: readonly BedHold[];
  /** Family of what stands in it or stood in it last. */
  readonly family?: string;
  /** A tall crop may stand here without shading its neighbours. */
  readonly tall: boolean;
}

/** What a batch planted out in one week would do. */
export interface Batch {
  readonly sown: number;
  readonly plantedOut: number;
  readonly firstCut: number;
  readonly cleared: number;
}

/** Why nothing is planted out in a week. */
export interface NoBatch {
  readonly why: string;
  /** What the months have against it, in a few words; undefined where it is something else. */
  readonly season?: string;
}

export interface SeasonCrop {
  readonly name: string;
  readonly family: string | undefined;
  /** Needs a place where it shades nobody. */
  readonly tall: boolean;
  /** piece, bunch, kg or lb. */
  readonly unit: string;
  /** Units that one plant gives in its whole life. */
  readonly unitsPerPlant: number;
  /** Days that a bed rests after it; those of the season where it is left out. */
  readonly restDays?: number;
  /** Plants/m2. */
  readonly density: number;
  readonly kinds: readonly string[];
  /** Of a unit; undefined where nobody typed one. */
  readonly price: number | undefined;
  /** Feed that a planted m2 calls for on a kind of bed, g/day. */
  readonly feedRatio: (kind: string) => number;
  /** Weeks in the nursery that a seedling takes room for. */
  readonly nurseryWeeks: number;
  /** Units wanted in each week of the horizon. */
  readonly wanted: readonly number[];
  /** Units that what stands already will give in each week of the horizon. */
  readonly standing: readonly number[];
  /** For each week of the horizon a batch planted out in it, or the reason why there is none. */
  readonly batches: readonly (Batch | NoBatch)[];
}

export interface Season {
  /** Monday of the first week. */
  readonly from: number;
  /** Weeks that are planned and reported. */
  readonly weeks: number;
  /**
   * Weeks that the model looks at: those, and as many more as the slowest crop takes to its first cut, so
   * that the last weeks are planted as if the farm went on.
   */
  readonly horizon: number;
  readonly beds: readonly SeasonBed[];
  readonly crops: readonly SeasonCrop[];
  /** Feed called for by what stands already, g/day in each week of the horizon. */
  readonly standingFeed: readonly number[];
  /** Feed given, g/day in each week of the horizon; undefined where it is not known. */
  readonly feed: readonly number[] | undefined;
  /** Days that a bed rests between two crops, for cleaning. */
  readonly restDays: number;
  /** Seedlings that the nursery holds; undefined: no bound. */
  readonly nursery: number | undefined;
  /** Seedlings that stand in the nursery already or are sown by rows of the Plantings, by week; left out: none. */
  readonly nurseryHeld?: readonly number[];
  /** Whether a bed should not take a family after itself. */
  readonly rotate: boolean;
}

export const WEEK = 7;

/** Week of the season in which a day falls; negative before it begins. */
export const weekOf = (season: Pick<Season, 'from'>, day: number): number =>
  Math.floor((day - season.from) / WEEK);

/** Days that a bed rests after a crop. */
export const restAfter = (
  season: Pick<Season, 'restDays' | 'crops'>,
  crop: string | undefined,
): number => season.crops.find(({ name }) => name === crop)?.restDays ?? season.restDays;

/** A bed as the planner filled it. */
export interface PlannedBatch extends Batch {
  readonly crop: string;
  readonly bed: string;
  readonly plants: number;
  /** m2 that it takes. */
  readonly area: number;
}

/** Share of a bed that its rows leave free for all of a time. */
export function roomIn({ freeFrom, held = [] }: SeasonBed, from: number, to: number): number {
  if (freeFrom > from) return 0;
  const days = [
    from,
    ...held.flatMap((hold) => (hold.from > from && hold.from < to ? [hold.from] : [])),
  ];
  const kept = days.map((day) =>
    held.reduce((sum, hold) => sum + (hold.from <= day && day < hold.to ? hold.share : 0), 0),
  );
  return Math.max(0, 1 - Math.max(...kept));
}
