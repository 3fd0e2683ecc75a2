import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { date, number } from '../../src/functions/parameter';

/** Each parameter is made inside its test, so that the making is tested too. */
type Options = Parameters<typeof number>[2] & { default?: number };
const made = (options: Options) => number('it', 'some figure', options);

describe('what a number takes, in words', () => {
  it.each<readonly [Options, string]>([
    [{ unit: 'mg/L', min: 0, max: 10 }, 'between 0 and 10 mg/L'],
    [{ unit: 'm2', min: 1, max: 5 }, 'between 1 and 5 m²'],
    [{ unit: 'degC', min: -2, max: 50 }, 'between -2 and 50 °C'],
    [{ unit: 'pH', min: 0, max: 14 }, 'between 0 and 14'],
    [{ unit: '1/h', above: 0, max: 200 }, 'more than 0 and at most 200'],
    [{ unit: 'money', min: 0 }, 'at least 0'],
    [{ unit: 'day', min: 1 }, 'at least 1 day'],
    [{ unit: 'day', min: 2 }, 'at least 2 days'],
    [{ unit: 'week', max: 52 }, 'at most 52 weeks'],
    [{ unit: 'g', above: 0, below: 10 }, 'more than 0 g and less than 10 g'],
    [{ unit: 'g', min: 1, below: 10 }, 'at least 1 g and less than 10 g'],
    [{ unit: 'share', min: 0, max: 1 }, 'between 0 and 1, such as 0.6 or "60 %"'],
    [{ unit: 'share', above: 0, max: 1 }, 'more than 0 and at most 1, such as 0.6 or "60 %"'],
    [{ min: 1, max: 9, whole: true }, 'a whole number, between 1 and 9'],
    [{ min: 1, whole: true }, 'a whole number, at least 1'],
  ])('%j', (options, words) => {
    expect(made(options).takes).toBe(words);
    const outside = options.min ?? options.above ?? (options.max as number) + 2;
    expect(() => made(options).read(outside - 1)).toThrow(
      `it must be ${words}; got ${outside - 1}`,
    );
  });
});

describe('the quick way through, as an open interval or closed bounds', () => {
  it.each<readonly [Options, number, number]>([
    [{ min: 1, max: 10 }, 1, 10],
    [{ above: 2, below: 10 }, 2, 10],
    [{ min: 1, above: 3, max: 9, below: 8 }, 3, 8],
    [{}, -Infinity, Infinity],
    [{ optional: true, min: -5 } as Options, 0, Infinity],
    [{ min: -2, max: 50, default: 20 }, 0, 50],
    [{ min: -2, max: 50, default: 0 }, -2, 50],
    [{ min: 1, whole: true }, NaN, NaN],
  ])('%j', (options, low, high) => {
    const parameter = made(options);
    expect([parameter.low, parameter.high]).toEqual([low, high]);
  });
});

describe('whether a 0 is a value, a blank, or asked about', () => {
  const doubt = 'it is 0 or a blank cell';
  it.each<readonly [Options, 'value' | 'missing' | 'doubt']>([
    [{ min: 0 }, 'value'],
    [{ min: -1 }, 'value'],
    [{ min: 1 }, 'missing'],
    [{ above: -1 }, 'value'],
    [{ above: 0 }, 'missing'],
    [{ max: 0 }, 'value'],
    [{ max: -1 }, 'missing'],
    [{ below: 1 }, 'value'],
    [{ below: 0 }, 'missing'],
    [{}, 'value'],
    [{ min: 0, zeroIsBlank: true }, 'missing'],
    [{ min: 0, default: 5 }, 'doubt'],
    [{ min: 0, default: 0 }, 'value'],
    [{ min: 0, optional: true } as Options, 'doubt'],
    [{ min: 1, default: 5 }, 'missing'],
  ])('%j', (options, kind) => {
    const parameter = made(options);
    expect(parameter.zeroIsMissing).toBe(kind === 'missing');
    if (kind === 'value') expect(parameter.read(0)).toBe(0);
    if (kind === 'doubt') expect(() => parameter.read(0)).toThrow(doubt);
    // Any other figure is never in doubt.
    if (kind === 'doubt') expect(parameter.read(0.01)).toBe(0.01);
  });
});

describe('what may be left out', () => {
  it.each<readonly [Options, boolean, number | undefined, string | undefined]>([
    [{ unit: 'mg/L' }, false, undefined, undefined],
    [{ unit: 'mg/L', optional: true } as Options, true, undefined, undefined],
    [{ unit: 'degC', default: 20 }, true, 20, '20 °C'],
    [{ unit: 'degC', default: 20, defaultText: 'a mild day' }, true, 20, 'a mild day'],
    [{ optional: true, defaultText: 'the table' } as Options, true, undefined, 'the table'],
  ])('%j', (options, optional, fallback, words) => {
    const parameter = made(options);
    expect(parameter.kind).toBe('number');
    expect([parameter.optional, parameter.fallback, parameter.defaultText]).toEqual([
      optional,
      fallback,
      words,
    ]);
    expect('fallback' in parameter).toBe(fallback !== undefined);
    expect('defaultText' in parameter).toBe(words !== undefined);
  });
  it('has no unit where none is given', () => {
    expect(made({}).unit).toBe('');
  });
});

describe('the same bounds in a plain formula', () => {
  it.each<readonly [Options, string]>([
    [{}, 'ISNUMBER(A1)'],
    [{ min: 1 }, 'AND(ISNUMBER(A1),A1>=1)'],
    [{ above: 1 }, 'AND(ISNUMBER(A1),A1>1)'],
    [{ max: 1 }, 'AND(ISNUMBER(A1),A1<=1)'],
    [{ below: 1 }, 'AND(ISNUMBER(A1),A1<1)'],
    [{ whole: true }, 'AND(ISNUMBER(A1),INT(N(A1))=A1)'],
    [{ min: 0, zeroIsBlank: true }, 'AND(AND(ISNUMBER(A1),A1>=0),A1<>0)'],
    [{ min: 0, default: 5 }, 'AND(AND(ISNUMBER(A1),A1>=0),A1<>0)'],
  ])('%j', (options, formula) => {
    expect(made(options).plainGuard?.('A1')).toBe(formula);
  });
});

describe('what is no number', () => {
  it('says TRUE and FALSE as a sheet does', () => {
    expect(() => made({ unit: 'mg/L' }).read(true)).toThrow('it takes a concentration; got TRUE');
    expect(() => made({ unit: 'mg/L' }).read(false)).toThrow('it takes a concentration; got FALSE');
  });
  it('propagates an error unchanged', () => {
    const error = new GillError('#REF!', 'gone');
    expect(() => made({}).read(error)).toThrow(error);
    expect(() => date('it', 'a day').read(error)).toThrow(error);
  });
});

describe('a date', () => {
  it('takes the last day that a sheet knows, and no later one', () => {
    expect(date('it', 'a day').read(2958465)).toBe(2958465);
    expect(() => date('it', 'a day').read(2958466)).toThrow('it must be a date');
    expect(() => date('it', 'a day').read(Infinity)).toThrow('it must be a date');
    expect(() => date('it', 'a day').read(NaN)).toThrow('it must be a date');
  });
});
