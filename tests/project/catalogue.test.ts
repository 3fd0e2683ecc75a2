import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cards } from '../../src/functions/list';
import { functionsMetadata } from '../../src/functions/metadata';
import { questions } from '../../src/functions/questions';

interface Locked {
  readonly id: string;
  readonly parameters: readonly string[];
  readonly optional: readonly boolean[];
  readonly kinds: readonly string[];
  /** A number means something else under another unit. */
  readonly units: readonly string[];
  /** One value, or the columns of a block. */
  readonly gives: readonly object[];
}

/** Ids and parameters are stored in people's workbooks: what is locked here never changes, only grows. */
const locked = JSON.parse(
  readFileSync(new URL('../checks/catalogue-lock.json', import.meta.url), 'utf8'),
) as Locked[];

describe('the catalogue is permanent', () => {
  it('has every function that was ever there, and no other', () => {
    expect(cards.map((card) => card.id)).toEqual(locked.map((one) => one.id));
  });

  it.each(locked)('$id keeps its parameters in their order, and what it gives', (lock) => {
    const { id, parameters, optional, kinds, units } = lock;
    const card = cards.find((one) => one.id === id);
    const now = card?.parameters ?? [];
    const old = now.slice(0, parameters.length);
    expect(old.map((p) => p.kind)).toEqual(kinds);
    expect(old.map((p) => p.unit)).toEqual(units);
    expect(old.map((p) => p.name)).toEqual(parameters);
    expect(old.map((p) => p.optional)).toEqual(optional);
    expect(now.slice(parameters.length).every((p) => p.optional)).toBe(true);
    const gives = card?.columns ?? (card ? [card.result] : []);
    expect(gives.slice(0, lock.gives.length)).toMatchObject(lock.gives);
    if (!card?.columns) expect(lock.gives).toHaveLength(1);
  });

  it('has no two ids that become one when dots become underscores', () => {
    const stored = cards.map((card) => card.id.replaceAll('.', '_').toUpperCase());
    expect(new Set(stored).size).toBe(cards.length);
  });

  it('has cards that say everything about themselves', () => {
    for (const card of cards) {
      expect(card.summary.length, card.id).toBeGreaterThan(10);
      expect(card.method.length, card.id).toBeGreaterThan(10);
      expect(card.validity.length, card.id).toBeGreaterThan(10);
      expect(card.sources.length, card.id).toBeGreaterThan(0);
      expect(card.examples.length, card.id).toBeGreaterThan(1);
      for (const id of card.seeAlso ?? []) {
        expect(
          cards.some((one) => one.id === id),
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
    const named = new Set(questions.flatMap((one) => one.ids));
    expect([...named].sort()).toEqual(cards.map((card) => card.id).sort());
  });
});
