import * as v from 'valibot';
import { nearestName } from '../core/nearest-name';
import type { LookupTable } from '../functions/lookup';
import { known, measured, oneOf } from './farm-fields';
import type { OwnFigures } from './own-figures';
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

/** `crops` or `species`: figures by name and fact, in the units of the table. */
export function ownFiguresField<R>(table: LookupTable<R>) {
  const columns = new Map(
    table.columns.map((column) => [
      column.fact,
      table.rows.some((row) => typeof column.of(row) === 'number'),
    ]),
  );
  const lines = new Map(table.matrices.map((matrix) => [matrix.fact, matrix.heads.values.length]));
  const facts = [...columns.keys(), ...lines.keys()];

  /** What is wrong with a figure; undefined where nothing is. */
  function fault(fact: string, value: unknown): string | undefined {
    const length = lines.get(fact);
    if (length !== undefined)
      return Array.isArray(value) && value.length === length && value.every(isFigure)
        ? undefined
        : `must be ${length} numbers; ${got(value)}`;
    const isNumber = columns.get(fact);
    if (isNumber === undefined)
      return `is no fact of the table; did you mean "${nearestName(fact, facts)}"?`;
    if (value === null || (isNumber ? isFigure(value) : typeof value === 'string'))
      return undefined;
    return `must be ${isNumber ? 'a number' : 'text'}, or null for none; ${got(value)}`;
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
        for (const [fact, value] of Object.entries(given)) {
          const message = fault(fact, value);
          if (message !== undefined) addIssue({ message, path: [path, at(fact, value, given)] });
        }
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
