/** What speaks against rows of the Feed log, by the fish that their tanks held on those days. */
import type { TankState } from '../core/fish-log';
import { isoText } from '../core/serial-date';
import { HALF_OF_TEN, slipsOfTen } from '../core/typing-slips';
import type { Farm } from '../plan/farm';
import { logOf, placeKey } from '../plan/registers-of-farm';
import { figureText } from '../plan/shown-figure';

export interface FeedingDoubt {
  /** Place in the Feed log. */
  readonly at: number;
  readonly says: string;
  /** The row speaks of fish that are not there. */
  readonly cannotBe: boolean;
}

/** Nearer to ten times than to once. */
const TOO_MUCH = Math.exp(HALF_OF_TEN);

/** Of what fish take in the best water, what is not too much in any water: some feed is tried where it is cold. */
const ALWAYS_SOME = 0.1;

/** What is only reckoned, in two digits. */
const rounded = (kilograms: number): number => Number(kilograms.toPrecision(2));

interface Fed {
  readonly at: number;
  readonly day: number;
  readonly given: number;
  /** kg that the plan gives such fish on such a day. */
  readonly usual: number;
}

/** Every row of the Feed log that fits ill to the fish of its tank, in the order of the rows. */
export function doubtsOfFeeding(farm: Farm): FeedingDoubt[] {
  const { feedLog, units } = farm;
  if (feedLog.length === 0) return [];
  const last = Math.max(farm.asOf, ...feedLog.map(({ date }) => date));
  const log = logOf({ ...farm, asOf: last }, farm.fishLog);
  const states = new Map<number, readonly TankState[]>();
  const on = (day: number): readonly TankState[] => {
    let known = states.get(day);
    if (!known) states.set(day, (known = log.stateOn(day)));
    return known;
  };
  const places = new Map(farm.tanks.map(({ name }, i) => [placeKey(name), i]));
  const doubts: FeedingDoubt[] = [];
  const byTank = new Map<number, Fed[]>();
  feedLog.forEach(({ date: day, tank, given }, at) => {
    const place = places.get(placeKey(tank));
    if (place === undefined) {
      doubts.push({ at, says: `there is no tank "${tank.trim()}"`, cannotBe: true });
      return;
    }
    if (given === 0) return;
    // Fish that left in the course of the day may have been fed before.
    const held = [day, day - 1].find((recent) => (on(recent)[place]?.fish ?? 0) > 0);
    if (held === undefined) {
      doubts.push({
        at,
        says: `${tank.trim()} holds no fish on ${isoText(day)}: write down first where they came from`,
        cannotBe: true,
      });
      return;
    }
    const { daily, most } = log.feedOn(held)[place] ?? { daily: NaN, most: NaN };
    const usual = Math.max(daily, most * ALWAYS_SOME) / 1000;
    // What grows in water that nobody knows has no weight.
    if (!(usual > 0)) return;
    if (given > usual * TOO_MUCH)
      doubts.push({
        at,
        says: `${tank.trim()} got ${figureText(given, 'mass', units)} on ${isoText(day)}; by the plan its fish take ${figureText(rounded(usual), 'mass', units)} a day`,
        cannotBe: false,
      });
    else byTank.set(place, [...(byTank.get(place) ?? []), { at, day, given, usual }]);
  });
  for (const fed of byTank.values()) {
    const shares = fed.map(({ day, given, usual }) => ({ day, value: given / usual }));
    for (const slip of slipsOfTen(shares)) {
      const { at, day, given, usual } = fed[slip.at] as Fed;
      doubts.push({
        at,
        says: `${feedLog[at]?.tank.trim() ?? ''} got ${figureText(given, 'mass', units)} on ${isoText(day)}, where ${figureText(rounded(slip.usual * usual), 'mass', units)} is usual`,
        cannotBe: false,
      });
    }
  }
  return doubts.sort((a, b) => a.at - b.at);
}
