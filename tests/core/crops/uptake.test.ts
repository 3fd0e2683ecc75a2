import { describe, expect, it } from 'vitest';
import {
  ALKALINITY_PER_CALCIUM,
  ALKALINITY_PER_POTASSIUM,
  contentNameOf,
  potassiumPart,
} from '../../../src/core/nutrients';
import { growingAir } from '../../../src/core/season-limits';
import { cutWithin, pickingDays } from '../../../src/core/sowing';
import { crops, usual } from '../../../src/core/tables/crops';

describe('base by potassium and by calcium', () => {
  // IUPAC standard atomic weights 2021: Ca 40.078, C 12.011, O 15.999, K 39.098. An equivalent of CaCO3 is half a mole.
  const equivalent = (40.078 + 12.011 + 3 * 15.999) / 2;

  it('brings along what goes with an equivalent of each', () => {
    expect(ALKALINITY_PER_POTASSIUM).toBeCloseTo(equivalent / 39.098, 3);
    expect(ALKALINITY_PER_CALCIUM).toBeCloseTo(equivalent / (40.078 / 2), 3);
  });

  it('is halved where as many equivalents of both are lacking, and follows what is lacking', () => {
    expect(potassiumPart(39.098, 40.078 / 2)).toBeCloseTo(0.5, 4);
    expect(potassiumPart(3 * 39.098, 40.078 / 2)).toBeCloseTo(0.75, 4);
    expect(potassiumPart(5, 0)).toBe(1);
    expect(potassiumPart(0, 5)).toBe(0);
  });

  it('goes by turns of equal weight where neither is lacking', () => {
    // Potassium hydroxide 56.1 g and calcium hydroxide 74.1 g for one and two equivalents: 74.1/2 of the sum.
    expect(potassiumPart(0, 0)).toBeCloseTo(74.09 / 2 / (74.09 / 2 + 56.11), 2);
  });
});

describe('what a crop takes up like', () => {
  it('is its own table where it has one, else that of its group', () => {
    expect(contentNameOf({ name: 'basil', group: 'herb' })).toBe('basil');
    expect(contentNameOf({ name: 'courgette', group: 'fruiting' })).toBe('cucumber');
    expect(contentNameOf({ name: 'sweet pepper', group: 'fruiting' })).toBe('tomato');
    expect(contentNameOf({ name: 'pak choi', group: 'brassica' })).toBe('lettuce');
  });
});

describe('a crop in its bed', () => {
  it('is either cut once within its days, or picked over them', () => {
    for (const crop of crops) {
      const days = usual(crop, 'harvest_days');
      expect([pickingDays(crop), cutWithin(crop)], crop.name).toEqual(
        crop.cut === 'again' ? [days, 0] : [0, days],
      );
    }
    expect(new Set(crops.map(({ cut }) => cut))).toEqual(new Set(['once', 'again']));
  });

  it('is grown from some degrees above its base on, and up to its heat limit where one is known', () => {
    for (const crop of crops) {
      const [coldest, warmest] = growingAir(crop);
      expect(coldest, crop.name).toBe(usual(crop, 'base_temp') + 4);
      expect(warmest, crop.name).toBe(usual(crop, 'heat_limit') ?? Infinity);
      expect(coldest).toBeLessThan(warmest);
    }
    const lettuce = crops.find(({ group }) => group === 'leafy') as (typeof crops)[number];
    const facts = Object.fromEntries(
      Object.entries(lettuce.facts).filter(([fact]) => fact !== 'heat_limit'),
    ) as typeof lettuce.facts;
    expect(growingAir({ ...lettuce, facts })[1]).toBe(Infinity);
  });
});
