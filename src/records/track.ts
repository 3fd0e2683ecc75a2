/** What became of one lot of fish or one batch of plants. */
import type { Farm, TreatmentEntry } from '../plan/farm';
import { figureText } from '../plan/shown-figure';
import { isoText } from '../core/serial-date';
import type { QuantityId } from '../plan/quantities';
import { placeKey } from '../plan/registers-of-farm';
import { freeFrom, waitsFor } from './days-to-wait';
import { type Entry, type RegisterList } from './register-row';

/** A row of a register that belongs to it, in words. */
export interface TracedRow {
  readonly list: RegisterList;
  /** Place in that list of the farm. */
  readonly at: number;
  /** The days that it speaks of. */
  readonly dates: readonly number[];
  readonly says: string;
  /** What was not right with it, in a sentence. */
  readonly warns?: string;
}

/** Where it was, and from when to when. */
export interface Stay {
  readonly place: string;
  readonly from: number;
  /** Undefined where it is still there. */
  readonly to: number | undefined;
}

export interface Track {
  readonly kind: 'fish' | 'plants';
  readonly name: string;
  /** What it is: species or crop. */
  readonly of: string;
  /** Its first day. */
  readonly began: number | undefined;
  readonly cameFrom: readonly TracedRow[];
  readonly stays: readonly Stay[];
  readonly tests: readonly TracedRow[];
  readonly treatments: readonly TracedRow[];
  /** Of fish: each feed that they got in a tank, as one line. */
  readonly feed?: readonly TracedRow[];
  /** Deaths, counts, clearing. */
  readonly cleared?: readonly TracedRow[];
  readonly wentTo: readonly TracedRow[];
  /** What of it is still there. */
  readonly left: string;
}

/** Names of lots are the same whatever their case and the spaces around them. */
export const lotKey = placeKey;

const tested = [
  ['temperature', 'water', 'temperature'],
  ['ph', 'pH', 'ph'],
  ['tan', 'ammonia-N', 'concentration'],
  ['nitrite', 'nitrite-N', 'concentration'],
  ['nitrate', 'nitrate-N', 'concentration'],
  ['oxygen', 'oxygen', 'concentration'],
  ['alkalinity', 'alkalinity', 'alkalinity'],
  ['iron', 'iron', 'concentration'],
  ['added', 'water added', 'volume'],
  ['baseGiven', 'base given', 'dose'],
] as const satisfies readonly (readonly [keyof Entry<'waterTests'>, string, QuantityId])[];

/** A test of the water in words. */
export const testInWords = (test: Entry<'waterTests'>, { units }: Pick<Farm, 'units'>): string =>
  [
    `${isoText(test.date)}:`,
    tested
      .flatMap(([field, word, quantity]) => {
        const value = test[field];
        if (value === undefined) return [];
        const text = figureText(value, quantity, units);
        // The unit of a pH is its name.
        if (field === 'baseGiven') return [`${text} ${test.base ?? 'of a base'} given`];
        return quantity === 'ph' ? [text.replace(/^(\S+) pH$/, 'pH $1')] : [`${word} ${text}`];
      })
      .join(', ') || 'nothing measured',
  ].join(' ');

/** The place is one in which it was. */
const isAt = ({ where }: TreatmentEntry, place: string): boolean =>
  placeKey(where) === placeKey(place) || placeKey(where) === 'all';

const remarkOf = (remark: string | undefined): string => (remark ? ` (${remark.trim()})` : '');

export const treatmentInWords = (treatment: TreatmentEntry): string => {
  const { date, where, what, amount, wait = 0, remark } = treatment;
  return `${isoText(date)}, ${where}: ${what}${amount === undefined ? '' : `, ${amount}`}; ${
    wait === 0 ? 'no days to wait' : `free from ${isoText(freeFrom(treatment))}`
  }${remarkOf(remark)}`;
};

/** Tests and treatments of the days on which it was somewhere; all of the water is one. */
export function careOf(
  stays: readonly Stay[],
  farm: Farm,
): { readonly tests: readonly TracedRow[]; readonly treatments: readonly TracedRow[] } {
  const from = Math.min(...stays.map((stay) => stay.from));
  const to = Math.max(...stays.map((stay) => stay.to ?? Infinity));
  return {
    tests: farm.waterTests.flatMap((test, at): TracedRow[] =>
      test.date < from || test.date > to
        ? []
        : [{ list: 'waterTests', at, dates: [test.date], says: testInWords(test, farm) }],
    ),
    treatments: farm.treatments.flatMap((treatment, at): TracedRow[] =>
      stays.some(
        (stay) =>
          isAt(treatment, stay.place) &&
          treatment.date <= (stay.to ?? Infinity) &&
          // What was given before still counts as long as one has to wait for it.
          (treatment.date >= stay.from || freeFrom(treatment) > stay.from),
      )
        ? [
            {
              list: 'treatments',
              at,
              dates: [treatment.date],
              says: treatmentInWords(treatment),
            },
          ]
        : [],
    ),
  };
}

/** Each feed that was given where it was, all rows of a stay as one line. */
export function feedOf(stays: readonly Stay[], farm: Pick<Farm, 'feedLog' | 'units'>): TracedRow[] {
  return stays.flatMap(({ place, from, to = Infinity }): TracedRow[] => {
    const feeds = new Map<string, { at: number; days: number[]; given: number }>();
    farm.feedLog.forEach(({ date, tank, given, feed }, at) => {
      if (given === 0 || date < from || date > to || placeKey(tank) !== placeKey(place)) return;
      const name = feed?.trim() ?? '';
      const of = feeds.get(name) ?? { at, days: [], given: 0 };
      of.days.push(date);
      of.given += given;
      feeds.set(name, of);
    });
    return [...feeds].map(([name, { at, days, given }]): TracedRow => {
      const [first, last] = [Math.min(...days), Math.max(...days)];
      const time = first === last ? isoText(first) : `${isoText(first)} to ${isoText(last)}`;
      return {
        list: 'feedLog',
        at,
        dates: [...new Set(days)],
        says: `${time}: ${figureText(given, 'mass', farm.units)} of ${name === '' ? 'a feed without a name' : name} in ${place}`,
      };
    });
  });
}

/** What speaks against having taken something from a place on a day; nothing where nothing does. */
export function tooSoon(
  farm: Pick<Farm, 'treatments'>,
  place: string,
  day: number,
): { readonly warns?: string } {
  const [first] = waitsFor(farm.treatments, place, day);
  return first === undefined
    ? {}
    : {
        warns: `${place} was treated with ${first.what} on ${isoText(first.date)} and free from ${isoText(freeFrom(first))} only`,
      };
}

/** What was sold, in words. */
export const saleInWords = (
  { date, crop, bed, quantity, unit, price, buyer }: Entry<'harvests'>,
  { currency }: Pick<Farm, 'currency'>,
): string =>
  `${isoText(date)}: ${quantity} ${unit === 'piece' && quantity !== 1 ? 'pieces' : unit === 'bunch' && quantity !== 1 ? 'bunches' : unit} of ${crop}${bed === undefined ? '' : ` from ${bed.trim()}`}${buyer === undefined ? ', buyer not written down' : ` to ${buyer.trim()}`}, ${price} ${currency} each`;

export { remarkOf };
