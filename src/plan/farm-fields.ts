import * as v from 'valibot';
import { GillError } from '../core/errors';
import { nearestName } from '../core/nearest-name';
import { serialFromIsoText } from '../core/serial-date';
import type { NameBook } from '../functions/parameter';
import { readable } from '../functions/unit-word';
import { numberText } from '../functions/number-text';
import { readNumberText } from '../functions/units';
import {
  quantities,
  type QuantityId,
  shownIn,
  toMetric,
  toShown,
  type UnitSystem,
} from './quantities';

/** Makers of the fields of a farm file. Every message says what would be right. */

interface Range {
  /** Bounds in metric units. */
  readonly min?: number;
  readonly max?: number;
  /** 0 itself is not possible. */
  readonly positive?: boolean;
  readonly whole?: boolean;
}

const got = (value: unknown): string =>
  value === undefined ? 'it is missing' : `got ${JSON.stringify(value).slice(0, 60)}`;

function rangeWords(
  id: QuantityId,
  { min, max, positive, whole }: Range,
  system: UnitSystem,
): string {
  const { unit } = shownIn(id, system);
  const shown = (value: number): string =>
    readable(String(Number(toShown(value, id, system).toPrecision(4))));
  const words = unit === 'pH' ? 'a pH' : whole ? 'a whole number' : 'a number';
  const low = positive ? ' above 0' : min === undefined ? '' : ` from ${shown(min)}`;
  const high =
    max === undefined ? '' : `${low === '' ? ' up' : positive ? ' and up' : ''} to ${shown(max)}`;
  // A pH has no unit, and a share is written as one in the file: 1 is all of it.
  const measured = unit === '%' ? ' (1 is 100 %)' : unit === '' || unit === 'pH' ? '' : ` ${unit}`;
  return words + low + high + measured;
}

/** A measured figure: a bare number in the farm's own units, or text with a unit ("78 degF"). */
export function measured(id: QuantityId, range: Range, system: UnitSystem) {
  const words = `must be ${rangeWords(id, range, system)}`;
  return v.pipe(
    v.union([v.number(), v.string()], (issue) => `${words}; ${got(issue.input)}`),
    v.rawTransform(({ dataset, addIssue, NEVER }): number => {
      const given = dataset.value;
      let value: number;
      try {
        // Text without a unit is a figure in the farm's own units too.
        const commas = system === 'US' ? 'thousands' : 'ask';
        const text = typeof given === 'string' ? numberText(given, commas) : undefined;
        const isBare = text !== undefined && text.rest === '' && text.values.length === 1;
        value =
          typeof given === 'number'
            ? toMetric(given, id, system)
            : isBare
              ? toMetric(text.values[0], id, system)
              : readNumberText(given, quantities[id].reads, 'this field', commas);
      } catch (thrown) {
        if (!(thrown instanceof GillError)) throw thrown;
        const either = / may be .* or .*/.exec(thrown.message);
        addIssue({ message: `${words}; ${got(given)}${either ? `, which${either[0]}` : ''}` });
        return NEVER;
      }
      const { min = -Infinity, max = Infinity, positive, whole } = range;
      // Bounds are meant for figures as typed: what a change of units adds in the last digits is let through.
      const slack = 1e-9 * Math.abs(value);
      const fits =
        Number.isFinite(value) &&
        value >= min - slack &&
        value <= max + slack &&
        (!positive || value > 0) &&
        (!whole || Number.isInteger(value));
      if (fits) return value;
      addIssue({ message: `${words}; ${got(given)}` });
      return NEVER;
    }),
  );
}

/** A line of text; control characters have no place in a cell. */
export const text = (most: number) =>
  v.pipe(
    v.string((issue) => `must be text; ${got(issue.input)}`),
    v.check(
      (value) => value.trim() !== '' && value.length <= most && !/\p{Cc}/u.test(value),
      (issue) => `must be one line of 1 to ${most} characters; ${got(issue.input)}`,
    ),
  );

/** A date written yyyy-mm-dd, as a sheet serial. */
export const day = () =>
  v.pipe(
    v.string((issue) => `must be a date such as "2026-03-01"; ${got(issue.input)}`),
    v.rawTransform(({ dataset, addIssue, NEVER }): number => {
      const serial = serialFromIsoText(dataset.value);
      if (serial !== undefined && serial >= 36526 && serial <= 73050) return serial;
      addIssue({
        message: `must be a date of the years 2000 to 2099 such as "2026-03-01"; ${got(dataset.value)}`,
      });
      return NEVER;
    }),
  );

/** A name that a table knows, as the table spells it. */
export function known<R>(book: NameBook<R>, nameOf: (row: R) => string) {
  return v.pipe(
    v.string((issue) => `must be the name of a ${book.what}; ${got(issue.input)}`),
    v.rawTransform(({ dataset, addIssue, NEVER }): string => {
      const row = book.find(dataset.value);
      if (row !== undefined) return nameOf(row);
      const near = nearestName(dataset.value, book.names);
      addIssue({
        message: `must be the name of a ${book.what} in the table, such as "${near}"; ${got(dataset.value)}`,
      });
      return NEVER;
    }),
  );
}

export const oneOf = <const W extends readonly [string, ...string[]]>(words: W) =>
  v.picklist(
    words,
    (issue) => `must be one of ${words.map((word) => `"${word}"`).join(', ')}; ${got(issue.input)}`,
  );

/** The same, whatever the case of the word and the spaces around it: as sheets look it up. */
export const wordOf = <const W extends readonly [string, ...string[]]>(words: W) =>
  v.pipe(
    v.unknown(),
    v.transform((word) => (typeof word === 'string' ? word.trim().toLowerCase() : word)),
    oneOf(words),
  );

/** Rows; `least` to `most` of them. */
export const rowsOf = <S extends v.GenericSchema>(row: S, least: number, most: number) =>
  v.pipe(
    v.array(row, (issue) => `must be a list; ${got(issue.input)}`),
    v.check(
      (rows) => rows.length >= least && rows.length <= most,
      (issue) =>
        `must have ${least === most ? least : `${least} to ${most}`} rows; got ${issue.input.length}`,
    ),
  );
