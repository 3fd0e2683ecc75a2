import * as v from 'valibot';
import { nearestName } from '../core/nearest-name';
import type { FigureRange, LookupTable } from '../functions/lookup';
import { known, measured, oneOf } from './farm-fields';
import { type OwnFigures, rangeOfFigure } from './own-figures';
import { type Figures, presetNames, presetOf } from './presets';
import { cropTable } from '../functions/crop-table';
import type { UnitSystem } from './quantities';

/** Fields of a farm file for what a grower changed of the plan's own figures and tables. */

/** `figures`: those of the plan's presets that were changed, by their name; null where one was cleared. */
export function figuresField(system: UnitSystem) {
  const entries = presetNames.map((name) => {
    const preset = presetOf(name);
    const field =
      'quantity' in preset
        ? measured(preset.quantity, preset, system)
        : preset.words
          ? oneOf(preset.words as [string, ...string[]])
          : known(cropTable.book, cropTable.nameOf);
    return [
      name,
      v.optional(v.nullable(field as v.GenericSchema<unknown, number | string>)),
    ] as const;
  });
  return v.pipe(
    v.strictObject(Object.fromEntries(entries)),
    v.transform((figures) => figures as Figures),
  );
}

const got = (value: unknown): string => `got ${String(JSON.stringify(value)).slice(0, 60)}`;
const isFigure = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value);

const within = (value: number, range: FigureRange | undefined): boolean =>
  range === undefined || (value >= range[0] && value <= range[1]);

/** `crops` or `species`: figures by name and fact, in the units of the table. */
export function ownFiguresField<R>(table: LookupTable<R>) {
  const columns = new Map(table.columns.map((column) => [column.fact, column]));
  const lines = new Map(table.matrices.map((matrix) => [matrix.fact, matrix]));
  const facts = [...columns.keys(), ...lines.keys()];
  const isOfNumbers = new Set(
    table.columns
      .filter(({ of }) => table.rows.some((row) => typeof of(row) === 'number'))
      .map(({ fact }) => fact),
  );

  /** What is wrong with a figure; undefined where nothing is. */
  function fault(fact: string, value: unknown): string | undefined {
    const line = lines.get(fact);
    if (line !== undefined) {
      const { heads, range, unit } = line;
      const count = heads.values.length;
      return Array.isArray(value) &&
        value.length === count &&
        value.every((one) => isFigure(one) && within(one, range))
        ? undefined
        : `must be ${rangeOfFigure(range, unit, `${count} numbers`)}; ${got(value)}`;
    }
    const column = columns.get(fact);
    if (column === undefined)
      return `is no fact of the table; did you mean "${nearestName(fact, facts)}"?`;
    const isNumber = isOfNumbers.has(fact);
    if (value === null) return undefined;
    if (isNumber ? isFigure(value) && within(value, column.range) : typeof value === 'string')
      return undefined;
    return `must be ${isNumber ? rangeOfFigure(column.range, column.unit) : 'text'}, or null for none; ${got(value)}`;
  }

  /** What does not go together with another figure of the same row, by its fact. */
  function outOfOrder(row: R, given: Readonly<Record<string, unknown>>): [string, string][] {
    const figureOf = (fact: string): number => {
      const own = given[fact];
      return Number(isFigure(own) ? own : columns.get(fact)?.of(row));
    };
    return table.orders.flatMap(([low, high, equal]): [string, string][] => {
      const [below, above] = [figureOf(low), figureOf(high)];
      if (below < above || (equal && below === above)) return [];
      const isLow = isFigure(given[low]);
      if (!isLow && !isFigure(given[high])) return [];
      const [fact, other, side] = isLow
        ? [low, high, equal ? 'at most' : 'below']
        : [high, low, equal ? 'at least' : 'above'];
      return [
        [
          fact,
          `must be ${side} "${columns.get(other)?.label ?? other}", which is ${figureOf(other)}; ${got(given[fact])}`,
        ],
      ];
    });
  }

  return v.pipe(
    v.record(v.string(), v.record(v.string(), v.unknown())),
    v.rawTransform(({ dataset, addIssue }): OwnFigures => {
      const own: Record<string, OwnFigures[string]> = {};
      for (const [name, given] of Object.entries(dataset.value)) {
        const row = table.book.find(name);
        const at = (key: string, value: unknown, input: unknown): v.IssuePathItem => ({
          type: 'object',
          origin: 'value',
          input: input as Record<string, unknown>,
          key,
          value,
        });
        const path = at(name, given, dataset.value);
        if (row === undefined) {
          const near = nearestName(name, table.book.names);
          addIssue({
            message: `must be the name of a ${table.book.what} in the table, such as "${near}"`,
            path: [path],
          });
          continue;
        }
        const wrong = Object.entries(given).flatMap(([fact, value]): [string, string][] => {
          const message = fault(fact, value);
          return message === undefined ? [] : [[fact, message]];
        });
        for (const [fact, message] of wrong.length > 0 ? wrong : outOfOrder(row, given))
          addIssue({ message, path: [path, at(fact, given[fact], given)] });
        // None of what the table does not know is nothing of one's own.
        const changed = Object.entries(given).filter(
          ([fact, value]) =>
            value !== null || table.columns.find((column) => column.fact === fact)?.of(row) !== '',
        );
        own[table.nameOf(row)] = Object.fromEntries(changed) as OwnFigures[string];
      }
      return own;
    }),
  );
}

/** `feedWeights`: own head weights of the feed table, rising, g. */
export const headsField = (count: number) =>
  v.pipe(
    v.array(v.number(), (issue) => `must be ${count} weights in g; ${got(issue.input)}`),
    v.check(
      (weights) =>
        weights.length === count && weights.every((weight, i) => weight > (weights[i - 1] ?? 0)),
      (issue) => `must be ${count} rising weights in g; ${got(issue.input)}`,
    ),
  );
