import { describe, expect, it } from 'vitest';
import {
  boundCalls,
  callsGill,
  displayedCalls,
  mayCallGill,
  rewriteCalls,
  unknownCalls,
  unknownSentence,
} from '../../src/functions/gill-calls';

/** Shows what was found: <id|arguments|whole formula or inside another>. */
const marked = (formula: string): string =>
  rewriteCalls(
    formula,
    ({ card, args, whole }) => `<${card.id}|${args.join('¦')}|${whole ? 'whole' : 'inside'}>`,
  );

describe('finding GILL calls in a formula', () => {
  it.each([
    ['stored', '_xldudf_GILL_AMMONIA_UNIONISED(A1,8,25)', '<AMMONIA.UNIONISED|A1¦8¦25|whole>'],
    ['bare', 'GILL.AMMONIA.UNIONISED(A1,8,25)', '<AMMONIA.UNIONISED|A1¦8¦25|whole>'],
    ['lower case', 'gill.ammonia.unionised(A1,8,25)', '<AMMONIA.UNIONISED|A1¦8¦25|whole>'],
    ['linked by number', '[2]!_xldudf_GILL_LOAD_TAN(B2)', '<LOAD.TAN|B2|whole>'],
    ['linked by path', "'C:\\a\\[x.xlam]S 1'!_xldudf_GILL_LOAD_TAN(B2)", '<LOAD.TAN|B2|whole>'],
    ['with the sign and a link', '@[2]!GILL.LOAD.TAN(B2)', '<LOAD.TAN|B2|whole>'],
    [
      'after a cell, linked by a path with blanks',
      "A1+'C:\\a b\\[x.xlam]S 1'!_xldudf_GILL_LOAD_TAN(B2)",
      'A1+<LOAD.TAN|B2|inside>',
    ],
    [
      'after a cell, linked by a path in short pieces',
      "'T 1'!A1&'C:\\it''s\\[x.xlam]S'!GILL.LOAD.TAN(B2)",
      "'T 1'!A1&<LOAD.TAN|B2|inside>",
    ],
    [
      'linked twice',
      "SUM([2]!GILL.LOAD.TAN(1),@'[b.xlam]S'!GILL.LOAD.CO2(2))",
      'SUM(<LOAD.TAN|1|inside>,<LOAD.CO2|2|inside>)',
    ],
    ['linked by a bare book', '1+[x.xlam]Sheet1!GILL.LOAD.TAN(1)', '1+<LOAD.TAN|1|inside>'],
    ['other spellings', '_xludf.GILL.LOAD.TAN(1)', '<LOAD.TAN|1|whole>'],
    ['a link that names nothing', '!GILL.LOAD.TAN(1)', '!<LOAD.TAN|1|inside>'],
    ['linked by a bare name', "'book.xlam'!GILL.LOAD.TAN(B2)", '<LOAD.TAN|B2|whole>'],
    ['blanks around it', ' GILL.LOAD.TAN( B2 ) ', ' <LOAD.TAN|B2|whole> '],
    ['blanks for an argument', 'GILL.FACT.CROPS( )', '<FACT.CROPS||whole>'],
    ['the sign in the middle', '1+@GILL.LOAD.TAN(B2)', '1+<LOAD.TAN|B2|inside>'],
    [
      'two in a row',
      'GILL.LOAD.TAN(1)+GILL.LOAD.CO2(2)',
      '<LOAD.TAN|1|inside>+<LOAD.CO2|2|inside>',
    ],
    ['with the sign for one cell', '@GILL.LOAD.TAN(B2)', '<LOAD.TAN|B2|whole>'],
    ['left-out argument', 'GILL.OXYGEN.FULL(A1,,500)', '<OXYGEN.FULL|A1¦¦500|whole>'],
    ['no argument', 'GILL.FACT.CROPS()', '<FACT.CROPS||whole>'],
    [
      'inside others, and others inside it',
      'ROUND(2*GILL.LOAD.TAN(SUM(A1:A3),0.4),2)+1',
      'ROUND(2*<LOAD.TAN|SUM(A1:A3)¦0.4|inside>,2)+1',
    ],
    [
      'inside itself',
      'GILL.FILTER.SURFACE(GILL.LOAD.TAN(A1))',
      '<FILTER.SURFACE|<LOAD.TAN|A1|inside>|whole>',
    ],
    [
      'sheets with signs in their names, text with brackets',
      `'It''s (a), b'!$A$1&GILL.FACT.CROP("a,(b","x")`,
      `'It''s (a), b'!$A$1&<FACT.CROP|"a,(b"¦"x"|inside>`,
    ],
    ['array constants', 'GILL.LOAD.TAN({1,2;3,4})', '<LOAD.TAN|{1,2;3,4}|whole>'],
    [
      'names and tables',
      'GILL.LOAD.TAN(Log[feed a day],Share)',
      '<LOAD.TAN|Log[feed a day]¦Share|whole>',
    ],
  ])('%s', (_, formula, found) => {
    expect(marked(formula)).toBe(found);
  });

  it.each([
    ['GILL.FACT.CROPS()', []],
    ['GILL.FACT.CROPS(  )', []],
    ['GILL.OXYGEN.FULL(,)', ['', '']],
    ['GILL.OXYGEN.FULL( A1 ,(1,2))', ['A1', '(1,2)']],
  ])('counts the arguments of %s', (formula, wanted) => {
    const found: (readonly string[])[] = [];
    const same = rewriteCalls(formula, ({ args, written }) => {
      found.push(args);
      return written;
    });
    expect(found).toEqual([wanted]);
    expect(same).toBe(formula);
  });

  it('reports how a call was written, without its link', () => {
    const formula = 'ROUND([2]!gill.load.tan( A1 ),1)';
    expect(rewriteCalls(formula, ({ written }) => written)).toBe('ROUND(gill.load.tan( A1 ),1)');
  });

  it.each([
    ['text that looks like a call', '"GILL.LOAD.TAN(1)"&A1'],
    ['a function that Gillbed does not have', 'GILL.LOAD.NOTHING(1)'],
    ['a sheet of that name', "GILL!A1+'GILL.LOAD.TAN(1)'!B2"],
    ['a name of that spelling', 'GILL.LOAD.TAN+(1)'],
    ['a call that never closes', 'GILL.LOAD.TAN(1'],
    ['other add-ins', '_xldudf_OTHER_LOAD_TAN(1)+[2]!Other(1)'],
  ])('leaves alone %s', (_, formula) => {
    expect(marked(formula)).toBe(formula);
  });
});

