import { type Card } from '../../src/functions/card';

/** What workbooks hold of a function. */
export interface Locked {
  readonly id: string;
  readonly parameters: readonly string[];
  readonly optional: readonly boolean[];
  readonly kinds: readonly string[];
  /** A number means something else under another unit. */
  readonly units: readonly string[];
  /** One value, or the columns of a block. */
  readonly gives: readonly {
    readonly name?: string;
    readonly kind: string;
    readonly unit: string;
  }[];
}

/** Of a card, what is locked. */
export const lockOf = (card: Card): Locked => ({
  id: card.id,
  parameters: card.parameters.map((parameter) => parameter.name),
  optional: card.parameters.map((parameter) => parameter.optional),
  kinds: card.parameters.map((parameter) => parameter.kind),
  units: card.parameters.map((parameter) => parameter.unit),
  gives: card.columns ?? [card.result],
});

const FACES = ['parameters', 'kinds', 'units', 'optional'] as const;

/** What would break a workbook of one function's users. */
function functionProblems(now: Locked, lock: Locked): string[] {
  const count = lock.parameters.length;
  const changed = FACES.filter(
    (face) => JSON.stringify(now[face].slice(0, count)) !== JSON.stringify(lock[face]),
  ).map((face) => `${lock.id}: ${face} were ${lock[face].join(', ')}, are ${now[face].join(', ')}`);
  const required = now.parameters
    .filter((_, i) => i >= count && !now.optional[i])
    .map((name) => `${lock.id}: ${name} is new and not optional`);
  const block = lock.gives[0]?.name !== undefined;
  const lost = lock.gives
    .filter(({ name, kind, unit }, i) => {
      const gives = now.gives[i];
      return gives?.kind !== kind || gives.unit !== unit || gives.name !== name;
    })
    .map((column) => `${lock.id}: no longer gives ${JSON.stringify(column)} in its place`);
  const more = !block && now.gives.length > 1 ? [`${lock.id}: gives a block now`] : [];
  return [...changed, ...required, ...lost, ...more];
}

/**
 * Where a catalogue breaks workbooks that were made with an earlier one. Ids, the order, names, kinds and units of
 * parameters and what is given stay; a function or an optional parameter at the end may be added, a column too,
 * and each must then be locked itself.
 */
export function catalogueProblems(now: readonly Locked[], locked: readonly Locked[]): string[] {
  const byId = new Map(now.map((locked) => [locked.id, locked]));
  const known = new Set(locked.map(({ id }) => id));
  return [
    ...locked.flatMap((lock) => {
      const one = byId.get(lock.id);
      return one ? functionProblems(one, lock) : [`${lock.id} is gone`];
    }),
    ...now.filter(({ id }) => !known.has(id)).map(({ id }) => `${id} is not locked yet`),
  ];
}
