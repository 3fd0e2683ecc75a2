import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/card-list';
import { functionsMetadata } from '../../src/functions/metadata';
import { questions } from '../../src/functions/questions';
import { catalogueProblems, type Locked, lockOf } from '../tools/catalogue-problems';

/** Ids and parameters are stored in people's workbooks: what is locked here never changes, only grows. */
const locked = JSON.parse(
  readFileSync(new URL('../checks/catalogue-lock.json', import.meta.url), 'utf8'),
) as Locked[];

describe('the catalogue is append-only', () => {
  const now = cards.map(lockOf);

  it('has every function that was ever there, with its parameters in their order and what it gives', () => {
    expect(catalogueProblems(now, locked)).toEqual([]);
    expect(now.map(({ id }) => id)).toEqual(locked.map(({ id }) => id));
  });

  /** The catalogue with one function changed. */
  const changed = (id: string, change: (one: Locked) => Partial<Locked>): readonly Locked[] =>
    now.map((locked) => (locked.id === id ? { ...locked, ...change(locked) } : locked));
  const swapped = <T>([first, second, ...rest]: readonly T[]): readonly T[] =>
    [second, first, ...rest] as T[];
  const without = (locked: Locked): Locked => ({
    ...locked,
    parameters: locked.parameters.slice(0, -1),
    kinds: locked.kinds.slice(0, -1),
    units: locked.units.slice(0, -1),
    optional: locked.optional.slice(0, -1),
  });
  const grown = (locked: Locked, optional: boolean): Locked => ({
    ...locked,
    parameters: [...locked.parameters, 'more'],
    kinds: [...locked.kinds, 'number'],
    units: [...locked.units, 'g'],
    optional: [...locked.optional, optional],
  });

  // Each plants one fault.
  it.each<readonly [string, readonly Locked[], string]>([
    ['another id', changed('FEED.DAY', () => ({ id: 'FEED.DAILY' })), 'FEED.DAY is gone'],
    ['a function less', now.slice(1), `${now[0]?.id} is gone`],
    [
      'parameters in another order',
      changed('FEED.DAY', (locked) => ({ parameters: swapped(locked.parameters) })),
      'FEED.DAY: parameters were fish, weight',
    ],
    [
      'another name of a parameter',
      changed('FEED.DAY', ({ parameters }) => ({ parameters: ['heads', ...parameters.slice(1)] })),
      'FEED.DAY: parameters',
    ],
    [
      'another kind',
      changed('FEED.DAY', ({ kinds }) => ({ kinds: ['text', ...kinds.slice(1)] })),
      'FEED.DAY: kinds',
    ],
    [
      'another unit',
      changed('FEED.DAY', ({ units }) => ({ units: ['fish', 'kg', ...units.slice(2)] })),
      'FEED.DAY: units',
    ],
    [
      'an optional parameter made required',
      changed('FEED.DAY', ({ optional }) => ({ optional: optional.map(() => false) })),
      'FEED.DAY: optional',
    ],
    ['a parameter less', changed('FEED.DAY', without), 'FEED.DAY: parameters'],
    [
      'a required parameter more',
      changed('FEED.DAY', (locked) => grown(locked, false)),
      'FEED.DAY: more is new and not optional',
    ],
    [
      'another unit of the answer',
      changed('FEED.DAY', () => ({ gives: [{ kind: 'number', unit: 'kg/day' }] })),
      'FEED.DAY: no longer gives',
    ],
    [
      'another kind of answer',
      changed('FEED.DAY', () => ({ gives: [{ kind: 'text', unit: 'g/day' }] })),
      'FEED.DAY: no longer gives',
    ],
    [
      'a block for a value',
      changed('FEED.DAY', ({ gives }) => ({ gives: [...gives, ...gives] })),
      'FEED.DAY: gives a block now',
    ],
    [
      'columns in another order',
      changed('STOCK.FORECAST', ({ gives }) => ({ gives: swapped(gives) })),
      'STOCK.FORECAST: no longer gives',
    ],
    [
      'a function that is not locked',
      [...now, { ...(now[0] as Locked), id: 'NEW.ONE' }],
      'NEW.ONE is not locked yet',
    ],
  ])('rejects %s', (_, catalogue, problem) => {
    expect(catalogueProblems(catalogue, locked).join()).toContain(problem);
  });

  it('may grow at its end: an optional parameter, a column of a block', () => {
    expect(
      catalogueProblems(
        changed('FEED.DAY', (locked) => grown(locked, true)),
        locked,
      ),
    ).toEqual([]);
    const column = { name: 'more', kind: 'number', unit: 'g' };
    const wider = changed('STOCK.FORECAST', ({ gives }) => ({ gives: [...gives, column] }));
    expect(catalogueProblems(wider, locked)).toEqual([]);
  });

  it('has no two ids that become one when dots become underscores', () => {
    const stored = cards.map((card) => card.id.replaceAll('.', '_').toUpperCase());
    expect(new Set(stored).size).toBe(cards.length);
  });

  it('has complete cards', () => {
    for (const card of cards) {
      expect(card.summary.length, card.id).toBeGreaterThan(10);
      expect(card.method.length, card.id).toBeGreaterThan(10);
      expect(card.validity.length, card.id).toBeGreaterThan(10);
      expect(card.sources.length, card.id).toBeGreaterThan(0);
      expect(card.examples.length, card.id).toBeGreaterThan(1);
      for (const id of card.seeAlso ?? []) {
        expect(
          cards.some((card) => card.id === id),
          `${card.id} points to ${id}`,
        ).toBe(true);
      }
    }
  });
});

describe('the metadata file keeps the limits that Excel sets', () => {
  const { functions } = functionsMetadata(cards, 'https://example.org/help/');

  it.each(functions)('$id', (fn) => {
    expect(fn.id).toMatch(/^[A-Z][A-Z0-9._]{2,63}$/);
    expect(fn.name).toBe(fn.id);
    expect(fn.id).not.toMatch(/^[A-Z]{1,3}\d+$/);
    expect(fn.description.length).toBeLessThanOrEqual(1024);
    expect(fn.parameters.length).toBeLessThanOrEqual(128);
    for (const parameter of fn.parameters) {
      expect(parameter.name.length).toBeLessThanOrEqual(64);
      expect(parameter.description.length).toBeLessThanOrEqual(512);
    }
    // Excel takes no required parameter after an optional one.
    const firstOptional = fn.parameters.findIndex((p) => p.optional);
    if (firstOptional >= 0) {
      expect(fn.parameters.slice(firstOptional).every((p) => p.optional)).toBe(true);
    }
  });
});

describe('the index by question', () => {
  it('leads to every function, and to none that is not there', () => {
    const named = new Set(questions.flatMap((question) => question.ids));
    expect([...named].sort()).toEqual(cards.map((card) => card.id).sort());
  });
});
