import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { callCard } from '../../src/functions/call';
import { card, type Outcome } from '../../src/functions/card';
import type { Argument, Cell } from '../../src/functions/parameter';
import { number } from '../../src/functions/parameter';
import { cellOf, errorOf, numberOf } from '../tools/card-value';

const column = (...cells: readonly Cell[]): Cell[][] => cells.map((cell) => [cell]);

const shown = (outcome: Outcome | Outcome[][]): unknown =>
  Array.isArray(outcome)
    ? outcome.map((row) => row.map(shown))
    : outcome instanceof GillError
      ? `${outcome.code} ${outcome.message}`
      : outcome;

describe('single cells', () => {
  it('take text with units', () => {
    expect(numberOf('AMMONIA.UNIONISED', 1, 8, '75.2 degF')).toBeCloseTo(
      numberOf('AMMONIA.UNIONISED', 1, 8, 24),
      12,
    );
  });

  it('say which argument is missing', () => {
    expect(errorOf('AMMONIA.UNIONISED', 1, null, 25)).toBe(
      '#VALUE! ph is missing; it takes between 0 and 14',
    );
    expect(errorOf('AMMONIA.UNIONISED', 1, 0, 25)).toContain('ph is missing');
  });

  it('give an empty text where all that must be there is blank, as 0 or as nothing', () => {
    expect(cellOf('AMMONIA.UNIONISED', null, '', undefined)).toBe('');
    expect(cellOf('AMMONIA.UNIONISED', 0, 0, 0)).toBe('');
    expect(errorOf('AMMONIA.UNIONISED', '', '', 25)).toContain('tan is missing');
  });

  it('keep a 0 that is a value', () => {
    expect(numberOf('AMMONIA.UNIONISED', 0, 8, 25)).toBe(0);
    expect(numberOf('OXYGEN.FULL', 0)).toBeCloseTo(14.62, 2);
  });

  it('propagate the error of another cell', () => {
    const error = new GillError('#DIV/0!', 'a cell that it reads holds #DIV/0!');
    expect(cellOf('AMMONIA.UNIONISED', error, 8, 25)).toBe(error);
  });

  it('refuse one argument too many', () => {
    expect(errorOf('FLOOD.MINUTES', 1, 2, 3)).toBe(
      '#VALUE! GILL.FLOOD.MINUTES takes 2 arguments; got 3',
    );
  });
});

