import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import {
  choice,
  date,
  type NameBook,
  type Parameter,
  nameOrNumber,
  number,
  dateSeries,
  series,
  tableName,
} from '../../src/functions/parameter';
import { speciesTable } from '../../src/functions/species-table';

const blankable = number('blankable', 'where 0 is a value', { unit: 'mg/L', min: 0, max: 10 });
const positive = number('positive', 'where 0 is impossible', { unit: 'g', above: 0, below: 10 });
const warm = number('warm', 'where 0 differs from the default', {
  unit: 'degC',
  min: -2,
  max: 50,
  default: 20,
});
const whole = number('whole', 'a count', { min: 1, max: 9, whole: true });

describe('number', () => {
  it.each([
    [blankable, 0, 0],
    [blankable, 10, 10],
    [positive, 9.99, 9.99],
    [whole, 9, 9],
    [warm, -2, -2],
  ] as const)('$name takes its bounds', (parameter, cell, value) => {
    expect(parameter.read(cell)).toBe(value);
  });

  it.each([
    [blankable, 10.001, 'blankable must be between 0 and 10 mg/L; got 10.001'],
    [positive, 0, 'positive must be more than 0 g and less than 10 g; got 0'],
    [positive, 10, 'positive must be more than 0 g and less than 10 g; got 10'],
    [whole, 2.5, 'whole must be a whole number, between 1 and 9; got 2.5'],
    [blankable, NaN, 'blankable must be'],
    [blankable, Infinity, 'blankable must be'],
    [blankable, true, 'blankable takes a concentration; got TRUE'],
    [blankable, 'much', 'blankable takes a concentration, such as "2 ppm"; got "much"'],
    [warm, 0, 'warm is 0 or a blank cell'],
  ] as const)('says what is wrong and what would be right', (parameter, cell, sentence) => {
    expect(() => parameter.read(cell)).toThrow(sentence);
  });

  it('recognizes where a 0 is a blank', () => {
    expect([blankable, positive, warm, whole].map((one) => one.zeroIsMissing)).toEqual([
      false,
      true,
      false,
      true,
    ]);
  });

  it("propagates another cell's error unchanged", () => {
    const error = new GillError('#REF!', 'a cell that it reads is gone');
    expect(() => blankable.read(error)).toThrow(error);
  });
});

describe('names', () => {
  const species = tableName('species', 'fish', speciesTable.book, { default: 'Nile tilapia' });
  const density = nameOrNumber('density', 'fish in water', speciesTable.book, {
    unit: 'kg/m3',
    above: 0,
    max: 500,
    of: () => 60,
  });
  const stage = choice('stage', 'of the crop', { 'first cut': ['cut', 'harvest'], clear: [] });

  it.each(['Nile tilapia', 'nile  TILAPIA', 'Nile-tilapias', ' niletilapia '])('"%s"', (name) => {
    expect(species.read(name)?.name).toBe('Nile tilapia');
  });

  it('suggests the nearest for an unknown one', () => {
    expect(() => species.read('nile talapia')).toThrow('the nearest name is "Nile tilapia"');
    expect(() => species.read(7)).toThrow('species takes the name of a species; got 7');
  });

  it('takes a name for a number, and the number itself, with or without a unit', () => {
    expect(density.read('Nile tilapia')).toBe(60);
    expect(density.read(25)).toBe(25);
    expect(density.read('25 kg/m3')).toBe(25);
    expect(() => density.read(501)).toThrow('density must be the name of a species, or a number');
  });

  it('takes one of a few words in any spelling', () => {
    expect(stage.read('First-Cut')).toBe('first cut');
    expect(stage.read('HARVEST')).toBe('first cut');
    expect(() => stage.read('end')).toThrow('stage must be one of "first cut", "clear"; got "end"');
    expect(() => stage.read(1)).toThrow('got 1');
  });
});

describe('date', () => {
  const sown = date('sown', 'day of sowing');
  it('takes serials, their day without the time, and text that cannot be misread', () => {
    expect(sown.read(46082)).toBe(46082);
    expect(sown.read(46082.75)).toBe(46082);
    for (const text of ['2026-03-01', '1 March 2026', '1 Mar 2026', ' March 1, 2026 ']) {
      expect(sown.read(text)).toBe(46082);
    }
  });
  it.each([
    ['01/03/2026', '; write 2026-03-01 or 2026-01-03'],
    ['1.3.2026', '; write 2026-03-01 or 2026-01-03'],
    ['25/12/2026', '; write 2026-12-25'],
    ['31/02/2026', 'got "31/02/2026"'],
    ['1 Ma 2026', 'got "1 Ma 2026"'],
    ['1 March 26', 'got "1 March 26"'],
    ['31 February 2026', 'got "31 February 2026"'],
  ])('says of %s what would be right', (text, sentence) => {
    expect(() => sown.read(text)).toThrow(sentence);
  });
  it.each([60, -1, 2958466, '2026-02-30', '1.3.2026', true])('refuses %s', (cell) => {
    expect(() => sown.read(cell)).toThrow('sown must be a date from 1900-03-01 on');
  });
});

