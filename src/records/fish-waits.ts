/** Fish that are sold before the days to wait after a treatment are over, wherever they were treated. */
import { isoText } from '../core/serial-date';
import type { Farm, TreatmentEntry } from '../plan/farm';
import { logOf, placeKey } from '../plan/registers-of-farm';
import { freeFrom, waitsFor } from './days-to-wait';

export interface SoldTooSoon {
  /** Place in the Fish log. */
  readonly at: number;
  readonly says: string;
  /** Treated in the tank that they are sold from, as the Fish log itself says; else before they were moved there. */
  readonly here: boolean;
}

const treatedWith = ({ what, date, ...treatment }: TreatmentEntry): string =>
  `treated with ${what} on ${isoText(date)} and free from ${isoText(freeFrom({ date, ...treatment }))} only`;

/** Every sale of the Fish log, done or planned, of fish that have still to wait: what was treated takes its wait along. */
export function soldTooSoon(farm: Farm): SoldTooSoon[] {
  const { treatments, fishLog: rows } = farm;
  if (treatments.every(({ wait = 0 }) => wait === 0)) return [];
  const last = rows.reduce((day, { date }) => Math.max(day, date), farm.asOf);
  const log = logOf({ ...farm, asOf: last }, rows);
  /** Treatments of fish that came from other tanks. */
  const brought = new Map<string, readonly TreatmentEntry[]>();
  const found: SoldTooSoon[] = [];
  const order = rows
    .flatMap((_, at) => (/^(done|planned)$/.test(log.rows[at]?.status ?? '') ? [at] : []))
    .sort((a, b) => (rows[a]?.date ?? 0) - (rows[b]?.date ?? 0) || a - b);
  for (const at of order) {
    const { date, tank, what, toTank } = rows[at] as Farm['fishLog'][number];
    const here = waitsFor(treatments, tank, date);
    const along = (brought.get(placeKey(tank)) ?? []).filter((wait) => freeFrom(wait) > date);
    if (what === 'moved' && toTank !== undefined) {
      const key = placeKey(toTank);
      brought.set(key, [...new Set([...(brought.get(key) ?? []), ...here, ...along])]);
    }
    if (what === 'sold') {
      const [first, other] = [here[0], along[0]];
      if (first) found.push({ at, says: `${tank.trim()} was ${treatedWith(first)}`, here: true });
      else if (other)
        found.push({
          at,
          says: `fish came into ${tank.trim()} from ${other.where.trim()}, ${treatedWith(other)}`,
          here: false,
        });
    }
    if ((log.rows[at]?.tank?.fish ?? 1) === 0) brought.delete(placeKey(tank));
  }
  return found.sort((a, b) => a.at - b.at);
}
