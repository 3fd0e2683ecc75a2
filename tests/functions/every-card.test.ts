import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { callCard } from '../../src/functions/call';
import type { Outcome } from '../../src/functions/card';
import { cards } from '../../src/functions/card-list';
import type { Argument, Cell } from '../../src/functions/parameter';

const RUNS = { numRuns: 120, seed: 20260301 };

const block = (outcome: Outcome | Outcome[][]): readonly (readonly Outcome[])[] =>
  Array.isArray(outcome) ? outcome : [[outcome]];

/** Anything that a cell of a spreadsheet may hold. */
const anyCell: fc.Arbitrary<Cell> = fc.oneof(
  fc.double({ noNaN: false }),
  fc.double({ min: -100, max: 1000, noNaN: true }),
  fc.integer({ min: -10, max: 60000 }),
  fc.constantFrom(0, -0, 1e-300, 1e300, Number.MAX_VALUE, 46082, 0.5),
  fc.constantFrom(
    '',
    ' ',
    'lettuce',
    'tilapia',
    '78 degF',
    '60 %',
    '1,100 gal',
    '12 ft',
    '2026-03-01',
    '1e999',
    '-',
  ),
  fc.string({ maxLength: 12 }),
  fc.constantFrom(true, false, null, undefined),
  fc.constant(new GillError('#DIV/0!', 'from another cell')),
);

/** A range of up to three rows and columns, none included. */
const anyBlock: fc.Arbitrary<Argument> = fc.tuple(fc.nat(3), fc.nat(3)).chain(([rows, columns]) =>
  fc.array(fc.array(anyCell, { minLength: columns, maxLength: columns }), {
    minLength: rows,
    maxLength: rows,
  }),
);

/** An answer, an empty text, or an error with a sentence that a grower can read. */
function isFit(outcome: Outcome): boolean {
  if (outcome instanceof GillError) return outcome.message.length > 10;
  return typeof outcome === 'string' || Number.isFinite(outcome);
}

describe.each(cards.map((card) => [card.id, card] as const))('%s', (id, card) => {
  it.each(card.examples.map((example) => [example.says, example] as const))('%s', (_, example) => {
    const found = block(callCard(card, example.args));
    const wanted = Array.isArray(example.result)
      ? (example.result as readonly (readonly Outcome[])[])
      : [[example.result as Outcome]];
    wanted.forEach((line, r) =>
      line.forEach((value, c) => {
        const cell = found[r]?.[c];
        if (typeof value !== 'number') return expect(cell).toBe(value);
        const within = example.tolerance ?? 1e-9 * Math.max(Math.abs(value), 1e-3);
        return expect(Math.abs(Number(cell) - value), `got ${String(cell)}`).toBeLessThanOrEqual(
          within * (1 + 1e-9),
        );
      }),
    );
  });

  it('answers any mixture of cells with a value or a sentence', () => {
    const calls = fc.array(anyCell, { maxLength: card.parameters.length + 1 });
    fc.assert(
      fc.property(calls, (args) => block(callCard(card, args)).flat().every(isFit)),
      RUNS,
    );
    // Near an example more calls come to an answer: one argument at a time is anything.
    for (const { args } of card.examples) {
      fc.assert(
        fc.property(fc.nat(Math.max(0, args.length - 1)), anyCell, (i, cell) =>
          block(
            callCard(
              card,
              args.map((arg, at) => (at === i ? cell : arg)),
            ),
          )
            .flat()
            .every(isFit),
        ),
        RUNS,
      );
    }
  });

  it('answers ranges of any shapes, equal or not', () => {
    fc.assert(
      fc.property(fc.array(anyBlock, { maxLength: card.parameters.length }), (args) =>
        block(callCard(card, args)).flat().every(isFit),
      ),
      RUNS,
    );
  });

  // Spilling cards take single cells.
  if (!card.columns && card.parameters.length > 0) {
    it('a range call equals its single calls', () => {
      const rows = fc.array(
        fc.tuple(fc.nat(card.examples.length - 1), fc.nat(card.parameters.length - 1), anyCell),
        { minLength: 2, maxLength: 6 },
      );
      fc.assert(
        fc.property(rows, (changes) => {
          const lines = changes.map(([which, at, cell]) => {
            const { args } = card.examples[which] as (typeof card.examples)[0];
            return card.parameters.map((_, i) => (i === at ? cell : args[i]));
          });
          const columns = card.parameters.map((_, i): Argument => lines.map((line) => [line[i]]));
          const together = callCard(card, columns);
          expect(block(together).map(([cell]) => shown(cell))).toEqual(
            lines.map((line) => shown(callCard(card, line) as Outcome)),
          );
        }),
        RUNS,
      );
    });
  }

  it('refuses one argument too many', () => {
    const outcome = callCard(card, [...card.parameters.map(() => 1), 1]);
    expect(outcome).toBeInstanceOf(GillError);
    expect((outcome as GillError).message).toContain(`GILL.${id} takes`);
  });
});

const shown = (outcome: Outcome | undefined): string =>
  outcome instanceof GillError ? `${outcome.code} ${outcome.message}` : String(outcome);