describe('ranges', () => {
  it('go row by row; only the bad rows carry an error', () => {
    const result = cellOf(
      'AMMONIA.UNIONISED',
      column(1, 'much', null, 2, '1 ppm'),
      column(8, 8, null, 78, 8),
      column(25, 25, null, 25, 25),
    );
    const single = numberOf('AMMONIA.UNIONISED', 1, 8, 25);
    expect(shown(result)).toEqual([
      [single],
      ['#VALUE! tan takes a concentration, such as "2 ppm"; got "much"'],
      [''],
      ['#VALUE! ph must be between 0 and 14; got 78'],
      [single],
    ]);
  });

  it('stretch a row against a column to a block', () => {
    const block = cellOf('FLOOD.MINUTES', column(100, 200, 300), [[600, 1200]]);
    expect(block).toEqual([
      [10, 5],
      [20, 10],
      [30, 15],
    ]);
  });

  it('of one cell are that cell', () => {
    expect(cellOf('FLOOD.MINUTES', [[200]], [[800]])).toBe(15);
  });

  it('of unequal shape say so', () => {
    expect(errorOf('FLOOD.MINUTES', column(1, 2, 3), column(1, 2))).toBe(
      '#VALUE! volume has 3 rows and flow has 2; ranges must be of equal shape',
    );
    expect(errorOf('FLOOD.MINUTES', [[1, 2, 3]], [[1, 2]])).toContain('3 columns and flow has 2');
  });

  it('show a wrong single argument in every row', () => {
    const rows = cellOf('FLOOD.MINUTES', column(100, 200), -1) as Outcome[][];
    expect(rows.map(([cell]) => (cell as GillError).message)).toEqual(
      Array(2).fill('flow must be more than 0 L/h and at most 100000000 L/h; got -1'),
    );
  });

  const cell: fc.Arbitrary<Cell> = fc.oneof(
    fc.double({ min: -5, max: 60, noNaN: true }),
    fc.constantFrom<Cell>(0, 7, 14, 25, '', null, true, 'pH', '78 degF', 1e300, NaN),
    fc.constant(new GillError('#REF!', 'a cell that it reads is gone')),
  );
  const blockOf = (rows: number, columns: number): fc.Arbitrary<Cell[][]> =>
    fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    });

  it('of any mixture equal their single calls, at every place of the block', () => {
    const shapes = fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 3 }));
    const calls = shapes.chain(([rows, columns]) => {
      const argument: fc.Arbitrary<Argument> = fc.oneof(
        cell,
        blockOf(rows, columns),
        blockOf(rows, 1),
        blockOf(1, columns),
      );
      return fc.tuple(blockOf(rows, columns), argument, argument, argument);
    });
    const at = (argument: Argument, r: number, c: number): Cell => {
      if (!Array.isArray(argument)) return argument as Cell;
      const block = argument as readonly (readonly Cell[])[];
      const row = block[block.length === 1 ? 0 : r];
      return row?.[row.length === 1 ? 0 : c];
    };
    fc.assert(
      fc.property(calls, (args) => {
        const together = cellOf('AMMONIA.UNIONISED', ...args);
        const rows = Array.isArray(together) ? together : [[together]];
        rows.forEach((row, r) =>
          row.forEach((outcome, c) => {
            const single = cellOf('AMMONIA.UNIONISED', ...args.map((arg) => at(arg, r, c)));
            expect(shown(outcome)).toEqual(shown(single));
          }),
        );
        expect([rows.length, rows[0]?.length]).toEqual([args[0].length, args[0][0]?.length]);
      }),
      { numRuns: 400, seed: 20260301 },
    );
  });

  it('of unequal shape never throw a stray exception', () => {
    const any = fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 3 }));
    const argument: fc.Arbitrary<Argument> = any.chain(([r, c]) => blockOf(r, c));
    fc.assert(
      fc.property(fc.array(argument, { minLength: 3, maxLength: 4 }), (args) => {
        const outcome = cellOf('AMMONIA.UNIONISED', ...args);
        const cells = Array.isArray(outcome) ? outcome.flat() : [outcome];
        for (const cell of cells) {
          if (cell instanceof GillError) expect(cell.message.length).toBeGreaterThan(10);
          else if (typeof cell === 'number') expect(Number.isFinite(cell)).toBe(true);
          else expect(cell).toBe('');
        }
      }),
      { numRuns: 400, seed: 20260301 },
    );
  });
});

describe('every number of parameters is called with each in its place', () => {
  const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'] as const;
  it.each([1, 2, 3, 4, 5, 6, 7, 8])('%i', (count) => {
    const digits = card({
      id: 'TEST.DIGITS',
      subject: 'Facts',
      summary: 'digits side by side',
      parameters: names
        .slice(0, count)
        .map((name) => number(name, 'a digit', { min: -1, max: 10 })),
      result: { kind: 'number', unit: '', meaning: 'digits' },
      method: 'side by side',
      sources: [],
      validity: 'tests',
      examples: [
        { args: [], result: 0, says: '' },
        { args: [], result: 0, says: '' },
      ],
      compute: (...values: unknown[]) => Number(values.join('')),
      inPieces: 'for these tests',
      plain: () => '',
    });
    const args = names.slice(0, count).map((_, i) => column(i + 1, i + 1));
    const wanted = Number('12345678'.slice(0, count));
    expect(callCard(digits, args)).toEqual([[wanted], [wanted]]);
    expect(
      callCard(
        digits,
        args.map((block) => block[0]?.[0]),
      ),
    ).toBe(wanted);
  });
});

it('a fault of the program is thrown, never shown as a value', () => {
  const faulty = card({
    id: 'TEST.FAULT',
    subject: 'Feed',
    summary: 'Fails in its arithmetic',
    parameters: [number('x', 'any number', { unit: '' })],
    result: { kind: 'number', unit: '', meaning: 'none' },
    method: '',
    sources: [],
    validity: '',
    examples: [
      { args: [1], result: 1, says: '' },
      { args: [2], result: 2, says: '' },
    ],
    compute: () => {
      throw new TypeError('broken');
    },
    inPieces: 'for these tests',
    plain: () => '',
  });
  expect(() => callCard(faulty, [1])).toThrow(TypeError);
  expect(() => callCard(faulty, [column(1, 2)])).toThrow(TypeError);
});
