import { beforeAll, describe, expect, it } from 'vitest';
import { GillError } from '../src/core/errors';
import { cards } from '../src/functions/card-list';
import { writeXlsx } from '../src/ooxml/write-xlsx';
import type { ComputedValues } from '../src/plan/computed-values';
import { howMany } from './tools/how-many';
import { recalculated } from './tools/libreoffice';
import { type Expectation, type Proof, proofWorkbook } from './tools/proof-workbook';

/**
 * Every card's plain form, computed by LibreOffice, gives what the card itself gives, within 1e-9 of the
 * value, and an error where the card gives an error. Every value stored in the file is 999, so that nothing
 * but a real computation can pass.
 */
const POISON = 999;
const CLOSE = 1e-9;
/** About so many argument lists of each card, from all parts of its grid; `npm run test:long` takes the whole grid. */
const LISTS = howMany(25, Infinity);
/** Of so many cards one is enough to see what a conversion without computing would give. */
const EVERY = 8;
/** Below this a number is nothing. */
const NOTHING = 1e-12;

/** Cards whose method forces a wider difference, and why. */
const wider: Readonly<Record<string, { readonly relative: number; readonly why: string }>> = {};

/** What the plain form gives at a place; an error first, where an error may stand in one of several cells. */
function foundAt(
  values: ComputedValues,
  { sheet, row, column, rows, columns }: Expectation,
): ReturnType<ComputedValues> {
  const all = Array.from({ length: rows * columns }, (_, i) =>
    values(sheet, row + Math.floor(i / columns), column + (i % columns)),
  );
  return all.find((value) => value instanceof GillError) ?? all[0];
}

function agrees({ card, live }: Expectation, found: ReturnType<ComputedValues>): boolean {
  if (live instanceof GillError) return found instanceof GillError;
  if (typeof live === 'string') return (found ?? '') === live;
  if (typeof found !== 'number') return false;
  const size = Math.max(Math.abs(live), Math.abs(found));
  return Math.abs(live - found) <= Math.max((wider[card.id]?.relative ?? CLOSE) * size, NOTHING);
}

const shown = (value: unknown): string =>
  value instanceof GillError ? `${value.code} (${value.message})` : JSON.stringify(value);

describe('plain equals live', () => {
  let proof: Proof;
  let hard: ComputedValues;
  let few: Proof;
  let trusting: ComputedValues;

  beforeAll(async () => {
    proof = proofWorkbook(cards, LISTS);
    few = proofWorkbook(
      cards.filter((_, i) => i % EVERY === 0),
      LISTS,
    );
    const converted = async ({ model }: Proof, how: 'hard' | 'usual'): Promise<ComputedValues> => {
      const file = new Map([['proof.xlsx', writeXlsx(model, () => POISON)]]);
      return (await recalculated(file, how)).get('proof.xlsx') as ComputedValues;
    };
    hard = await converted(proof, 'hard');
    trusting = await converted(few, 'usual');
  });

  for (const card of cards) {
    it(`GILL.${card.id} in its plain form gives what the card gives`, () => {
      const own = proof.expectations.filter((expectation) => expectation.card === card);
      expect(own.length).toBeGreaterThan(0);
      expect(own.some(({ live }) => !(live instanceof GillError))).toBe(true);
      const wrong = own.flatMap((expectation) => {
        const found = foundAt(hard, expectation);
        return agrees(expectation, found)
          ? []
          : [
              `${expectation.call}: the card gives ${shown(expectation.live)}, its plain form ${shown(found)}`,
            ];
      });
      expect(wrong).toEqual([]);
    });
  }

  it('refuses a wrong or missing literal only where the card gives an error or nothing', () => {
    expect(proof.refused.length).toBeGreaterThan(cards.length);
    const given = proof.refused.filter(({ live }) => !(live instanceof GillError) && live !== '');
    expect(given).toEqual([]);
  });

  it('would fail if stored values were read: a conversion that trusts them finds the poison', () => {
    const numbers = few.expectations.filter(({ live }) => typeof live === 'number');
    expect(numbers.length).toBeGreaterThan(100);
    const poisoned = numbers.filter(
      ({ sheet, row, column }) => trusting(sheet, row, column) === POISON,
    );
    expect(poisoned.length).toBe(numbers.length);
    const passing = numbers.filter((number) =>
      agrees(number, trusting(number.sheet, number.row, number.column)),
    );
    expect(passing.length).toBeLessThan(numbers.length / 100);
  });
});
