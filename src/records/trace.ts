/**
 * Where did it go? From a lot of fish, a batch of plants or a day: what came in as it, where it was, with what
 * water and treatments, and where it went. One step back and one step forward, by the rows of the registers alone.
 */
import { nameKey, nearestName } from '../core/nearest-name';
import { isoText, serialFromText } from '../core/serial-date';
import type { Farm } from '../plan/farm';
import { lotKey, type Track } from './track';
import { tracksOfFish } from './track-fish';
import { tracksOfPlants } from './track-plants';

export interface Trace {
  /** The lot or day that was asked for. */
  readonly asked: string;
  readonly tracks: readonly Track[];
}

/** So many names are offered where none fits. */
const MAX_NAMES = 6;

/** Nothing in the registers has this name or day; the sentence says what is near. */
export class NoSuchLot extends Error {
  constructor(says: string) {
    super(says);
    this.name = 'NoSuchLot';
  }
}

/** Days with something that came in or went out, in order. */
function daysOf({ fishLog, plantings, harvests }: Farm): number[] {
  const days = [
    ...fishLog.flatMap(({ date, planned }) => (planned === undefined ? [date] : [])),
    ...plantings.flatMap(({ planned, sown, planted }) =>
      planned === undefined ? [sown, planted] : [],
    ),
    ...harvests.map(({ date }) => date),
  ].filter((day) => day !== undefined);
  return [...new Set(days)].sort((a, b) => a - b);
}

const namesOf = (tracks: readonly Track[]): string[] => [
  ...new Set(tracks.map(({ name }) => name)),
];

/** Every lot and batch of the farm by its name, those that came last first. */
export const lotsOf = (farm: Farm): string[] =>
  namesOf(
    [...tracksOfFish(farm), ...tracksOfPlants(farm)].sort(
      (a, b) => (b.began ?? 0) - (a.began ?? 0),
    ),
  );

function ofDay(all: readonly Track[], day: number, farm: Farm): Trace {
  const touched = all.filter(({ cameFrom, wentTo, cleared = [] }) =>
    [...cameFrom, ...wentTo, ...cleared].some(({ dates }) => dates.includes(day)),
  );
  // What went out is what somebody asks about.
  const goes = ({ wentTo }: Track): number =>
    wentTo.some(({ dates }) => dates.includes(day)) ? 0 : 1;
  if (touched.length > 0) {
    return { asked: isoText(day), tracks: [...touched].sort((a, b) => goes(a) - goes(b)) };
  }
  const days = daysOf(farm);
  const before = days.filter((other) => other < day).at(-1);
  const after = days.find((other) => other > day);
  const near = [before, after].flatMap((found) => (found === undefined ? [] : [isoText(found)]));
  throw new NoSuchLot(
    `Nothing came in, was cut or was sold on ${isoText(day)}${near.length > 0 ? `; the nearest days are ${near.join(' and ')}` : ''}.`,
  );
}

/** Traces a lot by its name, or all that came in and went out on a day ("2026-04-03"). Throws NoSuchLot. */
export function trace(asked: string, farm: Farm): Trace {
  const wanted = asked.trim();
  if (wanted === '') throw new NoSuchLot('Type the name of a lot or a day such as 2026-04-03.');
  const all = [...tracksOfFish(farm), ...tracksOfPlants(farm)];
  const named = all.filter(({ name }) => lotKey(name) === lotKey(wanted));
  if (named.length > 0) return { asked: named[0]?.name ?? wanted, tracks: named };
  const day = serialFromText(wanted);
  if (day !== undefined) return ofDay(all, day, farm);
  const names = namesOf(all);
  if (names.length === 0)
    throw new NoSuchLot('The registers hold no lot of fish and no batch of plants yet.');
  const like = names.filter((name) => nameKey(name).includes(nameKey(wanted))).slice(0, MAX_NAMES);
  const near = like.length > 0 ? like : [nearestName(wanted, names) ?? ''];
  throw new NoSuchLot(
    `There is no lot called "${wanted}"; near to it ${near.length === 1 ? 'is' : 'are'} ${near.map((name) => `"${name}"`).join(', ')}.`,
  );
}
