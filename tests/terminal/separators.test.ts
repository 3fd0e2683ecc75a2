import { describe, expect, it } from 'vitest';
import { withCommas } from '../../src/terminal/separators';

describe('the separators between the arguments of a question', () => {
  it.each([
    ['GILL.AMMONIA.UNIONISED(1,8,25.5)', 'GILL.AMMONIA.UNIONISED(1,8,25.5)'],
    ['GILL.AMMONIA.UNIONISED(1;8;25,5)', 'GILL.AMMONIA.UNIONISED(1,8,25.5)'],
    ['=GILL.FEED.DAY(640; 235; "Nile tilapia")', '=GILL.FEED.DAY(640, 235, "Nile tilapia")'],
    ['F(1;"25,5 °C; warm";{1;2})', 'F(1,"25,5 °C; warm",{1;2})'],
    ['F("a;b",2)', 'F("a;b",2)'],
    ['SUM({1;2})', 'SUM({1;2})'],
    ["F('My; sheet'!A1,2)", "F('My; sheet'!A1,2)"],
    ['F(;5)', 'F(,5)'],
  ])('%s is read as %s', (formula, read) => {
    expect(withCommas(formula)).toBe(read);
  });

  it('is one of the two', () => {
    expect(() => withCommas('F(a,b;c)')).toThrow('either commas or semicolons');
  });
});
