import { describe, expect, it } from 'vitest';
import { card } from '../../src/functions/card';
import { cards } from '../../src/functions/card-list';
import { cropTable } from '../../src/functions/crop-table';
import { type Formula } from '../../src/functions/formula';
import { formulaText, type WithFormula } from '../../src/functions/formula-text';
import { choice, nameOrNumber, number, tableName } from '../../src/functions/parameter';
import { speciesTable } from '../../src/functions/species-table';

const parameters = [
  number('x', 'a figure', {}),
  number('y', 'a figure that may be left out', { optional: true }),
  choice('how', 'a word', { square: ['grid'], triangular: [] }),
  nameOrNumber('crop', 'a crop or its days', cropTable.book, { of: () => 1 }),
  tableName('fish', 'a species', speciesTable.book, {}),
] as const;

const written = (formula: Formula | string, texts: Record<string, string> = {}): string =>
  formulaText(
    {
      parameters,
      formula: typeof formula === 'string' ? { result: formula } : formula,
    } as WithFormula,
    { arguments: { x: 'A1', how: 'C1', crop: 'D1', fish: 'E1', ...texts } },
  );

describe('the text of a formula', () => {
  it.each([
    ['a step in a sum', '1 + step', 'x + 2', '1+A1+2'],
    ['a step behind a minus', '1 - step', 'x + 2', '1-(A1+2)'],
    ['a sum in a product', '2 * step', 'x + 2', '2*(A1+2)'],
    ['a quotient in a product', '2 * step', 'x / 2', '2*A1/2'],
    ['a product below a line', '1 / step', 'x * 2', '1/(A1*2)'],
    ['a quotient above a line', 'step / 3', 'x / 2', 'A1/2/3'],
    ['a sum as a power', '10^step', 'x - 7', '10^(A1-7)'],
    ['a power of a power', 'step^2', 'x^3', 'A1^3^2'],
    ['a power as a power', '2^step', 'x^3', '2^(A1^3)'],
    ['a step in a function', 'MAX(step, 0)', 'x + 2', 'MAX(A1+2,0)'],
    ['a comparison of sums', 'IF(step > 3, 1, 2)', 'x + 2', 'IF(A1+2>3,1,2)'],
  ])('has brackets where they are needed: %s', (_, result, step, text) => {
    expect(written({ result, step })).toBe(text);
  });

  it.each([
    ['A1+B1', '2*(A1+B1)+7'],
    ['(A1+B1)', '2*(A1+B1)+7'],
    ['(A1+B1)*(A2)', '2*((A1+B1)*(A2))+7'],
    ['SUM(A1:B1)', '2*SUM(A1:B1)+7'],
    ['IF(A1="(",1,2)', '2*IF(A1="(",1,2)+7'],
    ['INDEX(A1:A9,1)+MAX(1,2)', '2*(INDEX(A1:A9,1)+MAX(1,2))+7'],
    ["'My tanks'!$A$1", "2*('My tanks'!$A$1)+7"],
    ['Tanks!A1', '2*Tanks!A1+7'],
    ['-5', '2*(-5)+7'],
    ['5', '2*5+7'],
  ])('has them around what is put in: %s', (x, text) => {
    expect(written('2 * x + 7', { x })).toBe(text);
  });

  it('begins a sum with a sign, and has it in brackets before a power', () => {
    expect(written('x + 273.15', { x: '-2' })).toBe('-2+273.15');
    expect(written('x^2', { x: '-2' })).toBe('(-2)^2');
  });

  it.each([
    [undefined, '7'],
    ['5', '7/5'],
    ['B1', '7/IF(B1="",1,B1)'],
  ])('decides at once what is known of an argument: %s', (y, text) => {
    expect(written('7 / IF(y = "", 1, y)', y === undefined ? {} : { y })).toBe(text);
  });

  it.each([
    ['x >= 2', '3', 'TRUE'],
    ['x < 2', '3', 'FALSE'],
    ['x <> 3', '3', 'FALSE'],
    ['x = 3', '3', 'TRUE'],
    ['x > 3', 'A1', 'A1>3'],
    ['OR(x > 3, x < 1)', 'A1', 'OR(A1>3,A1<1)'],
    ['OR(x > 3, 1 < 2)', 'A1', 'TRUE'],
    ['OR(x > 3, 1 > 2)', 'A1', 'A1>3'],
    ['AND(x > 3, 1 > 2)', 'A1', 'FALSE'],
    ['AND(1 < 2, 2 < 3)', 'A1', 'TRUE'],
    ['ISNUMBER(x)', '3', 'TRUE'],
    ['ISNUMBER(x)', '"3"', 'FALSE'],
    ['ISNUMBER(x)', 'A1', 'ISNUMBER(A1)'],
  ])('decides conditions of constants: %s with %s', (condition, x, text) => {
    expect(written(condition, { x })).toBe(text);
  });

  it('leaves no factor of 1 behind a choice', () => {
    expect(written('x * IF(y = "", 1, y)')).toBe('A1');
    expect(written('x / IF(y = "", 1, y)')).toBe('A1');
    expect(written('x * y', { x: 'A1', y: '1' })).toBe('A1*1');
  });

  it('has no answer as a number beyond all numbers', () => {
    expect(written('IF(x > 1, NO_ANSWER(), x)')).toBe('IF(A1>1,10^309,A1)');
  });

  it('chooses by a word in any spelling', () => {
    const formula = 'SWITCH(how, "square", x, "triangular", 2 * x)';
    expect(written(formula, { how: '"Grid"' })).toBe('A1');
    expect(written(formula, { how: '"triangular"' })).toBe('2*A1');
    expect(written(formula)).toContain('" square grid "');
    expect(written(formula)).toMatch(
      /,2\*A1,VALUE\("how must be one of: square, triangular"\)\)\)$/,
    );
    expect(written('SWITCH(how, "square", x, 7)', { how: '"triangular"' })).toBe('7');
    expect(written('IF(how = "square", 1, 2)', { how: '"grid"' })).toBe('1');
    expect(written('IF(how = "square", 1, 2)', { how: '4' })).toBe('2');
  });

  it('counts the failures that a sowing must allow for', () => {
    expect(written('x + NEGBINOM_INV(y, x, 0.9)', { y: '0.95' })).toBe(
      'A1+SUMPRODUCT((BINOMDIST(A1-1,A1-1+ROW($A$1:$A$5000),0.9,1)>1-0.95+0.000000000001)*1)',
    );
  });

  it('looks facts up by the name', () => {
    expect(written('crop.bed_days / 7')).toBe(
      'INDEX(Crop_bed_days,INDEX(Crop_row,MATCH(SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(D1," ",""),"-",""),"_",""),Crop_key,0)))/7',
    );
    expect(written('MAX(fish.feed_weights)')).toBe('MAX(Fish_feed_weights)');
    expect(written('2 * ALONG(fish.feed_rates, x)')).toMatch(
      /^2\*\(INDEX\(Fish_feed_rates,.*Fish_feed_weights.*\)$/,
    );
  });

  it.each([
    ['other + 1', /nothing is called other/],
    ['x.bed_days', /x names no row of a table/],
    ['ALONG(x, 1)', /ALONG reads a block of a table/],
    ['ALONG(fish.tgc, 1)', /ALONG reads a block of a table/],
    ['ALONG(1, 1)', /ALONG reads a block of a table/],
    ['SWITCH(x, "a", 1)', /SWITCH chooses by a parameter that takes words/],
    ['SWITCH(1, "a", 1)', /SWITCH chooses by a parameter that takes words/],
    ['SWITCH(how, "round", 1)', /No word of this parameter: round/],
    ['-x', /may not hold UnaryExpression/],
    ['A1:B2 A1', /may not hold the operator/],
    ['', /Invalid syntax/],
  ])('refuses %s', (formula, problem) => {
    expect(() => written(formula)).toThrow(problem);
  });

  it('refuses a formula that says nothing', () => {
    expect(() => formulaText({ parameters, formula: {} }, { arguments: {} })).toThrow(
      'A formula without a result',
    );
  });
});

