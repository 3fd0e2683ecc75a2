import { isoText, serialOf } from '../../src/core/serial-date';
import type { Card } from '../../src/functions/card';
import type { Cell, Parameter } from '../../src/functions/parameter';
import { unitFact } from '../../src/functions/units';

/**
 * Arguments for trying a card: its own examples, and from each of them one argument after the other moved to
 * the edges of its range, beyond them, to other names and spellings, to a blank, and to nonsense; then mixtures.
 */
export type Arguments = readonly (Cell | readonly (readonly number[])[])[];

/** Even numbers from 0 to 1 that are the same in every run. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const accepts = (parameter: Parameter, cell: Exclude<Cell, null | undefined>): boolean => {
  try {
    parameter.read(cell);
    return true;
  } catch {
    return false;
  }
};

/** The bound itself where it is allowed, otherwise a value close to it. */
function atEdge(parameter: Parameter, bound: number, inwards: 1 | -1): number[] {
  if (!Number.isFinite(bound)) return [];
  const near = bound + inwards * 1e-4 * Math.max(1e-2, Math.abs(bound));
  return [bound, near, Math.round(bound + inwards)]
    .filter((x) => accepts(parameter, x))
    .slice(0, 1);
}

const days = [
  [2024, 2, 29],
  [2026, 12, 31],
  [2027, 1, 3],
  [2026, 6, 21],
  [2026, 12, 21],
  [1900, 3, 1],
  [2100, 3, 1],
] as const;

/** A name written otherwise: in capitals, with other spaces. */
const respelled = (name: string): string[] => [
  name.toUpperCase(),
  `  ${name.replaceAll(' ', '')} `,
  name.replaceAll(' ', '-'),
];

/** Values that the parameter takes, besides `usual` from an example. */
export function goodValues(parameter: Parameter, usual: Cell): Cell[] {
  const names = parameter.names?.() ?? [];
  switch (parameter.kind) {
    case 'date':
      return days.map(([year, month, day]) => serialOf({ year, month, day }));
    case 'choice':
      return [...names, ...names.slice(0, 1).flatMap(respelled)];
    case 'name': {
      const some = names.filter((_, i) => i % Math.ceil(names.length / 6) === 0);
      const numbers = [1, 7.5, 60].filter((x) => accepts(parameter, x));
      return [...some, ...some.slice(0, 2).flatMap(respelled), ...numbers].filter((name) =>
        accepts(parameter, name as string),
      );
    }
    default: {
      const { low, high } = parameter;
      const around =
        typeof usual === 'number' ? [usual * 0.37, usual * 1.9, Math.round(usual)] : [];
      const middle = Number.isFinite(low + high) ? [low + 0.6 * (high - low)] : [];
      return [0, 1, 3, ...around, ...middle]
        .filter((x) => accepts(parameter, x))
        .concat(atEdge(parameter, low, 1), atEdge(parameter, high, -1));
    }
  }
}

/** Values that it must refuse. TRUE is not among them: LibreOffice takes it for the number 1, in every formula. */
export function badValues(parameter: Parameter): Cell[] {
  const beyond = [parameter.low, parameter.high].filter(Number.isFinite);
  const numbers = beyond.flatMap((x) => [x - 1, x + 1, x * 2 + 10]);
  const tried: Exclude<Cell, null | undefined>[] = ['unicorn', -7, 1e12, 2.5, ...numbers];
  return tried.filter((cell) => !accepts(parameter, cell));
}

/** A unit of the same kind in text, which only a literal in a formula can have. */
export function withOtherUnit(parameter: Parameter): string | undefined {
  if (parameter.kind !== 'number') return undefined;
  const { example } = unitFact(parameter.unit);
  const text = /^"(.*)"$/.exec(example)?.[1];
  return text !== undefined && accepts(parameter, text) ? text : undefined;
}

/** An example's argument as a cell holds it: a text with a unit is its number. */
function asCell(parameter: Parameter, arg: number | string | null): Arguments[number] {
  if (typeof arg !== 'string') return arg;
  if (parameter.kind === 'series') return (parameter.read(arg) as number[]).map((one) => [one]);
  if (parameter.kind === 'number') return parameter.read(arg) as number;
  if (parameter.kind === 'date') return parameter.read(arg) as number;
  return arg;
}

/** Values along a row and along a column for a series, as many as its card's number of weeks says. */
function ranges(card: Card, row: Arguments, i: number): (readonly (readonly number[])[])[] {
  const weeks = Number(row[card.parameters.findIndex(({ name }) => name === 'weeks')] ?? 1);
  const given = row[i];
  // The same along a row, and one value too few.
  if (Array.isArray(given)) return [[given.flat()], given.slice(1)];
  const usual = Number(given);
  const values = Array.from({ length: weeks }, (_, week) => usual * (1 - week / (4 * weeks)));
  return [[values], values.map((value) => [value])];
}

const MIXTURES = 24;

/** Every row of arguments to try; each row once. */
export function argumentGrid(card: Card): Arguments[] {
  const { parameters } = card;
  const examples = card.examples.map(({ args }) =>
    parameters.map((parameter, i) => asCell(parameter, args[i] ?? null)),
  );
  const rows: Arguments[] = [...examples, parameters.map(() => null)];
  const first: Arguments = examples[0] ?? [];
  const good = parameters.map((parameter, i) => {
    const usual = examples.map((row) => row[i] ?? null);
    const known = usual.find((cell) => cell !== null && !Array.isArray(cell));
    const single = (known ?? parameter.fallback ?? null) as Cell;
    return [...usual, ...goodValues(parameter, single), ...(parameter.optional ? [null] : [])];
  });
  const moved = (i: number, cell: Arguments[number]): Arguments =>
    first.map((old, at) => (at === i ? cell : old));
  parameters.forEach((parameter, i) => {
    rows.push(...(good[i] ?? []).map((cell) => moved(i, cell)));
    rows.push(...badValues(parameter).map((cell) => moved(i, cell)));
    rows.push(moved(i, null));
    if (parameter.kind === 'series') {
      rows.push(...ranges(card, first, i).map((range) => moved(i, range)));
    }
  });
  const random = generator(card.id.length * 7919 + parameters.length);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  if (parameters.length > 1) {
    for (let n = 0; n < MIXTURES; n++) rows.push(good.map((list) => pick(list)));
  }
  const once = new Map(rows.map((row) => [JSON.stringify(row), row]));
  return [...once.values()];
}

/** How a row of arguments reads in a report. */
export const shownArguments = (card: Card, args: Arguments): string =>
  card.parameters
    .map((parameter, i) => {
      const cell = args[i];
      const shown =
        parameter.kind === 'date' && typeof cell === 'number'
          ? isoText(cell)
          : JSON.stringify(cell);
      return `${parameter.name}=${shown}`;
    })
    .join(', ');
