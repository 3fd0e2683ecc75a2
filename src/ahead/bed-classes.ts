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

/** First week of the season in which something may be planted here, on its Monday. */
const firstFreeWeek = (season: Season, bed: SeasonBed): number =>
  Math.max(0, weekOf(season, bed.freeFrom + 6));

/** Sorts the beds of a season into classes, in the order of their first beds. */
export function bedClasses(season: Season): readonly BedClass[] {
  const groups = new Map<string, SeasonBed[]>();
  for (const bed of season.beds) {
    const key = `${bed.kind}|${bed.tall}|${bed.area.toFixed(3)}`;
    groups.set(key, [...(groups.get(key) ?? []), bed]);
  }
  return [...groups.values()].map((beds) => {
    const [first] = beds as [SeasonBed];
    const placesPerBed = partsOf(beds.length, first.area);
    const firstWeeks = beds.map((bed) => firstFreeWeek(season, bed));
    return {
      kind: first.kind,
      tall: first.tall,
      placeArea: first.area / placesPerBed,
      placesPerBed,
      beds,
      free: Array.from(
        { length: season.horizon },
        (_, week) => placesPerBed * firstWeeks.filter((first) => first <= week).length,
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