describe('a formula with cells of one’s own', () => {
  const weeks = card({
    id: 'TEST',
    subject: 'Beds',
    summary: '',
    parameters: [parameters[0], parameters[3]],
    result: { kind: 'number', unit: '', meaning: '' },
    method: '',
    formula: { plants: 'x * weeks', weeks: 'days / 7', days: 'crop.bed_days + crop.harvest_days' },
    sources: [],
    validity: '',
    examples: [
      { args: [], result: 0, says: '' },
      { args: [], result: 0, says: '' },
    ],
    compute: () => 0,
  });

  it('takes the facts from where they stand', () => {
    expect(
      formulaText(weeks, { arguments: {}, facts: (_, fact) => `INDEX(Crop_${fact},$B4)` }, 'weeks'),
    ).toBe('(INDEX(Crop_bed_days,$B4)+INDEX(Crop_harvest_days,$B4))/7');
  });

  it('takes a step from the cell that holds it', () => {
    expect(formulaText(weeks, { arguments: { x: 'A1' }, steps: { weeks: 'B1' } })).toBe('A1*B1');
  });
});

describe('every function is said in one formula', () => {
  const inPieces = cards.filter((known) => known.inPieces !== undefined);

  it(`but for ${inPieces.length} of ${cards.length}, each of which says why`, () => {
    expect(inPieces.map(({ id }) => id).sort()).toEqual([
      'FACT.CROP',
      'FACT.CROPS',
      'FACT.FISH',
      'FACT.SPECIES',
      'GROWTH.CURVE',
      'GROWTH.FITTED',
      'STOCK.FORECAST',
      'STOCK.ROTATION',
    ]);
    for (const { id, inPieces: why } of inPieces) expect(why, id).toMatch(/^[A-Z].{30,}\.$/);
    const without = cards.filter(
      ({ formula, inPieces: why }) => typeof formula !== 'object' && why === undefined,
    );
    expect(without.map(({ id }) => id)).toEqual([]);
  });
});
