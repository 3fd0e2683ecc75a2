/** What the water took: fresh water a day, and alkalinity for each kg of feed, by the Water log and the Feed log. */
import { type BaseName, gramsPerAlkalinity } from '../core/tables/bases';
import { FeedOfTanks, type Feeding } from './feed-records';

export interface WaterRow {
  readonly date: number;
  /** L since the row before that says how much. */
  readonly added?: number | undefined;
  /** mg/L as CaCO3 */
  readonly alkalinity?: number | undefined;
  /** g of a pure base, and which. */
  readonly baseGiven?: number | undefined;
  readonly base?: BaseName | undefined;
}

export interface WaterRecord {
  readonly from: number;
  readonly to: number;
  readonly value: number;
}

/** Days of one record at least: what is added on single days follows the float, not the farm. */
const MIN_DAYS = 7;
/**
 * Days between two tests from which the use of alkalinity can be read: a test is only good to some mg/L. What it errs
 * by is taken from one time and given to the next.
 */
const MIN_DAYS_OF_ALKALINITY = 14;

const inOrder = <T extends { readonly date: number }>(rows: readonly T[]): T[] =>
  [...rows].sort((a, b) => a.date - b.date);

/** L of fresh water a day, a week or more at a time. */
export function waterUsed(rows: readonly WaterRow[], asOf: number): WaterRecord[] {
  const found: WaterRecord[] = [];
  let from: number | undefined;
  let sum = 0;
  const days = inOrder(rows).filter(({ added, date }) => added !== undefined && date <= asOf);
  days.forEach(({ date, added = 0 }, i) => {
    // What the first day says is of a time of which nobody knows the beginning.
    if (from === undefined) {
      if (days[i + 1]?.date !== date) from = date;
      return;
    }
    sum += added;
    if (date - from < MIN_DAYS || days[i + 1]?.date === date) return;
    found.push({ from, to: date, value: sum / (date - from) });
    from = date;
    sum = 0;
  });
  return found;
}

export interface AlkalinityOf {
  readonly rows: readonly WaterRow[];
  readonly feedings: readonly Feeding[];
  /** Tanks that hold fish on a day. */
  readonly tanksWithFish: (day: number) => readonly string[];
  /** L of water that moves round. */
  readonly volume: number;
  readonly asOf: number;
}

/**
 * g of alkalinity (as CaCO3) for each kg of feed: base that was given, and what the water has less than before. What
 * fresh water brings along is not among it.
 */
export function alkalinityPerFeed(of: AlkalinityOf): WaterRecord[] {
  const { feedings, tanksWithFish, volume, asOf } = of;
  const rows = inOrder(of.rows).filter(({ date }) => date <= asOf);
  const feeds = new FeedOfTanks(feedings);
  const tests = rows.filter(({ alkalinity }) => alkalinity !== undefined);
  const found: WaterRecord[] = [];
  let first = tests[0];
  for (const test of tests) {
    const { date: to, alkalinity } = test;
    if (first?.alkalinity === undefined || alkalinity === undefined) continue;
    const { date: from, alkalinity: before } = first;
    if (to - from < MIN_DAYS_OF_ALKALINITY) continue;
    first = test;
    let given = (before - alkalinity) * (volume / 1000);
    // Base of the day of a test is given after it.
    for (const { date, base, baseGiven } of rows) {
      if (date < from || date >= to || !baseGiven) continue;
      given += base === undefined ? NaN : baseGiven / gramsPerAlkalinity(base);
    }
    const feed = feedBetween(feeds, tanksWithFish, from, to);
    if (feed === undefined || !(feed > 0) || !Number.isFinite(given)) continue;
    found.push({ from, to, value: given / feed });
  }
  return found;
}

/** kg that all tanks got; undefined where a tank with fish has too many days without a line. */
function feedBetween(
  feeds: FeedOfTanks,
  tanksWithFish: (day: number) => readonly string[],
  from: number,
  to: number,
): number | undefined {
  const stays = new Map<string, { from: number; to: number }[]>();
  for (let day = from; day < to; day++)
    for (const tank of tanksWithFish(day)) {
      const of = stays.get(tank) ?? [];
      stays.set(tank, of);
      const last = of.at(-1);
      if (last?.to === day) last.to = day + 1;
      else of.push({ from: day, to: day + 1 });
    }
  let sum = 0;
  for (const [tank, times] of stays)
    for (const time of times) {
      const fed = feeds.between(tank, time.from, time.to);
      if (fed === undefined) return undefined;
      sum += fed;
    }
  return sum;
}
