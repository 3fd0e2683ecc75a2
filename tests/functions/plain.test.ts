import { describe, expect, it } from 'vitest';
import { card, spillCard } from '../../src/functions/card';
import { findCard } from '../../src/functions/card-list';
import { choice, nameOrNumber, number, series, tableName } from '../../src/functions/parameter';
import {
  type ArgumentText,
  ifGiven,
  numberOrFigure,
  plainFormula,
  plainSpillFormula,
  quoted,
} from '../../src/functions/plain';
import { speciesTable } from '../../src/functions/species-table';

const example = { args: [1], result: 1, says: 'an example' } as const;
const words = {
  id: 'TEST',
  subject: 'Feed',
  summary: 'a card for these tests',
  result: { kind: 'number', unit: '', meaning: 'what its arguments became' },
  method: 'shows the text of each argument',
  sources: [],
  validity: 'here',
  examples: [example, example],
} as const;

type Options = Parameters<typeof number>[2] & { default?: number };
/** What a parameter makes of an argument: the formula that shows its text between angle brackets. */
const shown = (options: Options, given: ArgumentText): string =>
  plainFormula(
    card({
      ...words,
      parameters: [number('x', 'a figure', options)],
      compute: () => 0,
      inPieces: 'for these tests',
      plain: (a) => `<${String(a.x)}>`,
    }),
    [given],
  );

describe('one argument of a plain form', () => {
  const share: Options = { unit: 'share', min: 0, max: 1 };
  const usual: Options = { unit: 'degC', min: 5, max: 50, default: 20 };
  const blankZero: Options = { min: 1, default: 3, whole: true };
  const open = { min: 1, optional: true } as Options;
  const openToZero = { max: 9, optional: true } as Options;

  it.each<readonly [Options, ArgumentText, string]>([
    // A literal is read here and now, and needs no look in the sheet.
    [share, '0.5', '<0.5>'],
    [share, ' 60% ', '<0.6>'],
    [share, '"60 %"', '<0.6>'],
    [{ unit: 'degC' }, '"77 degF"', '<25>'],
    [share, '1e-3', '<0.001>'],
    [usual, undefined, '<20>'],
    [usual, '', '<20>'],
    [usual, '""', '<20>'],
    [usual, '0', '<20>'],
    [open, undefined, '<undefined>'],
    [open, '0', '<undefined>'],
    // A cell is looked at in the sheet; an expression is put in brackets.
    [{}, 'A1', 'IF(A1="","",IF(ISNUMBER(A1),<A1>,VALUE("x must be ")))'],
    [
      {},
      "'My sheet'!$A$1",
      `IF('My sheet'!$A$1="","",IF(ISNUMBER('My sheet'!$A$1),<'My sheet'!$A$1>,VALUE("x must be ")))`,
    ],
    [{}, 'A1+1', 'IF((A1+1)="","",IF(ISNUMBER((A1+1)),<(A1+1)>,VALUE("x must be ")))'],
    [
      { min: 1 },
      'A1',
      'IF(OR(A1="",A1=0),"",IF(AND(ISNUMBER(A1),A1>=1),<A1>,VALUE("x must be at least 1")))',
    ],
    // The words of a limit hold quotes; the sentence in the formula holds none.
    [
      share,
      'A1',
      'IF(A1="","",IF(AND(ISNUMBER(A1),A1>=0,A1<=1),<A1>,VALUE("x must be between 0 and 1, such as 0.6 or 60 %")))',
    ],
    [
      { default: 2 },
      'A1',
      'IF(AND(ISNUMBER(IF(A1="",2,A1)),IF(A1="",2,A1)<>0),<IF(A1="",2,A1)>,VALUE("x must be "))',
    ],
    [
      { min: 1, default: 3 },
      'A1',
      ((text) => `IF(AND(ISNUMBER(${text}),${text}>=1),<${text}>,VALUE("x must be at least 1"))`)(
        'IF(IF(A1="",TRUE,IF(ISNUMBER(A1),A1=0,FALSE)),3,A1)',
      ),
    ],
    [
      open,
      'A1',
      ((text) =>
        `IF(IF(${text}="",TRUE,AND(ISNUMBER(${text}),${text}>=1)),<${text}>,VALUE("x must be at least 1"))`)(
        'IF(A1=0,"",A1)',
      ),
    ],
    [
      openToZero,
      'A1',
      'IF(IF(A1="",TRUE,AND(AND(ISNUMBER(A1),A1<=9),A1<>0)),<A1>,VALUE("x must be at most 9"))',
    ],
    [blankZero, '2', '<2>'],
  ])('%j takes %s as %s', (options, given, formula) => {
    expect(shown(options, given)).toBe(formula);
  });

  it.each<readonly [Options, ArgumentText, string]>([
    [share, undefined, 'x is missing; it takes between 0 and 1'],
    [share, '  ', 'x is missing; it takes between 0 and 1'],
    [share, '""', 'x is missing; it takes between 0 and 1'],
    [{ min: 1 }, '0', 'x is missing; it takes at least 1'],
    [share, '101%', 'x must be between 0 and 1'],
    [{ unit: 'g' }, '"much"', 'x takes a weight'],
    [{ unit: 'g' }, '"say ""much"""', 'got "say "much""'],
  ])('%j refuses %s', (options, given, sentence) => {
    expect(() => shown(options, given)).toThrow(sentence);
    expect(() => shown(options, given)).toThrow(expect.objectContaining({ code: '#VALUE!' }));
  });

  it('writes names and words of literals as they are kept', () => {
    const named = card({
      ...words,
      parameters: [
        choice('pattern', 'of planting', { square: ['grid'], triangular: [] }),
        tableName('kind', 'of fish', speciesTable.book, {}),
        nameOrNumber('level', 'of fish', speciesTable.book, { of: () => 60, above: 0 }),
      ],
      compute: () => 0,
      inPieces: 'for these tests',
      plain: (a) => `<${a.pattern}|${a.kind}|${a.level}>`,
    });
    const formula = (pattern: string, level: string): string =>
      plainFormula(named, [pattern, '"tilapia"', level]);
    expect(formula('"GRID"', '"carp"')).toBe('<"square"|"tilapia"|60>');
    expect(formula('"square"', '7.5')).toBe('<"square"|"tilapia"|7.5>');
  });
});

