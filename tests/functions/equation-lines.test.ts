import { expect, it } from 'vitest';
import { choiceBy, equationLines, factName, resultOf } from '../../src/functions/formula';

const formula = { NH3: 'tan / (1 + 10^(pKa - ph))', pKa: '0.0901821 + 2729.92 / kelvin' };

it('a formula is read line by line, the result first', () => {
  expect(equationLines(formula)).toEqual([
    'NH3 = tan / (1 + 10^(pKa - ph))',
    'pKa = 0.0901821 + 2729.92 / kelvin',
  ]);
  expect(equationLines('a = b + c; b = 2')).toEqual(['a = b + c', 'b = 2']);
  expect(resultOf(formula)).toEqual(['NH3', formula.NH3]);
  expect(() => resultOf({})).toThrow('without a result');
});

it('a fact of a row is told from a name, and a choice names each of its words', () => {
  expect(factName('crop.bed_days')).toEqual(['crop', 'bed_days']);
  expect(factName('kelvin')).toBeUndefined();
  expect(choiceBy('salt', { 'sodium chloride': 1.65, none: '0' })).toBe(
    'SWITCH(salt, "sodium chloride", 1.65, "none", 0)',
  );
});
