import { beforeAll, describe, expect, it } from 'vitest';
import { cards } from '../../../src/functions/card-list';
import { functionsMetadata } from '../../../src/functions/metadata';
import { loadLibrary } from '../../tools/excel-library';
import { openExcel } from '../../tools/excel-open';
import type { FunctionCall, FunctionResult } from '../../tools/excel-witness';

/** An error as Excel hands it to a function. */
const errorCell = (code: string) => ({ type: 'CustomFunctionError', code });
const UNIONISED = 'AMMONIA.UNIONISED';
const ammonia = (...args: unknown[]): FunctionCall => ({ id: UNIONISED, args });

beforeAll(async () => {
  loadLibrary();
  await import('../../../src/app/functions-entry');
});

/** What stands in a matrix that came back, an error as its code and sentence. */
const shown = ({ value }: FunctionResult): unknown[][] =>
  (value as unknown[][]).map((row) =>
    row.map((cell) => {
      const { basicValue, code, message } = (cell ?? {}) as Record<string, string>;
      return typeof cell === 'object' && cell !== null
        ? `${basicValue ?? code} ${message ?? 'without a sentence'}`
        : cell;
    }),
  );

describe("functions through Excel's own runtime", () => {
  it('are all known to it, and all in the list that Excel reads', async () => {
    const excel = openExcel();
    const listed = functionsMetadata(cards).functions;
    expect(listed.map(({ id }) => id)).toEqual(cards.map(({ id }) => id));
    // Without arguments each answers with a matrix: an error with a sentence, or a table that needs none.
    const answers = await excel.callFunctions(
      cards.map(({ id, parameters }) => ({ id, args: parameters.map(() => null) })),
    );
    expect(answers).toHaveLength(cards.length);
    answers.forEach((answer, i) => {
      expect(answer.succeeded, cards[i]?.id).toBe(true);
      expect(JSON.stringify(shown(answer)), cards[i]?.id).not.toMatch(
        /without a sentence|null|NaN/,
      );
    });
    expect(await excel.callFunctions([{ id: 'NOT.THERE', args: [] }])).toMatchObject([
      { succeeded: false },
    ]);
  });

  it('take values, ranges, blanks, dates, errors and text with a unit', async () => {
    const excel = openExcel();
    const answers = await excel.callFunctions([
      ammonia([[1]], [[8]], [[24]], null),
      // Blanks as a desktop (0), as the web (null) and as matrices of older versions ("") hand them over.
      ammonia([[1], [1], ['']], [[8], [72], ['']], [[24], [24], ['']], 0),
      ammonia([[1]], [[8]], [['75.2 degF']], [[null]]),
      ammonia([[errorCell('#REF!')]], [[8]], [[24]], null),
      ammonia([[errorCell('#N/A')]], [[8]], [[24]], null),
      ammonia([[1]], [[8]], [[{ value: 'a picture' }]], null),
      ammonia([['much']], [[8]], [[24]], null),
    ]);
    const [plain, rows, fahrenheit, reference, missing, picture, word] = answers.map(shown);
    // UF/IFAS FA16: TAN 1 mg/L at pH 8 and 24 degC has 0.05 mg/L un-ionised.
    expect(plain).toEqual([[expect.closeTo(0.0502, 3)]]);
    expect(rows).toEqual([
      [expect.closeTo(0.0502, 3)],
      ['#VALUE! ph must be between 0 and 14; got 72'],
      [''],
    ]);
    expect(fahrenheit).toEqual([[expect.closeTo(0.0502, 3)]]);
    expect(reference?.[0]?.[0]).toMatch(/^#VALUE! .*#REF!/);
    expect(missing?.[0]?.[0]).toMatch(/^#N\/A .*#N\/A/);
    expect(picture?.[0]?.[0]).toMatch(/^#VALUE! .*neither a number nor text/);
    expect(word?.[0]?.[0]).toMatch(/^#VALUE! \w+/);
  });

  it('give every example of every card, spills and errors among them, and never a bare error', async () => {
    const excel = openExcel();
    const examples = cards.flatMap((card) =>
      card.examples.map((example) => ({
        card,
        args: card.parameters.map((_, i) => example.args[i] ?? null),
      })),
    );
    const answers = await excel.callFunctions(
      examples.map(({ card, args }) => ({ id: card.id, args: structuredClone(args) })),
    );
    expect(answers).toHaveLength(examples.length);
    let spills = 0;
    answers.forEach((answer, i) => {
      const { card } = examples[i] as (typeof examples)[number];
      expect(answer.succeeded, card.id).toBe(true);
      const cells = shown(answer);
      expect(new Set(cells.map((row) => row.length)).size, card.id).toBe(1);
      if (cells.flat().length > 1) spills += 1;
      for (const cell of cells.flat()) {
        expect(['number', 'string'], card.id).toContain(typeof cell);
        expect(String(cell), card.id).not.toMatch(/without a sentence|NaN|Infinity/);
      }
    });
    expect(spills).toBeGreaterThan(5);
  });

  it('an impossible set of possible arguments has its sentence, too, which Excel drops with #NUM!', async () => {
    const excel = openExcel();
    const [answer] = await excel.callFunctions([
      { id: 'DOSE.IRON', args: [[[7800]], [[2]], [[1]], null] },
    ]);
    expect(shown(answer as FunctionResult)[0]?.[0]).toMatch(/^#VALUE! \w+ .*/);
  });

  it('answer 1,000 calls of one request in one request', async () => {
    const excel = openExcel();
    const answers = await excel.callFunctions(
      Array.from({ length: 1000 }, (_, i) => ammonia([[i / 1000]], [[8]], [[24]], null)),
    );
    expect(answers).toHaveLength(1000);
    expect(answers.every(({ value }) => typeof (value as unknown[][])[0]?.[0] === 'number')).toBe(
      true,
    );
    expect(excel.requests).toBe(1);
  });

  it('may be taken back: nothing fails, and the next call is answered', async () => {
    const excel = openExcel();
    excel.cancel(1);
    excel.cancel(99_999);
    const [answer] = await excel.callFunctions([ammonia([[1]], [[8]], [[24]], null)]);
    expect(shown(answer as FunctionResult)).toEqual([[expect.closeTo(0.0502, 3)]]);
  });
});
