/**
 * What an earlier plan of the fish meant to do. A new plan keeps to it where it can: each stocking, move or sale that the
 * earlier one had otherwise costs a little, and what is done in the same week goes into the same tanks.
 */
import type { FishRow } from '../core/fish-log';
import { dayOfWeek, type FishWanted, type TankClass } from './fish-wanted';

/** Of the cost of netting a tank: what an event that was not planned costs. */
const CHANGE = 8;
/** Share by which a number of fish may differ from the best for the earlier one to stay. */
const SAME = 0.05;
/** What each kg costs by which a batch is larger or smaller than it was planned, kg. */
export const OTHER_SIZE = 0.25;

/** A tank by its name, or any of a size. */
type Place = string | number;

const key = (name: string): string => name.trim().toLowerCase();

/** Days after the first possible one on which an earlier plan handled the fish: the same day of the week is kept. */
export function shiftOf(earlier: readonly FishRow[], asOf: number): number {
  const days = [0, 0, 0, 0, 0, 0, 0];
  for (const { date = 0 } of earlier) {
    if (date > asOf) days[(date - asOf - 1) % 7] = (days[(date - asOf - 1) % 7] as number) + 1;
  }
  return days.indexOf(Math.max(...days));
}

export class EarlierFish {
  readonly #events = new Set<string>();
  readonly #into = new Map<number, string[]>();
  readonly #stocked = new Map<string, number>();
  readonly #last: number = -Infinity;
  readonly #cost: number;

  /** `netting`: what netting one tank costs. */
  constructor(wanted: FishWanted, classes: readonly TankClass[], netting: number) {
    this.#cost = CHANGE * netting;
    const size = (name: string): number =>
      classes.findIndex(({ tanks }) => tanks.some((tank) => key(tank.name) === key(name)));
    for (const { date = 0, kind, tank = '', toTank, fish = 0 } of wanted.earlier ?? []) {
      const week = (date - dayOfWeek(wanted, 0)) / 7;
      if (!Number.isInteger(week) || week < 0) continue;
      this.#last = Math.max(this.#last, week);
      const into = kind === 'stocked' ? tank : toTank;
      if (into !== undefined) {
        const list = this.#into.get(week);
        if (list === undefined) this.#into.set(week, [key(into)]);
        else list.push(key(into));
      }
      if (kind === 'stocked') {
        const place = `${week} ${size(tank)}`;
        this.#events.add(`stocked ${place}`);
        this.#stocked.set(place, (this.#stocked.get(place) ?? 0) + fish);
        continue;
      }
      for (const from of [key(tank), size(tank)]) {
        this.#events.add(
          kind === 'sold' ? `sold ${week} ${from}` : `moved ${week} ${from} ${size(toTank ?? '')}`,
        );
      }
    }
  }

  /** Nothing is a change beyond the last week of the earlier plan, nor where there was none. */
  #unless(event: string, week: number): number {
    return week > this.#last || this.#events.has(event) ? 0 : this.#cost;
  }

  /** kg that stocking a tank of a size in a week costs as a change. */
  stocking = (week: number, size: number): number => this.#unless(`stocked ${week} ${size}`, week);

  moving = (week: number, from: Place, size: number): number =>
    this.#unless(`moved ${week} ${placeKey(from)} ${size}`, week);

  selling = (week: number, from: Place): number =>
    this.#unless(`sold ${week} ${placeKey(from)}`, week);

  /** Whether fish were to come into a tank in a week. */
  into = (week: number, name: string): boolean =>
    this.#into.get(week)?.includes(key(name)) ?? false;

  /** kg that a course costs as a change which cannot take as many fish as were to be stocked. */
  otherSize(week: number, size: number, least: number, most: number): number {
    const was = this.stocked(week, size);
    return was === undefined || (was >= least && was <= most + 1) ? 0 : this.#cost;
  }

  /** Fish that the earlier plan stocked into tanks of a size in a week, if any. */
  stocked = (week: number, size: number): number | undefined =>
    this.#stocked.get(`${week} ${size}`);
}

/** As many fish as before where that is near what is best, and possible. */
export function keptNear(
  was: number | undefined,
  best: number,
  { least, most }: { readonly least: number; readonly most: number },
): number {
  const isNear = was !== undefined && Math.abs(was - best) <= SAME * was;
  return isNear && was >= least && was <= most ? was : best;
}

const placeKey = (place: Place): Place => (typeof place === 'string' ? key(place) : place);
