import { describe, expect, it } from 'vitest';
import { readWish, WishFileError } from '../../src/size/wish';
import { smallestWish } from '../tools/smallest-wish';
import { DAY } from './wish-faults';

const wrongOf = (json: unknown): readonly string[] => {
  try {
    readWish(json, DAY);
    return [];
  } catch (fault) {
    if (fault instanceof WishFileError) return fault.wrong;
    throw fault;
  }
};

describe('a wish', () => {
  it('is read with its eight answers', () => {
    const wish = readWish(smallestWish, DAY);
    expect(wish.fish).toEqual({ species: 'Nile tilapia', kgPerMonth: 100 });
    expect(wish.asOf).toBe(DAY);
    expect(wish.market).toHaveLength(2);
  });

  it('may be empty', () => {
    expect(wrongOf({})).toEqual([]);
  });

  it('takes American units, and text with a unit', () => {
    const wish = readWish(
      { units: 'US', coldest: 50, warmest: '86 degF', fish: { lbPerMonth: 220.462262 } },
      DAY,
    );
    expect(wish.coldest).toBeCloseTo(10, 9);
    expect(wish.warmest).toBeCloseTo(30, 9);
    expect(wish.fish.kgPerMonth).toBeCloseTo(100, 6);
  });

  it.each([
    [{ fish: { species: 'tilappia' } }, /fish\.species must be the name of a species/],
    [{ market: [{ crop: 'letuce', unit: 'piece', perWeek: 1 }] }, /such as "lettuce"/],
    [
      { market: [{ crop: 'lettuce', unit: 'head', perWeek: 1 }] },
      /must be one of "piece", "bunch"/,
    ],
    [{ market: [{ crop: 'lettuce', unit: 'piece', perWeek: 0 }] }, /must be a number above 0/],
    [{ coldest: 20, warmest: 10 }, /coldest must not be above warmest/],
    [{ latitude: 95 }, /latitude must be a number from -90 to 90/],
    [{ heated: 'yes' }, /heated must be true or false/],
    [{ fish: { kgPerMonth: 1, lbPerMonth: 2 } }, /keep one of the two/],
    [{ choices: { startWeight: 500, harvestWeight: 400 } }, /must be above choices\.startWeight/],
    [{ money: 3 }, /money is not a field of a wish/],
    [{ have: ['4 ponds of 7 m3'] }, /have\[0\] must be tanks, rafts, gravel beds/],
    [{ have: ['24 rafts of 7.2 m'] }, /must give length and width/],
    [{ have: ['4 tanks of 7.8 kg'] }, /have\[0\] must be a number above 0/],
    [{ have: ['2 rafts of 7 x 1 m with grass'] }, /must be the name of a crop/],
    [{ have: ['900 rafts of 7 x 1 m', '200 rafts of 5 x 1 m'] }, /at most 1000 beds/],
  ])('that is wrong gets a sentence: %j', (json, sentence) => {
    expect(wrongOf(json)).toHaveLength(1);
    expect(wrongOf(json)[0]).toMatch(sentence);
  });
});

describe('groups that are there', () => {
  it.each([
    ['4 tanks of 7.8 m3', { what: 'tanks', count: 4, volume: 7800 }],
    ['4 tanks of 7800', { what: 'tanks', count: 4, volume: 7800 }],
    ['1 tank of 7.8 m³', { what: 'tanks', count: 1, volume: 7800 }],
    ['24 rafts of 7.2 × 1.2 m', { what: 'beds', count: 24, kind: 'raft', length: 7.2, width: 1.2 }],
    [
      '3 gravel beds of 6 by 1 m with tomatoes',
      { what: 'beds', count: 3, kind: 'gravel', length: 6, width: 1, crop: 'tomato' },
    ],
    [
      '2 film channels of 600 cm x 20 cm',
      { what: 'beds', count: 2, kind: 'film', length: 6, width: 0.2 },
    ],
  ])('%s', (line, group) => {
    const [read] = readWish({ have: [line] }, DAY).have;
    expect(read).toMatchObject({
      ...group,
      ...('length' in group && {
        length: expect.closeTo(group.length, 9),
        width: expect.closeTo(group.width, 9),
      }),
    });
  });

  it('are in the units of the wish', () => {
    const [tanks, beds] = readWish(
      { units: 'US', have: ['2 tanks of 1100', '5 rafts of 24 x 4 ft'] },
      DAY,
    ).have;
    expect(tanks).toMatchObject({ volume: expect.closeTo(1100 * 3.785411784, 6) });
    expect(beds).toMatchObject({ length: expect.closeTo(24 * 0.3048, 9) });
  });
});
