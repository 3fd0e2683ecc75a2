import { describe, expect, it } from 'vitest';
import { withQuotedDates } from '../../src/terminal/bare-dates';

describe('dates without quotes in a question', () => {
  it.each([
    ['GILL.SUN.HOURS(52,2026-03-01)', 'GILL.SUN.HOURS(52,"2026-03-01")'],
    ['GILL.SUN.HOURS(52; 1 March 2026 )', 'GILL.SUN.HOURS(52; "1 March 2026" )'],
    ['F(2026-03-01,Mar 1 2026,3)', 'F("2026-03-01","Mar 1 2026",3)'],
  ])('%s: they are texts', (given, read) => {
    expect(withQuotedDates(given)).toBe(read);
  });

  it.each([
    'GILL.SUN.HOURS(52,"2026-03-01")',
    'GILL.FEED.DAY(2000 - 10 - 15, 250)',
    'F(1/2,3-1,A1,{1,2;3,4})',
    "SUM('2026-03-01'!A1:A3)",
    'F(2000-1-5,10-12)',
    'GILL.AMMONIA.UNIONISED(1,8,25.5)',
  ])('%s stays as it is', (formula) => {
    expect(withQuotedDates(formula)).toBe(formula);
  });

  it.each([
    ['F(52,03/04/2026)', 'write 2026-04-03 or 2026-03-04'],
    ['F(25.12.2026)', 'write 2026-12-25'],
    ['F(2026-03-01+7)', '2026-03-01 would be calculated'],
    ['=2026-03-01', 'write DATE(year, month, day)'],
    ['F(2026-02-30,1)', '2026-02-30 would be calculated'],
    ['F(7+1/3/2026)', '1/3/2026 would be calculated'],
  ])('%s: a date that may be misread is asked for anew', (formula, sentence) => {
    expect(() => withQuotedDates(formula)).toThrow(sentence);
  });
});