describe('a quick look at a formula', () => {
  it.each([
    ['GILL.LOAD.TAN(1)', true],
    ['1+gill.load.tan(1)', true],
    ['_xldudf_GILL_LOAD_TAN(1)', true],
    ['GILL.LOAD.TAN', false],
    ['SUM(A1)', false],
  ])('%s: %s', (formula, may) => {
    expect(mayCallGill(formula)).toBe(may);
  });
});

describe('names of functions, as a person reads them and as a file stores them', () => {
  it.each([
    ['_xldudf_GILL_LOAD_TAN(A1)', 'GILL.LOAD.TAN(A1)'],
    ['1+[2]!_xldudf_GILL_LOAD_TAN(A1)*2', '1+GILL.LOAD.TAN(A1)*2'],
    ['_xlfn.GILL.LOAD.TAN(_xludf.gill.load.tan(A1))', 'GILL.LOAD.TAN(GILL.LOAD.TAN(A1))'],
    ['SUM(A1)', 'SUM(A1)'],
  ])('%s is read as %s, and stored under the one name again', (written, read) => {
    expect(displayedCalls(written)).toBe(read);
    expect(boundCalls(written)).toBe(read.replaceAll('GILL.LOAD.TAN', '_xldudf_GILL_LOAD_TAN'));
    expect(displayedCalls(boundCalls(written))).toBe(read);
  });

  it.each([
    ['GILL.LOAD.TAN(1)', true],
    ['"GILL.LOAD.TAN(1)"', false],
    ['GILL.LOAD.NOTHING(1)', false],
    ['SUM(A1)', false],
  ])('%s calls a function of Gillbed: %s', (formula, calls) => {
    expect(callsGill(formula)).toBe(calls);
  });

  it('names what Gillbed does not have, each once and as it stands there', () => {
    expect(
      unknownCalls('GILL.LOAD.NOTHING(GILL.LOAD.TAN(1))+_xldudf_GILL_GONE(2)+GILL.LOAD.NOTHING(3)'),
    ).toEqual(['GILL.LOAD.NOTHING', '_xldudf_GILL_GONE']);
    expect(unknownCalls('GILL.LOAD.TAN(1)+MYGILL.OTHER(2)+"GILL.NO(1)"')).toEqual([]);
    expect(unknownCalls('SUM(A1)')).toEqual([]);
    expect(unknownSentence(['GILL.A', 'GILL.B'])).toContain('GILL.A and none GILL.B');
  });
});
