import { describe, expect, it } from 'vitest';
import { GillError } from '../../src/core/errors';
import {
  choice,
  date,
  nameOrNumber,
  number,
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

  it('knows where a 0 is a blank', () => {
    expect([blankable, positive, warm, whole].map((one) => one.zeroIsMissing)).toEqual([
      false,
      true,
      false,
      true,
    ]);
  });

  it("hands on another cell's error as it is", () => {
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

  it('names the nearest where one is not known', () => {
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
  it('takes serials, their day without the time, and text as yyyy-mm-dd', () => {
    expect(sown.read(46082)).toBe(46082);
    expect(sown.read(46082.75)).toBe(46082);
    expect(sown.read('2026-03-01')).toBe(46082);
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
