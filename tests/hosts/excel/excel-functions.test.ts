import { beforeEach, describe, expect, it, vi } from 'vitest';
import { cards, findCard } from '../../../src/functions/card-list';
import { excelFunction } from '../../../src/hosts/excel/excel-functions';

class ExcelError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

const ErrorCode = {
  invalidValue: '#VALUE!',
  notAvailable: '#N/A',
};

const invocation = { address: 'Sheet1!A1', functionName: 'any' };
const card = findCard('AMMONIA.UNIONISED');
if (!card) throw new Error('AMMONIA.UNIONISED is not in the list');

describe('a function as Excel calls it', () => {
  const associate = vi.fn();
  beforeEach(() => {
    associate.mockReset();
    vi.stubGlobal('CustomFunctions', { associate, Error: ExcelError, ErrorCode });
  });

  it('is associated for every card while the script loads', async () => {
    vi.resetModules();
    const loading = import('../../../src/app/functions-entry');
    await loading;
    expect(associate.mock.calls.map(([id]) => id as string)).toEqual(cards.map((card) => card.id));
  });

  it('answers a single call with a matrix and leaves the invocation aside', () => {
    // UF/IFAS FA16: TAN 1 mg/L at pH 8 and 24 degC has 0.05 mg/L un-ionised.
    const answer = excelFunction(card)(1, 8, 24, null, invocation);
    expect(answer).toEqual([[expect.closeTo(0.0502, 3)]]);
  });

  it('leaves the invocation aside where Excel still has a list without the last parameter', () => {
    const run = excelFunction(card);
    expect(run(1, 8, 24, invocation)).toEqual(run(1, 8, 24, null, invocation));
    expect(run([[1]], [[8]], [[24]], invocation)).toEqual(run(1, 8, 24, null, invocation));
  });

  it('takes a blank optional argument as left out, however the platform spells it', () => {
    const run = excelFunction(card);
    const wanted = run(1, 8, 24, null, invocation);
    for (const blank of ['', 0, undefined, [['']], [[null]], [[0]]]) {
      expect(run(1, 8, 24, blank, invocation)).toEqual(wanted);
    }
  });

  it('works ranges row by row and marks only the bad row', () => {
    const rows = excelFunction(card)(
      [[1], [1], ['']],
      [[8], [72], ['']],
      [[24], [24], ['']],
      null,
      invocation,
    );
    expect(rows).toEqual([
      [expect.closeTo(0.0502, 3)],
      [new ExcelError('#VALUE!', 'ph must be between 0 and 14; got 72')],
      [''],
    ]);
  });

  it('hands an error cell on with a sentence that names it', () => {
    const [[error]] = excelFunction(card)([[new ExcelError('#REF!')]], [[8]], [[24]], null) as [
      [ExcelError],
    ];
    expect(error.code).toBe('#VALUE!');
    expect(error.message).toContain('#REF!');
    const [[missing]] = excelFunction(card)([[{ code: '#N/A' }]], [[8]], [[24]], null) as [
      [ExcelError],
    ];
    expect(missing.code).toBe('#N/A');
  });

  it('refuses what is neither number nor text', () => {
    const [[error]] = excelFunction(card)([[{ type: 'Entity' }]], [[8]], [[24]], null) as [
      [ExcelError],
    ];
    expect(error.message).toContain('neither a number nor text');
  });

  it('gives every error a sentence: Excel shows none with #NUM!', () => {
    const failing = { ...card, compute: () => Infinity } as typeof card;
    const [[error]] = excelFunction(failing)(1, 8, 24, null) as [[ExcelError]];
    expect(error.code).toBe('#VALUE!');
    expect(error.message).toMatch(/\w+ \w+/);
  });

  it('says so when it fails by its own fault', () => {
    const broken = {
      ...card,
      compute: () => {
        throw new TypeError('slip');
      },
    } as typeof card;
    const [[error]] = excelFunction(broken)(1, 8, 24, null) as [[ExcelError]];
    expect(error).toMatchObject({ code: '#VALUE!', message: expect.stringContaining('slip') });
  });

  it('answers a text with a unit at once', () => {
    // 77 degF is 25 degC.
    expect(excelFunction(card)(1, 8, '77 degF', null)).toEqual([[expect.closeTo(0.0537, 4)]]);
  });
});
