/**
 * What feed became: for the fish of a tank between two weighings, what they were given and what they gained. A batch
 * that moves as a whole into an empty tank takes its account along.
 */
import type { RowOutcome } from '../core/fish-log';
import type { FishRow } from '../core/fish-log';
import { feedConversion } from '../core/feeding';
import type { Species } from '../core/tables/species';

/** Feed that a tank got on a day, kg. */
export interface Feeding {
  readonly date: number;
  readonly tank: string;
  readonly given: number;
}

export interface ConversionRecord {
  readonly species: Species;
  /** Where the fish were at the last weighing. */
  readonly tank: string;
  readonly from: number;
  readonly to: number;
  /** kg */
  readonly feed: number;
  /** kg, of the fish that lived, were sold or moved on; what died took its feed along. */
  readonly gain: number;
  /** kg of fish that died or were missing when they were counted. */
  readonly died: number;
  /** Feed for each kg gained: the farm's own, deaths among it. */
  readonly conversion: number;
}

export interface FedFish {
  readonly rows: readonly FishRow[];
  readonly outcomes: readonly RowOutcome[];
  readonly feedings: readonly Feeding[];
  readonly speciesIn: (tank: string) => Species | undefined;
}

/** Days between two weighings from which a conversion can be read: what is weighed twice in a week is noise. */
const MIN_DAYS = 14;
/** So many days may follow each other without a line of feed: fish fast for a day or two; more was not written down. */
export const MAX_DAYS_UNKNOWN = 2;

const key = (name: string | undefined): string => (name ?? '').trim().toLowerCase();
const kilograms = (fish: number, weight: number): number => (fish * weight) / 1000;

/** Days of a tank with what was given on each, in order. */
export class FeedOfTanks {
  private readonly days = new Map<string, { day: number; given: number }[]>();

  constructor(feedings: readonly Feeding[]) {
    for (const { date, tank, given } of [...feedings].sort((a, b) => a.date - b.date)) {
      const days = this.days.get(key(tank)) ?? [];
      this.days.set(key(tank), days);
      const last = days.at(-1);
      if (last?.day === date) last.given += given;
      else days.push({ day: date, given });
    }
  }

  /** kg from the start of one day to the start of another; undefined where too many days have no line. */
  between(tank: string, from: number, to: number): number | undefined {
    let sum = 0;
    let known = from - 1;
    for (const { day, given } of this.days.get(key(tank)) ?? []) {
      if (day < from) continue;
      if (day >= to) break;
      if (day - known - 1 > MAX_DAYS_UNKNOWN) return undefined;
      sum += given;
      known = day;
    }
    return to - known - 1 > MAX_DAYS_UNKNOWN ? undefined : sum;
  }
}

/** What is known of the fish of a tank since they were weighed. */
interface Account {
  readonly from: number;
  /** kg when it began, and what came in since. */
  mass: number;
  /** kg that left alive. */
  left: number;
  died: number;
  /** Tanks before this one with the days on which they were entered and left. */
  readonly before: { readonly tank: string; readonly from: number; readonly to: number }[];
  /** Day on which the tank was entered. */
  readonly here: number;
}

export function conversionRecords(fed: FedFish): ConversionRecord[] {
  const { rows, outcomes, feedings, speciesIn } = fed;
  const feeds = new FeedOfTanks(feedings);
  const found: ConversionRecord[] = [];
  const accounts = new Map<string, Account>();
  const held = new Map<string, number>();
  const begin = (tank: string, day: number, mass: number): void => {
    accounts.set(key(tank), { from: day, here: day, mass, left: 0, died: 0, before: [] });
  };

  /** Fish of so many kg were weighed when a day began; false where it is too early to say anything. */
  const close = (tank: string, day: number, mass: number): boolean => {
    const account = accounts.get(key(tank));
    const species = speciesIn(tank);
    if (account === undefined || species === undefined) return true;
    const { from, here, before, died } = account;
    if (day - from < MIN_DAYS) return false;
    const parts = [...before, { tank, from: here, to: day }].map((part) =>
      feeds.between(part.tank, part.from, part.to),
    );
    const gain = mass + account.left - account.mass;
    if (parts.every((part) => part !== undefined) && gain > 0) {
      const feed = parts.reduce((sum, part) => sum + part, 0);
      if (feed > 0)
        found.push({
          ...{ species, tank, from, to: day, feed, gain, died },
          conversion: feedConversion(feed, gain),
        });
    }
    return true;
  };

  const order = rows
    .map((row, at) => ({ row, at, outcome: outcomes[at] }))
    .filter(({ row, outcome }) => outcome?.status === 'done' && row.date !== undefined)
    .sort((a, b) => (a.row.date as number) - (b.row.date as number) || a.at - b.at);
  for (const { row, outcome } of order) {
    const [tank, day] = [row.tank as string, row.date as number];
    const { fish = 0, weight = 0 } = outcome ?? {};
    const before = held.get(key(tank)) ?? 0;
    const now = outcome?.tank?.fish ?? 0;
    held.set(key(tank), now);
    const account = accounts.get(key(tank));
    switch (key(row.kind)) {
      case 'stocked':
        if (before === 0) begin(tank, day, kilograms(fish, weight));
        else if (account) account.mass += kilograms(fish, weight);
        break;
      case 'died':
        if (account) account.died += kilograms(fish, weight);
        if (now === 0) accounts.delete(key(tank));
        break;
      case 'counted': {
        const gone = before - now;
        // More than were thought to be there: what they weighed before is not known.
        if (gone < 0) accounts.delete(key(tank));
        else if (account) account.died += kilograms(gone, weight);
        if (now === 0) accounts.delete(key(tank));
        else if (row.weight !== undefined && close(tank, day, kilograms(now, row.weight)))
          begin(tank, day, kilograms(now, row.weight));
        break;
      }
      case 'weighed':
        if (row.weight !== undefined && close(tank, day, kilograms(now, row.weight)))
          begin(tank, day, kilograms(now, row.weight));
        break;
      case 'moved':
      case 'sold': {
        const isWeighed = row.weight !== undefined;
        const out = kilograms(fish, weight);
        if (account) account.left += out;
        if (key(row.kind) === 'moved') {
          const to = row.toTank as string;
          const there = held.get(key(to)) ?? 0;
          const other = accounts.get(key(to));
          held.set(key(to), outcome?.toTank?.fish ?? 0);
          if (there > 0) {
            // Fish of a weight that was only reckoned blur what the others gained.
            if (isWeighed && other) other.mass += out;
            else accounts.delete(key(to));
          } else if (isWeighed) begin(to, day, out);
          else if (now === 0 && account) {
            const { here, before: tanks } = account;
            accounts.set(key(to), {
              ...account,
              left: account.left - out,
              before: [...tanks, { tank, from: here, to: day }],
              here: day,
            });
            accounts.delete(key(tank));
            break;
          } else accounts.delete(key(to));
        }
        if (now > 0) break;
        if (isWeighed) close(tank, day, 0);
        accounts.delete(key(tank));
        break;
      }
    }
  }
  return found.sort((a, b) => a.to - b.to);
}
