import { describe, expect, it } from 'vitest';
import {
  all,
  any,
  blankIf,
  blankUnless,
  blankWithout,
  call,
  cases,
  Formula,
  joined,
  madeElsewhere,
  not,
  part,
  roundedUp,
  when,
} from '../../src/plan/formula-parts';

const [a, b, c] = ['$A6', '$B6', '$C6'].map((text) => new Formula(text)) as [
  Formula,
  Formula,
  Formula,
];

describe('formulas put together from parts', () => {
  it.each<[Formula, string]>([
    [a.plus(b).times(c), '($A6+$B6)*$C6'],
    [a.times(b).plus(c), '$A6*$B6+$C6'],
    [a.minus(b.minus(c)), '$A6-($B6-$C6)'],
    [a.minus(b).minus(c), '$A6-$B6-$C6'],
    [a.over(b.times(c)), '$A6/($B6*$C6)'],
    [a.over(b).times(c), '$A6/$B6*$C6'],
    [a.plus(b).power(part(1).over(3)), '($A6+$B6)^(1/3)'],
    [a.plus(b).negative(), '-($A6+$B6)'],
    [a.minus(-5), '$A6--5'],
    [a.is(0).times(b), '($A6=0)*$B6'],
    [joined('x ', a.plus(1), joined(b, '%')), '"x "&$A6+1&$B6&"%"'],
    [joined(a, b).is('xy'), '$A6&$B6="xy"'],
    [joined('a', a.above(1)), '"a"&($A6>1)'],
    [a.is(b.is(c)), '$A6=($B6=$C6)'],
  ])('%# keep their meaning with as few brackets as it takes', (formula, text) => {
    expect(formula.text).toBe(text);
  });

  it('words are never code: quotes in them are doubled', () => {
    expect(part('he said "=1+1"').text).toBe('"he said ""=1+1"""');
    expect(call('COUNTIF', a, '>0').text).toBe('COUNTIF($A6,">0")');
  });

  it('cases are tested one after the other', () => {
    const formula = cases(
      [
        [a.isBlank, 'none'],
        [a.above(b), a.minus(b)],
      ],
      0,
    );
    expect(formula.text).toBe('IF($A6="","none",IF($A6>$B6,$A6-$B6,0))');
  });

  it('blanks stay blank', () => {
    expect(blankWithout([a], b).text).toBe('IF($A6="","",$B6)');
    expect(blankWithout([a, b], c).text).toBe('IF(OR($A6="",$B6=""),"",$C6)');
    expect(blankUnless(a.isNumber, b).text).toBe('IF(ISNUMBER($A6),$B6,"")');
    expect(blankIf(a.is(0), b).text).toBe('IF($A6=0,"",$B6)');
  });

  it('conditions are joined, and one alone stands as it is', () => {
    expect(all(a.isFilled).text).toBe('$A6<>""');
    expect(any(a.isBlank, all(b.atLeast(1), not(c.below(2)))).text).toBe(
      'OR($A6="",AND($B6>=1,NOT($C6<2)))',
    );
    expect(when(a.is(1), 'one', 'more').text).toBe('IF($A6=1,"one","more")');
  });

  it('rounding up does not count what a division adds in the last digits', () => {
    expect(roundedUp(a.over(b)).text).toBe('ROUNDUP(ROUND($A6/$B6,6),0)');
  });

  it.each([
    ['SUM(A1:A3)', 'SUM(A1:A3)*2'],
    ["'Two words'!A1", "'Two words'!A1*2"],
    ['IF(A1>0,"a + b",1)', 'IF(A1>0,"a + b",1)*2'],
    ['A1+A2', '(A1+A2)*2'],
    ['(A1)+(A2)', '((A1)+(A2))*2'],
    ['"a"&"b"', '("a"&"b")*2'],
  ])('%s, made elsewhere, gets brackets only where it needs them', (text, twice) => {
    expect(madeElsewhere(text).times(2).text).toBe(twice);
  });
});
