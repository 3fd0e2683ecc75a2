import { type BedClass, laterHolds, placesFreeFrom, type WeekHold } from './bed-classes';
import type { PlantingChoice } from './bed-model';
import { type PlannedBatch, type Season, type SeasonBed, weekOf } from './season';

interface Hold {
  readonly from: number;
  readonly to: number;
  readonly crop: string;
  readonly family: string | undefined;
}

interface Place {
  readonly bed: SeasonBed;
  readonly number: number;
  /** Week from which it is free of what stands in it now. */
  readonly freeFrom: number;
  readonly holds: Hold[];
}

interface Planted {
  readonly choice: PlantingChoice;
  readonly count: number;
}

const isFree = ({ freeFrom, holds }: Place, from: number, to: number): boolean =>
  freeFrom <= from && holds.every((hold) => hold.to <= from || to <= hold.from);

/** What a place held last before a week. */
const before = ({ holds }: Place, week: number): Hold | undefined =>
  holds.reduce<Hold | undefined>(
    (last, hold) => (hold.to <= week && hold.to > (last?.to ?? -1) ? hold : last),
    undefined,
  );

/** Places for all that is planted; what earlier plans meant for beds in the first `weeks` goes there first. */
function placesFor(
  season: Season,
  bedClass: BedClass,
  inOrder: readonly Planted[],
  earlier: readonly PlannedBatch[],
  weeks: number,
): Map<Planted, Place[]> | undefined {
  const fixed: { readonly bed: SeasonBed; readonly hold: WeekHold }[] = [];
  const places: Place[] = bedClass.beds.flatMap((bed) => {
    const { placesPerBed } = bedClass;
    const later = laterHolds(season, bed, placesPerBed);
    // A bed that is kept as a whole is so in all of its places; parts are given out with the rest, by their weeks.
    const whole = later.every(({ places }) => places === placesPerBed) ? later : [];
    if (whole.length === 0) fixed.push(...later.map((hold) => ({ bed, hold })));
    return placesFreeFrom(season, bed, placesPerBed).map((freeFrom, number) => ({
      bed,
      number,
      freeFrom,
      holds: [...whole],
    }));
  });
  fixed.sort((a, b) => a.hold.from - b.hold.from);
  /** Gives places to the rows that begin up to a week; false where they find none. */
  const keepUntil = (week: number): boolean => {
    for (let next = fixed[0]; next && next.hold.from <= week; next = fixed[0]) {
      fixed.shift();
      const { bed, hold } = next;
      const free = places.filter((place) => place.bed === bed && isFree(place, hold.from, hold.to));
      // What the rows have there themselves may be more than the bed holds.
      if (free.length < hold.places && weeks > 0) return false;
      for (const place of free.slice(0, hold.places)) place.holds.push(hold);
    }
    return true;
  };
  const taken = new Map<Planted, Place[]>(inOrder.map((planted) => [planted, []]));
  const take = (planted: Planted, place: Place): void => {
    const { crop, week, kept } = planted.choice;
    const { name = '', family } = season.crops[crop] ?? {};
    place.holds.push({ from: week, to: week + kept, crop: name, family });
    taken.get(planted)?.push(place);
  };

  const used = new Set<PlannedBatch>();
  for (const planted of inOrder) {
    const { crop, week, kept } = planted.choice;
    if (week >= weeks) continue;
    for (const batch of earlier) {
      if (used.has(batch) || batch.crop !== season.crops[crop]?.name) continue;
      if (weekOf(season, batch.plantedOut) !== week) continue;
      used.add(batch);
      let parts = Math.round(batch.area / bedClass.placeArea);
      for (const place of places) {
        if (parts === 0 || (taken.get(planted)?.length ?? 0) >= planted.count) break;
        if (place.bed.name !== batch.bed || !isFree(place, week, week + kept)) continue;
        take(planted, place);
        parts--;
      }
    }
  }

  for (const planted of inOrder) {
    const { crop: at, week, kept } = planted.choice;
    const crop = season.crops[at];
    if (!crop) continue;
    if (!keepUntil(week)) return undefined;
    const own = taken.get(planted) as Place[];
    while (own.length < planted.count) {
      const score = (place: Place): number => {
        const last = before(place, week);
        const family = last === undefined ? place.bed.family : last.family;
        const afterItself =
          season.rotate && crop.family !== undefined && family === crop.family ? 1000 : 0;
        const index = places.indexOf(place);
        const beside = [places[index - 1], places[index + 1]].some(
          (near) =>
            near !== undefined &&
            (own.includes(near) || before(near, week + 1)?.crop === crop.name),
        );
        const sameBed = own.some((other) => other.bed === place.bed);
        return (
          afterItself -
          (sameBed ? 100 : 0) -
          (beside ? 20 : 0) +
          (week - (last?.to ?? place.freeFrom)) * 0.1
        );
      };
      let best: Place | undefined;
      let least = Infinity;
      for (const place of places) {
        if (!isFree(place, week, week + kept)) continue;
        const points = score(place);
        if (points < least) [best, least] = [place, points];
      }
      if (best === undefined) return undefined;
      take(planted, best);
    }
  }
  return taken;
}

/** Weeks of an earlier plan whose beds are kept, tried in this order. */
const KEPT_WEEKS = [Infinity, 16, 12, 10, 8, 7, 6, 5, 4, 3, 2, 1, 0];

/**
 * Gives the places of one class out to the counted batches, as intervals: no place holds two at once, since
 * the model never keeps more places than are free. What an earlier plan meant for a bed goes into it again, as
 * far as the rest still finds room. Among the free places the one is taken that need not follow its own
 * family, then one beside the same crop, then the one that has been empty for the shortest time.
 */
export function assignBeds(
  season: Season,
  bedClass: BedClass,
  planted: readonly Planted[],
  earlier: readonly PlannedBatch[] = [],
): readonly PlannedBatch[] {
  const inOrder = [...planted].sort(
    (a, b) => a.choice.week - b.choice.week || b.choice.kept - a.choice.kept,
  );
  let taken: Map<Planted, Place[]> | undefined;
  for (const weeks of earlier.length === 0 ? [0] : KEPT_WEEKS) {
    taken ??= placesFor(season, bedClass, inOrder, earlier, weeks);
  }
  if (taken === undefined) throw new Error('more places are planted than are free');
  return [...taken].flatMap(([{ choice }, places]) => {
    const beds = new Map<SeasonBed, number>();
    for (const { bed } of places) beds.set(bed, (beds.get(bed) ?? 0) + 1);
    return [...beds].map(([bed, parts]) => ({
      ...choice.batch,
      crop: season.crops[choice.crop]?.name ?? '',
      bed: bed.name,
      plants: parts * choice.plants,
      area: parts * choice.area,
    }));
  });
}
