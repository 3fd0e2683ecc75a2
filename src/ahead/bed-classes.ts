import { restAfter, type Season, type SeasonBed, weekOf } from './season';

/**
 * Beds that are alike to the planner: one kind, one size, both fit or unfit for tall crops. They are
 * counted in places. A place is a quarter of a bed, or a smaller part where a farm has few beds: whole beds
 * would give more at once than a week's market takes.
 */
export interface BedClass {
  readonly kind: string;
  readonly tall: boolean;
  /** m2 of a place. */
  readonly placeArea: number;
  readonly placesPerBed: number;
  readonly beds: readonly SeasonBed[];
  /** Places that nothing stands in, in each week of the horizon. */
  readonly free: readonly number[];
}

const PARTS_OF_BED = 4;
/** Places of a class that are fine enough where beds are few. */
const MIN_PLACES = 12;
/** m2 below which a part of a bed is not worth a batch of its own. Common practice, no source. */
const MIN_PLACE_AREA = 0.5;

const partsOf = (beds: number, area: number): number =>
  Math.max(
    1,
    Math.min(
      Math.max(PARTS_OF_BED, Math.ceil(MIN_PLACES / beds)),
      Math.floor(area / MIN_PLACE_AREA + 1e-9),
    ),
  );

/** Places of a bed that a row of the Plantings keeps from one week to another. */
export interface WeekHold {
  readonly from: number;
  readonly to: number;
  readonly places: number;
  readonly crop: string;
  readonly family: string | undefined;
}

/** First week of the season in which something may be planted here, on its Monday. */
const firstFreeWeek = (season: Season, bed: SeasonBed): number =>
  Math.max(0, weekOf(season, bed.freeFrom + 6));

/** What rows keep of a bed, in whole weeks and places. */
function weekHolds(season: Season, { held = [] }: SeasonBed, placesPerBed: number): WeekHold[] {
  return held.map(({ from, to, share, crop, family }) => ({
    from: weekOf(season, from),
    to: weekOf(season, to + 6),
    places: Math.min(placesPerBed, Math.ceil(share * placesPerBed - 1e-9)),
    crop,
    family,
  }));
}

/** Those that begin after the first week. */
export const laterHolds = (season: Season, bed: SeasonBed, placesPerBed: number): WeekHold[] =>
  weekHolds(season, bed, placesPerBed).filter(({ from }) => from > 0);

/** For each place of a bed the week from which it is free of what stands in it in the first week. */
export function placesFreeFrom(season: Season, bed: SeasonBed, placesPerBed: number): number[] {
  const free = Array.from({ length: placesPerBed }, () => firstFreeWeek(season, bed));
  for (const { from, to, places } of weekHolds(season, bed, placesPerBed)) {
    if (from > 0) continue;
    free.sort((a, b) => a - b);
    for (let at = 0; at < places; at++) free[at] = Math.max(free[at] as number, to);
  }
  return free.sort((a, b) => a - b);
}

/**
 * Beds whose later rows keep them as a whole in the same weeks are alike; where a row keeps a part of a bed, the bed is
 * a class of its own, so that counted places are always places in one bed.
 */
function laterKey(season: Season, { name, held = [] }: SeasonBed): string {
  const later = held.filter(({ from }) => weekOf(season, from) > 0);
  if (later.some(({ share }) => share < 1)) return name;
  return later.map(({ from, to }) => `${weekOf(season, from)}-${weekOf(season, to + 6)}`).join(',');
}

/** Sorts the beds of a season into classes, in the order of their first beds. */
export function bedClasses(season: Season): readonly BedClass[] {
  const groups = new Map<string, SeasonBed[]>();
  for (const bed of season.beds) {
    const key = `${bed.kind}|${bed.tall}|${bed.area.toFixed(3)}|${laterKey(season, bed)}`;
    groups.set(key, [...(groups.get(key) ?? []), bed]);
  }
  return [...groups.values()].map((beds) => {
    const [first] = beds as [SeasonBed];
    const placesPerBed = partsOf(beds.length, first.area);
    const places = beds.map((bed) => ({
      free: placesFreeFrom(season, bed, placesPerBed),
      later: laterHolds(season, bed, placesPerBed),
    }));
    const freeIn = ({ free, later }: (typeof places)[number], week: number): number => {
      const kept = later.reduce(
        (sum, hold) => sum + (hold.from <= week && week < hold.to ? hold.places : 0),
        0,
      );
      return Math.max(0, free.filter((first) => first <= week).length - kept);
    };
    return {
      kind: first.kind,
      tall: first.tall,
      placeArea: first.area / placesPerBed,
      placesPerBed,
      beds,
      free: Array.from({ length: season.horizon }, (_, week) =>
        places.reduce((sum, bed) => sum + freeIn(bed, week), 0),
      ),
    };
  });
}

/** Weeks that a batch of a crop and the rest after it keep a place. */
export const weeksKept = (
  season: Season,
  crop: string,
  batch: { readonly plantedOut: number; readonly cleared: number },
): number =>
  Math.max(
    1,
    weekOf(season, batch.cleared + restAfter(season, crop) + 6) - weekOf(season, batch.plantedOut),
  );
