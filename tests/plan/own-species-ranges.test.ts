import { describe, expect, it } from 'vitest';
import { fishFactOrders, fishFactRanges } from '../../src/core/fish-fact-ranges';
import { type FishFact, species } from '../../src/core/tables/species';
import { demoFarm } from '../../src/plan/demo-farm';
import { FarmFileError, readFarm } from '../../src/plan/farm';
import { speciesSheet } from '../../src/plan/sheets/table-sheets';
import { numberOf } from '../tools/card-value';

/** What is wrong with figures of tilapia in a farm file; nothing where nothing is. */
function faultsOf(facts: Readonly<Record<string, unknown>>): string[] {
  try {
    readFarm({ ...demoFarm, species: { 'Nile tilapia': facts } });
    return [];
  } catch (thrown) {
    if (!(thrown instanceof FarmFileError)) throw thrown;
    return thrown.wrong.map(String);
  }
}

describe('figures of one’s own for a species', () => {
  it.each([
    ['fcr', 'FEED.RATE', ['Nile tilapia', 200, 28, null]],
    ['tgc', 'FEED.RATE', ['Nile tilapia', 200, 28]],
  ] as const)('%s is taken as far as %s takes it, and no further', (fact, id, before) => {
    const [least, most] = fishFactRanges[fact];
    const taken = (value: number): boolean =>
      Number.isFinite(Number(numberOf(id, ...before, value)));
    for (const value of [least, most]) {
      expect(faultsOf({ [fact]: value })).toEqual([]);
      expect(taken(value)).toBe(true);
    }
    for (const value of [least * 0.99, most * 1.01]) {
      expect(faultsOf({ [fact]: value })).toHaveLength(1);
      expect(() => numberOf(id, ...before, value)).toThrow();
    }
  });

  it('out of their range are refused in a sentence', () => {
    expect(faultsOf({ fcr: 0.01, tgc: 1000 })).toEqual([
      'species.Nile tilapia.fcr must be a number from 0.5 to 10 g/g, or null for none; got 0.01',
      'species.Nile tilapia.tgc must be a number from 0.1 to 5, or null for none; got 1000',
    ]);
    expect(faultsOf({ feed_rates: [5, 4, 3, 2, 1, 1, 1, 1] })).toEqual([
      'species.Nile tilapia.feed_rates must be 8 numbers from 0.0001 to 1 (1 is 100 %); got [5,4,3,2,1,1,1,1]',
    ]);
  });

  it('go together with the others of the species', () => {
    expect(faultsOf({ best_low: 32 })).toEqual([
      'species.Nile tilapia.best_low must be at most "Best water to", which is 31; got 32',
    ]);
    expect(faultsOf({ feed_high: 31 })).toEqual([
      'species.Nile tilapia.feed_high must be above "Best water to", which is 31; got 31',
    ]);
    expect(faultsOf({ best_low: 32, best_high: 33 })).toEqual([]);
  });

  it('of the table are in range and order themselves', () => {
    for (const { name, facts } of species) {
      for (const [fact, [least, most]] of Object.entries(fishFactRanges)) {
        const [value] = facts[fact as FishFact];
        expect(value >= least && value <= most, `${name}, ${fact}`).toBe(true);
      }
      for (const [low, high, equal] of fishFactOrders) {
        const room = facts[high][0] - facts[low][0];
        expect(equal ? room >= 0 : room > 0, `${name}, ${low}`).toBe(true);
      }
    }
  });

  it('have the same ranges on the Species sheet', () => {
    const { sheet, names } = speciesSheet();
    const at = names.find(({ name }) => name === 'Fish_fcr')?.area;
    expect(sheet.validations.find(({ area }) => area.column === at?.column)).toEqual({
      area: at,
      rule: { kind: 'number', min: 0.5, max: 10 },
      message: 'Type a number from 0.5 to 10 g/g.',
    });
  });
});
