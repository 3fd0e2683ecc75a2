import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import { cards } from '../../src/functions/card-list';
import { evaluate } from '../../src/engine/engine';

const one = (formula: string): unknown => evaluate(formula)[0]?.[0]?.value;
const literal = (value: number | string | null): string =>
  value === null ? '' : typeof value === 'string' ? `"${value}"` : String(value);

describe('the engine', () => {
  it.each(
    cards.flatMap(({ id, examples }) =>
      examples.map((example) => ({ id, says: example.says, example })),
    ),
  )('answers $id as its example says: $says', ({ id, example }) => {
    const rows = evaluate(`GILL.${id}(${example.args.map(literal).join(',')})`);
    const wanted = Array.isArray(example.result) ? example.result : [[example.result]];
    wanted.forEach((row: readonly (number | string)[], r: number) =>
      row.forEach((value, c) => {
        const got = rows[r]?.[c]?.value;
        if (typeof value === 'string') expect(got).toBe(value);
        else {
          const tolerance = example.tolerance ?? Math.abs(value) * 1e-9;
          expect(Math.abs((got as number) - value)).toBeLessThanOrEqual(tolerance);
        }
      }),
    );
  });

  it('turns a bad argument into an error with its sentence', () => {
    const answer = one('GILL.AMMONIA.UNIONISED(1,78,25)');
    expect(answer).toBeInstanceOf(GillError);
    expect(answer).toMatchObject({
      code: '#VALUE!',
      message: 'ph must be between 0 and 14; got 78',
    });
  });

  it('works in other functions, with units in text', () => {
    expect(one('ROUND(SUM(GILL.AMMONIA.UNIONISED(1,8,"77 degF"),1),3)')).toBe(1.054);
  });

  it('spills a range row by row, the bad row alone carrying the error', () => {
    const rows = evaluate('=GILL.AMMONIA.UNIONISED({1;2;"x"},8,25)');
    expect(rows).toHaveLength(3);
    expect(rows[1]?.[0]?.value).toBeCloseTo(2 * (rows[0]?.[0]?.value as number), 12);
    expect(rows[2]?.[0]?.value).toMatchObject({ code: '#VALUE!' });
  });

  it("shows the spreadsheet's own errors as every spreadsheet does", () => {
    expect(one('VALUE("ten")')).toMatchObject({ code: '#VALUE!' });
    expect(one('1/0')).toMatchObject({ code: '#DIV/0!' });
    expect(one('NOSUCHTHING(1)')).toMatchObject({ code: '#NAME?' });
    expect(one('GILL.AMMONIA.UNIONIZED(1)')).toMatchObject({
      message: 'there is no GILL.AMMONIA.UNIONIZED; the nearest name is GILL.AMMONIA.UNIONISED',
    });
    expect(one('1+')).toMatchObject({ code: '#VALUE!' });
    expect(one('IFERROR(VALUE("ten"),7)')).toBe(7);
  });

  it('has the functions that the engine lacks', () => {
    expect(one('LOG10(1000)+N("x")+N(2)+SIGN(-3)')).toBe(4);
    expect(one('RADIANS(180)-PI()')).toBe(0);
    expect(one('CONCATENATE(REPT("ab",2),"LOG10(",T(5),T("c"))')).toBe('ababLOG10(c');
    expect(one('QUOTIENT(-7,2)+MROUND(7,3)+FACT(4)')).toBe(-3 + 6 + 24);
    expect(one('MROUND(7,-3)')).toMatchObject({ code: '#NUM!' });
  });

  it('says that there are no cells to look at', () => {
    expect(one('SUM(B2:B5)')).toMatchObject({ code: '#REF!' });
  });

  it('tells a date from a number', () => {
    expect(evaluate('DATE(2026,3,1)')).toEqual([[{ value: 46082, isDate: true }]]);
    expect(evaluate('DATE(2026,3,1)-DATE(2026,2,1)')[0]?.[0]).toEqual({ value: 28, isDate: false });
  });
});