describe('several arguments of a plain form', () => {
  const two = (first: Options, second: Options) =>
    card({
      ...words,
      parameters: [number('x', 'a figure', first), number('y', 'a figure', second)],
      compute: () => 0,
      inPieces: 'for these tests',
      plain: () => '1',
    });

  it('looks at the first argument first', () => {
    const formula = plainFormula(two({ min: 1 }, { min: 2 }), ['A1', '5+B1']);
    expect(formula.indexOf('x must be')).toBeGreaterThan(formula.indexOf('y must be'));
    expect(formula.indexOf('A1>=1')).toBeLessThan(formula.indexOf('(5+B1)>=2'));
  });

  // As the live cards do it: nothing is there yet, or only what cannot be a value.
  it.each<readonly [string, Options, Options, string]>([
    [
      'where 0 may be a value in both',
      {},
      {},
      'IF(AND(OR(A1="",A1=0),OR(B1="",B1=0),OR(A1="",B1="")),"",',
    ],
    [
      'where it may be one in neither',
      { min: 1 },
      { min: 1 },
      'IF(AND(OR(A1="",A1=0),OR(B1="",B1=0)),"",',
    ],
    [
      'where it may be one in the other',
      { min: 1 },
      {},
      'IF(AND(OR(A1="",A1=0),OR(B1="",B1=0)),"",',
    ],
    ['with one that may be left out', {}, { default: 1 }, 'IF(A1="","",'],
  ])('knows an empty row %s', (_, first, second, start) => {
    expect(plainFormula(two(first, second), ['A1', 'B1']).startsWith(start)).toBe(true);
  });

  it('has no empty row once an argument is written out', () => {
    expect(plainFormula(two({}, {}), ['A1', '2'])).toBe('IF(ISNUMBER(A1),1,VALUE("x must be "))');
    expect(plainFormula(two({}, {}), ['1', '2'])).toBe('1');
  });

  it('takes a whole range for a series as it is, one value too', () => {
    const weekly = card({
      ...words,
      parameters: [series('t', 'temperatures', { min: 1 }), number('x', 'a figure', {})],
      compute: () => 0,
      inPieces: 'for these tests',
      plain: (a) => `<${a.t}|${a.x}>`,
    });
    expect(plainFormula(weekly, ['A1:A9', 'B1'])).toContain('<(A1:A9)|B1>');
    expect(plainFormula(weekly, ['A1:A9', 'B1'])).toMatch(/^IF\(B1="","",/);
    expect(plainFormula(weekly, ['21', 'B1'])).toContain('<21|B1>');
    expect(() => plainFormula(weekly, ['0', 'B1'])).toThrow('t must be');
  });

  it('cuts a sentence that is longer than a cell shows', () => {
    const long = plainFormula(
      card({
        ...words,
        parameters: [number('w'.repeat(300), 'a figure', {})],
        compute: () => 0,
        inPieces: 'for these tests',
        plain: () => '1',
      }),
      ['A1'],
    );
    expect(long).toContain(`VALUE("${'w'.repeat(200)}")`);
  });

  it('has no empty row once a word is written out', () => {
    const worded = card({
      ...words,
      parameters: [choice('x', 'a word', { yes: [] }), number('y', 'a figure', {})],
      compute: () => 0,
      inPieces: 'for these tests',
      plain: (a) => `<${a.x}|${a.y}>`,
    });
    expect(plainFormula(worded, ['"YES"', 'A1'])).toBe(
      'IF(ISNUMBER(A1),<"yes"|A1>,VALUE("y must be "))',
    );
  });
});

describe('what stands for an argument that may be left out', () => {
  it.each([
    [undefined, 'b'],
    ['5', 'a'],
    ['"word"', 'a'],
    ['A1', 'IF(A1="",b,a)'],
  ])('%s', (given, chosen) => {
    expect(ifGiven(given, 'a', 'b')).toBe(chosen);
  });

  it.each([
    ['7.5', 'number'],
    ['"tilapia"', 'figure'],
    ['A1', 'IF(ISNUMBER(A1),number,figure)'],
    ['A1&"x"', 'IF(ISNUMBER(A1&"x"),number,figure)'],
  ])('is known by sight for a number or a name where it is written out: %s', (text, chosen) => {
    expect(numberOrFigure(text, 'figure', 'number')).toBe(chosen);
  });

  it('stands for itself where nothing else is said of a number', () => {
    expect(numberOrFigure('7.5', 'figure')).toBe('7.5');
    expect(numberOrFigure('A1', 'figure')).toBe('IF(ISNUMBER(A1),A1,figure)');
  });

  it('doubles the quotes of a text in a formula', () => {
    expect(quoted('say "x"')).toBe('"say ""x"""');
  });
});

describe('the plain form of a block', () => {
  it('is empty beside and below what the card gives', () => {
    const at = (r: number, c: number): string => `R${r}C${c}`;
    const formula = (id: string, args: ArgumentText[], row: number, column: number): string => {
      const found = findCard(id);
      if (!found?.columns) throw new Error(`${id} gives no block`);
      return plainSpillFormula(found, args, row, column, at);
    };
    // Their second example shows every row.
    const count = (id: string): number => (findCard(id)?.examples[1].result as []).length;
    for (const id of ['FACT.CROPS', 'FACT.SPECIES']) {
      expect(formula(id, [], 0, 0)).toMatch(/^"\w.+"$/);
      expect(formula(id, [], count(id), 0)).toBe('""');
    }
    const rotation = ['100', '500', '30', '27'];
    expect(formula('STOCK.ROTATION', rotation, 9, 0)).toBe('"Fingerlings a year"');
    expect(formula('STOCK.ROTATION', rotation, 10, 0)).toBe('""');
    expect(formula('STOCK.ROTATION', rotation, 10, 1)).toBe('""');
    expect(formula('STOCK.FORECAST', ['640', '235', '2', '28'], 0, 6)).toBe('""');
  });

  it('asks in every row but the first whether there is one', () => {
    const at = (r: number, c: number): string => `R${r}C${c}`;
    const formula = (id: string, args: ArgumentText[], row: number, column: number): string => {
      const found = findCard(id);
      if (!found?.columns) throw new Error(`${id} gives no block`);
      return plainSpillFormula(found, args, row, column, at);
    };
    const days = ['10', '100', '25', '20'];
    expect(formula('GROWTH.CURVE', days, 0, 0)).toBe(
      'IF(ROUNDUP(ROUND(100/25,6),0)>=1000,VALUE("step must be longer: at most 1000 rows"),0)',
    );
    expect(formula('GROWTH.CURVE', days, 2, 0)).toBe(
      'IF(2>ROUNDUP(ROUND(100/25,6),0),"",MIN(2*25,100))',
    );
    expect(formula('GROWTH.CURVE', days, 2, 1)).toMatch(
      /^IF\(2>ROUNDUP\(ROUND\(100\/25,6\),0\),"",/,
    );
    expect(formula('GROWTH.CURVE', days, 0, 1)).not.toContain('ROUNDUP');
    const weeks = ['640', '235', '2', 'A1:A2'];
    expect(formula('STOCK.FORECAST', weeks, 0, 2)).toBe('235');
    // The growth of the first week is in the water of the first value, the feed after it in that of the second.
    expect(formula('STOCK.FORECAST', weeks, 1, 2)).toContain('INDEX((A1:A2),MIN(1,2,');
    expect(formula('STOCK.FORECAST', weeks, 1, 5)).toContain('INDEX((A1:A2),MIN(2,2,');
    expect(formula('STOCK.FORECAST', weeks, 1, 5)).toMatch(/^IF\(1>2,"",/);
    // One temperature that is written out needs no look, and no volume is no density.
    expect(formula('STOCK.FORECAST', ['640', '235', '2', '28'], 1, 2)).not.toContain('INDEX(28');
    expect(formula('STOCK.FORECAST', ['640', '235', '2', '28'], 0, 4)).toBe('""');
    expect(formula('STOCK.FORECAST', ['640', '235', '2', '28', '', '', '7800'], 0, 4)).toBe(
      'IF(R0C1*R0C2/7800>1000,10^309,R0C1*R0C2/7800)',
    );
    // Half steps from none to the 52 tanks that there may be.
    expect(formula('STOCK.ROTATION', ['100', '500', '30', '27'], 7, 1)).toContain(
      'ROW($A$1:$A$105)-1',
    );
    // A density that is written out, or the table's.
    const rotation = ['100', '500', '30', '27', '', ''];
    expect(formula('STOCK.ROTATION', [...rotation, '60'], 5, 1)).toBe('R4C1/60*1000');
    expect(formula('STOCK.ROTATION', rotation, 5, 1)).toMatch(
      /^R4C1\/INDEX\(Fish_density_aerated,.*"Nile tilapia".*\*1000$/,
    );
  });

  it('gives a card of its own its cells', () => {
    const steps = spillCard({
      ...words,
      parameters: [number('x', 'a figure', { min: 1 })],
      columns: [{ name: 'step', unit: '', kind: 'number' }],
      spill: () => [],
      plainCell: (a, row, column, at) => `${a.x}+${at(row, column)}`,
    });
    expect(plainSpillFormula(steps, ['2'], 3, 4, (r, c) => `R${r}C${c}`)).toBe('2+R3C4');
  });
});
