import type { BedClass } from './bed-classes';
import type { PlantingChoice } from './bed-model';
import { type PlannedBatch, type Season, type SeasonBed, WEEK, weekOf } from './season';

interface Place {
  readonly bed: SeasonBed;
  readonly number: number;
  /** Week from which it is free. */
  freeFrom: number;
  family: string | undefined;
  crop: string | undefined;
}

/**
 * Gives the places of one class out to the counted batches, as intervals: no place holds two at once, since
 * the model never keeps more places than are free. Among the free places the one is taken that need not
 * follow its own family, then one beside the same crop, then the one that has been empty for the shortest time.
 */
export function assignBeds(
  season: Season,
  bedClass: BedClass,
  planted: readonly { readonly choice: PlantingChoice; readonly count: number }[],
): readonly PlannedBatch[] {
  const places: Place[] = bedClass.beds.flatMap((bed) =>
    Array.from({ length: bedClass.placesPerBed }, (_, number) => ({
      bed,
      number,
      freeFrom: Math.max(0, weekOf(season, bed.freeFrom + WEEK - 1)),
      family: bed.family,
      crop: undefined,
    })),
  );
  const made: PlannedBatch[] = [];
  const inOrder = [...planted].sort(
    (a, b) => a.choice.week - b.choice.week || b.choice.kept - a.choice.kept,
  );
  for (const { choice, count } of inOrder) {
    const crop = season.crops[choice.crop];
    if (!crop) continue;
    const taken: Place[] = [];
    for (let i = 0; i < count; i++) {
      const free = places.filter(
        (place) => place.freeFrom <= choice.week && !taken.includes(place),
      );
      const score = (place: Place): number => {
        const afterItself =
          season.rotate && crop.family !== undefined && place.family === crop.family ? 1000 : 0;
        const index = places.indexOf(place);
        const beside = [places[index - 1], places[index + 1]].some(
          (near) => near !== undefined && (taken.includes(near) || near.crop === crop.name),
        );
        const sameBed = taken.some((other) => other.bed === place.bed);
        return (
          afterItself -
          (sameBed ? 100 : 0) -
          (beside ? 20 : 0) +
          (choice.week - place.freeFrom) * 0.1
        );
      };
      const best = free.reduce<Place | undefined>(
        (found, place) => (found && score(found) <= score(place) ? found : place),
        undefined,
      );
      if (!best) throw new Error('more places are planted than are free');
      taken.push(best);
    }
    for (const place of taken) {
      place.freeFrom = choice.week + choice.kept;
      place.family = crop.family;
      place.crop = crop.name;
    }
    const beds = new Map<SeasonBed, number>();
    for (const { bed } of taken) beds.set(bed, (beds.get(bed) ?? 0) + 1);
    for (const [bed, parts] of beds) {
      made.push({
        ...choice.batch,
        crop: crop.name,
        bed: bed.name,
        plants: parts * choice.plants,
        area: parts * choice.area,
      });
    }
  }
  return made;
}