describe('series', () => {
  const weekly = series('weekly', 'temperatures', { unit: 'degC', min: -2, max: 50 });
  it('takes a row, a column or one value', () => {
    expect(weekly.read(20)).toEqual([20]);
    expect(weekly.readSeries?.([[20, 21]])).toEqual([20, 21]);
    expect(weekly.readSeries?.([[20], [21]])).toEqual([20, 21]);
  });
  it('takes values in one text, and days', () => {
    expect(weekly.read('20; 21.5;70 degF')).toEqual([20, 21.5, expect.closeTo(21.111, 3)]);
    expect(() => weekly.read('20;;21')).toThrow('value 2 of 3 is blank');
    expect(() => weekly.read('20; 99')).toThrow('weekly must be');
    const days = dateSeries('days', 'days of weighings');
    expect(days.read('2026-03-01; 2 March 2026')).toEqual([46082, 46083]);
    expect(days.readSeries?.([[46082], ['2026-03-02']])).toEqual([46082, 46083]);
    expect(() => days.read('2026-03-01; soon')).toThrow('days must be a date');
  });
  it('refuses blocks, and names the place of a blank', () => {
    expect(() =>
      weekly.readSeries?.([
        [1, 2],
        [3, 4],
      ]),
    ).toThrow('weekly must be one row or one column');
    expect(() => weekly.readSeries?.([[20], [null]])).toThrow('value 2 of 2 is blank');
  });
});

