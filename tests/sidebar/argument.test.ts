import { describe, expect, it } from 'vitest';
import { findCard } from '../../src/functions/card-list';
import type { Parameter } from '../../src/functions/parameter';
import {
  argumentOf,
  formulaOf,
  formulaText,
  givenText,
} from '../../src/sidebar/functions/argument';

const parameter = (id: string, name: string): Parameter => {
  const found = findCard(id)?.parameters.find((parameter) => parameter.name === name);
  if (!found) throw new Error(`${id} has no ${name}`);
  return found;
};
const water = parameter('AMMONIA.UNIONISED', 'water');
const date = parameter('SOW.DATE', 'date');
const share = parameter('STOCK.START', 'survival');
const crop = parameter('SOW.DATE', 'crop');

const typed = (parameter: Parameter, text: string) => ({
  value: argumentOf(parameter, givenText(text), undefined),
  formula: formulaText(parameter, givenText(text), 'Sheet1'),
});

describe('what was typed into an argument', () => {
  it.each([
    [water, '24', 24, '24'],
    [water, ' -1.5 ', -1.5, '-1.5'],
    [water, '78 degF', '78 degF', '"78 degF"'],
    [water, '', null, ''],
    [crop, 'bell "x" pepper', 'bell "x" pepper', '"bell ""x"" pepper"'],
    [share, '60 %', '60 %', '60%'],
    // 2026-03-01 is day 46082 of the 1900 system.
    [date, '2026-03-01', 46082, 'DATE(2026,3,1)'],
    [date, '2026-02-30', '2026-02-30', '"2026-02-30"'],
  ])('%# becomes the value and the formula text', (parameter, text, value, formula) => {
    expect(typed(parameter, text)).toEqual({ value, formula });
  });

  it.each([
    ['B5', undefined, 'B5'],
    ['$B$5:C9', undefined, 'B5:C9'],
    ['Tanks!B5', 'Tanks', 'B5'],
    ["'Jo''s tanks'!b5:b9", "Jo's tanks", 'b5:b9'],
    ['Water!C:C', 'Water', 'C:C'],
  ])('takes %s as an address', (text, sheet, address) => {
    expect(givenText(text)).toEqual({ kind: 'address', text, sheet, address });
    expect(typed(water, text)).toEqual({ value: undefined, formula: text });
  });

  it('gives the cells at an address once they were read', () => {
    const cells = { sheet: 'Tanks', address: 'B5:B6', values: [[24], [25]] };
    expect(argumentOf(water, givenText('Tanks!B5:B6'), cells)).toEqual([[24], [25]]);
  });

  it('takes a crop with a figure in its name as a name', () => {
    expect(givenText('lettuce 2').kind).toBe('typed');
  });
});

describe('what was taken from the grid', () => {
  const picked = (sheet: string) => ({
    kind: 'picked' as const,
    from: { sheet, address: 'B2:B4', values: [[1], [2], [3]] },
  });
  it('goes without its sheet where the formula stands on it', () => {
    expect(formulaText(water, picked('Sheet1'), 'Sheet1')).toBe('B2:B4');
  });
  it('names its sheet elsewhere, in quotes where it needs them', () => {
    expect(formulaText(water, picked('Records'), 'Sheet1')).toBe('Records!B2:B4');
    expect(formulaText(water, picked("Jo's tanks"), 'Sheet1')).toBe("'Jo''s tanks'!B2:B4");
    expect(formulaText(water, picked('AB12'), 'Sheet1')).toBe("'AB12'!B2:B4");
  });
});

describe('a formula', () => {
  it('leaves out what is empty at its end, and keeps the place of what is empty before', () => {
    expect(formulaOf('GILL.X', ['1', '', '3', '', ''])).toBe('=GILL.X(1,,3)');
    expect(formulaOf('GILL.X', ['', ''])).toBe('=GILL.X()');
  });
});