describe('each kind of parameter', () => {
  const book: NameBook<{ size: number }> = {
    what: 'pot',
    listedBy: 'the shelf',
    names: ['small pot'],
    find: (name) => (name === 'small pot' ? { size: 9 } : undefined),
  };
  // Made here, so that the making is tested too.
  const each = () => [
    tableName('it', 'a pot', book, {}),
    nameOrNumber('it', 'a pot or its size', book, { of: (row) => row.size, above: 0, max: 50 }),
    choice('it', 'a word', { yes: ['y'] }),
    date('it', 'a day'),
    series('it', 'sizes', { min: 1 }),
    number('it', 'a size', { min: 1 }),
  ];

  it('propagates an error of another cell unchanged', () => {
    const error = new GillError('#REF!', 'gone');
    for (const one of each()) expect(() => one.read(error), one.kind).toThrow(error);
  });

  it('says of itself what it is', () => {
    expect(
      each().map(({ kind, unit, optional, zeroIsMissing }) => [
        kind,
        unit,
        optional,
        zeroIsMissing,
      ]),
    ).toEqual([
      ['name', '', false, true],
      ['name', '', false, true],
      ['choice', '', false, true],
      ['date', '', false, true],
      ['series', '', false, false],
      ['number', '', false, true],
    ]);
    expect(each().map(({ low }) => low)).toEqual([NaN, 0, NaN, NaN, NaN, 1]);
    expect(each().map(({ high }) => high)).toEqual([NaN, 50, NaN, NaN, NaN, Infinity]);
    expect(each().map(({ names }) => names?.())).toEqual([
      ['small pot'],
      ['small pot'],
      ['yes'],
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('knows the nearest name, with no other names to look at, or that none is near', () => {
    const [pot] = each();
    expect(() => pot?.read('smal pot')).toThrow(
      'it: no pot is called "smal pot"; the nearest name is "small pot", the shelf lists all',
    );
    expect(() => pot?.read('a'.repeat(99))).toThrow(
      `it: no pot is called "${'a'.repeat(60)}"; the shelf lists all`,
    );
    expect(pot?.spellings?.()).toEqual(['small pot']);
  });

  it('takes a name or a number, and what begins with a figure for a number', () => {
    const pot = nameOrNumber('it', 'a pot', book, { of: (row) => row.size, above: 0, max: 50 });
    expect(pot.read('small pot')).toBe(9);
    expect(pot.read(7)).toBe(7);
    for (const text of ['7', ' +7', '.7e1']) expect(pot.read(text)).toBe(7);
    expect(() => pot.read('-7')).toThrow('it must be the name of a pot, or a number more than 0');
    for (const name of ['pot 7', 'x']) expect(() => pot.read(name)).toThrow('no pot is called');
    expect(() => pot.read(true)).toThrow('got TRUE');
    expect(pot.plainGuard?.('A1')).toBe('OR(ISTEXT(A1),AND(ISNUMBER(A1),A1>0,A1<=50))');
    expect(pot.takes).toBe('the name of a pot, or a number more than 0 and at most 50');
  });

  it('of whole numbers leaves the quick way to nobody', () => {
    const pot = nameOrNumber('it', 'a pot', book, { of: () => 1, min: 1, max: 9, whole: true });
    expect([pot.low, pot.high]).toEqual([NaN, NaN]);
    expect(pot.takes).toBe('the name of a pot, or a whole number, between 1 and 9');
    expect(() => pot.read(2.5)).toThrow('got 2.5');
    const free = nameOrNumber('it', 'a pot', book, { of: () => 1 });
    expect([free.low, free.high]).toEqual([-Infinity, Infinity]);
  });

  it('has a default in words', () => {
    const by = (options: object) => {
      const { optional, fallback, defaultText } = nameOrNumber('it', 'a pot', book, {
        of: (row) => row.size,
        ...options,
      });
      return [optional, fallback, defaultText];
    };
    expect(by({})).toEqual([false, undefined, undefined]);
    expect(by({ default: 5 })).toEqual([true, 5, '5']);
    expect(by({ default: 'small pot' })).toEqual([true, 'small pot', 'small pot']);
    expect(by({ default: 5, defaultText: 'five' })).toEqual([true, 5, 'five']);
    expect(by({ optional: true, defaultText: 'what the bed has' })).toEqual([
      true,
      undefined,
      'what the bed has',
    ]);
  });

  it('guards a date in a plain form between the first and the last day that a sheet has', () => {
    expect(date('it', 'a day').plainGuard?.('A1')).toBe('AND(ISNUMBER(A1),A1>=61,A1<2958466)');
  });

  it('names the place of any kind of blank in a series', () => {
    const weekly = series('it', 'sizes', { min: 1 });
    for (const blank of [null, undefined, '']) {
      expect(() => weekly.readSeries?.([[1, 2, blank]])).toThrow(
        'it: value 3 of 3 is blank; each place needs one',
      );
    }
    expect(() =>
      weekly.readSeries?.([
        [1, 2, 3],
        [4, 5, 6],
      ]),
    ).toThrow('it must be one row or one column; got 2 rows of 3');
    expect(weekly.plainGuard).toBeUndefined();
  });

  it('may be left out where it has a default or says so', () => {
    const of = ({ optional, fallback, defaultText, takes }: Parameter) => [
      optional,
      fallback,
      defaultText,
      takes,
    ];
    const pot = 'the name of a pot';
    expect(of(tableName('it', 'a pot', book, {}))).toEqual([false, undefined, undefined, pot]);
    expect('fallback' in tableName('it', 'a pot', book, {})).toBe(false);
    expect('defaultText' in tableName('it', 'a pot', book, {})).toBe(false);
    expect(of(tableName('it', 'a pot', book, { optional: true }))).toEqual([
      true,
      undefined,
      undefined,
      pot,
    ]);
    expect(of(tableName('it', 'a pot', book, { default: 'small pot' }))).toEqual([
      true,
      'small pot',
      'small pot',
      pot,
    ]);
    expect(
      of(tableName('it', 'a pot', book, { default: 'small pot', defaultText: 'small' })),
    ).toEqual([true, 'small pot', 'small', pot]);
    const words = 'one of "yes", "no"';
    expect(of(choice('it', 'a word', { yes: [], no: [] }))).toEqual([
      false,
      undefined,
      undefined,
      words,
    ]);
    expect('fallback' in choice('it', 'a word', { yes: [] })).toBe(false);
    expect(of(choice('it', 'a word', { yes: [], no: [] }, { default: 'no' }))).toEqual([
      true,
      'no',
      'no',
      words,
    ]);
    expect(
      of(choice('it', 'a word', { yes: [], no: [] }, { default: 'no', defaultText: 'not' })),
    ).toEqual([true, 'no', 'not', words]);
    expect(series('it', 'sizes', { min: 1 }).takes).toBe(
      'one value, a row or column of values, or a text such as "1; 2; 3", each at least 1',
    );
    expect(nameOrNumber('it', 'a pot', book, { of: () => 1 }).spellings?.()).toEqual(['small pot']);
  });
});
