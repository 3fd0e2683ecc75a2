import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../../src/core/errors';
import { cropTable } from '../../../src/functions/crop-table';
import type { Argument } from '../../../src/functions/parameter';
import { cellOf, errorOf, numberOf } from '../../tools/card-value';

describe('names', () => {
  it.each([
    ['aubergine', 'eggplants'],
    ['courgettes', 'zucchini'],
    ['rocket', 'Arugula'],
    ['coriander', 'CILANTRO'],
    ['pak choi', 'bok-choy'],
    ['Swiss chard', 'silver beet'],
    ['chilli', 'chili peppers'],
    ['sweet pepper', 'Bell peppers'],
    ['strawberry', 'strawberries'],
    ['cherry tomato', 'cherry tomatoes'],
    ['parsley', 'parsleys'],
    ['beans', 'French bean'],
    ['peas', 'pea'],
    ['head cabbage', 'cabbages'],
    ['papaya', 'paw paw'],
    ['chives', 'Chive'],
    ['spring onion', 'scallions'],
    ['spring onion', 'green onions'],
    ['spring onion', 'bunching onion'],
    ['dill', 'dill weed'],
    ['radish', 'radishes'],
    ['rocket', 'roquette'],
    ['Swiss chard', 'chards'],
    ['pak choi', 'pac choi'],
    ['sweet pepper', 'capsicums'],
    ['courgette', 'summer squash'],
    ['coriander', 'Chinese parsley'],
    ['aubergine', 'egg plant'],
    ['okra', 'ladies fingers'],
    ['lettuce', 'romaine'],
    ['beans', 'string beans'],
  ])('%s is %s', (name, other) => {
    const crop = cropTable.book.find(name);
    expect(crop).toBeDefined();
    expect(cropTable.book.find(other)).toBe(crop);
  });

  it('are listed by FACT.CROPS, each of them known', () => {
    const rows = cellOf('FACT.CROPS') as unknown as string[][];
    expect(rows.flat()).toEqual(cropTable.book.names);
    for (const [name] of rows) expect(cropTable.book.find(name ?? '')?.name).toBe(name);
  });
});

describe('what a crop does not have is an error that says so', () => {
  it.each([
    ['SOW.OFFSET', ['beans', 'transplant'], '#NUM! beans: sown in place'],
    ['SOW.DATE', ['2026-05-01', 'strawberries', 'emerge'], '#NUM! strawberry: started from plugs'],
    ['SOW.OFFSET', ['mint', 'germination'], '#NUM! mint: started from cuttings'],
    ['FACT.CROP', ['rocket', 'kc'], '#N/A fact: no figure is known for kc mid of rocket'],
    ['FACT.CROP', ['lettuce', 'price'], '#N/A fact: no fact is called "price"'],
    [
      'SOW.OFFSET',
      ['letuce', 'clear'],
      '#N/A crop: no crop is called "letuce"; the nearest name is "lettuce"',
    ],
    [
      'FEED.AREA',
      [100, 'leefy'],
      '#N/A crops: no crop or group is called "leefy"; the nearest name is "leafy"',
    ],
    ['SOW.OFFSET', ['lettuce', 'bolt'], '#VALUE! stage must be one of "emerge"'],
    ['SOW.OFFSET', [6.5, 'cut'], '#VALUE! crop must be the name of a crop, or a whole number'],
    ['BED.AREA', [200, 4], '#VALUE! density is needed where weeks are given'],
    ['SEED.COUNT', [100, 80], '#VALUE! germination must be between'],
    ['SEED.COUNT', [100, '80 degF'], '#VALUE! germination takes a share'],
    ['SEED.TRAYS', [100, 72.5], '#VALUE! cells must be a whole number'],
    ['DEGREE.DAYS', [10, 20, 4], '#NUM! low (20 °C) must not be above high'],
    ['DEGREE.DAYS', [30, 20, 12, 10], '#NUM! ceiling (10 °C) must be above base'],
    ['DEGREE.DAYS', [30, 20, 12, 12], '#NUM! ceiling (12 °C) must be above base'],
    ['BED.DENSITY', ['20 degC'], '#VALUE! spacing_in_row takes a length'],
    ['SOW.SERIES', ['2026-02-30', 7, 3, 'kale'], '#VALUE! first must be a date'],
    ['SOW.SERIES', ['2026-02-20', 7, 3.5, 'kale'], '#VALUE! batches must be a whole number'],
  ] as [string, Argument[], string][])('%s(%j): %s', (id, args, sentence) => {
    expect(errorOf(id, ...args).slice(0, sentence.length)).toBe(sentence);
  });
});

describe('a number in place of a crop is the quantity itself', () => {
  it('days from sowing, weeks in the bed, feed on a m2', () => {
    expect(numberOf('SOW.OFFSET', 45, 'clear')).toBe(45);
    expect(numberOf('SOW.OFFSET', '7 weeks', 'cut')).toBe(49);
    expect(numberOf('BED.PLANTS', 100, '21 days')).toBeCloseTo(300, 9);
    expect(numberOf('FEED.WANTED', 10, 55)).toBe(550);
  });
  it('in a series the days to the first cut; the other stages stay empty', () => {
    expect(cellOf('SOW.SERIES', 46127, 7, 1, 51)).toEqual([[1, 46127, '', 46178, '', '2026-W16']]);
  });
});

describe('seeds and trays', () => {
  it('round up without floating noise: whole results stay whole', () => {
    for (let plants = 1; plants <= 400; plants++) {
      for (const [share, times] of [
        [0.1, 10],
        [0.2, 5],
        [0.05, 20],
        [0.8, 1.25],
      ] as const) {
        if (Number.isInteger(plants * times)) {
          expect(numberOf('SEED.COUNT', plants, share)).toBe(plants * times);
        }
      }
    }
    expect(numberOf('SEED.COUNT', 63, 0.7, 0.1)).toBe(100);
  });
  it('give enough and not one too many', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 100000 }),
        fc.integer({ min: 5, max: 100 }),
        fc.integer({ min: 0, max: 90 }),
        (plants, percent, lost) => {
          const share = (percent / 100) * (1 - lost / 100);
          const seeds = numberOf('SEED.COUNT', plants, percent / 100, lost / 100);
          expect(seeds * share).toBeGreaterThan(plants - 1e-6);
          expect((seeds - 1) * share).toBeLessThan(plants);
          const trays = numberOf('SEED.TRAYS', seeds, 72);
          expect(trays * 72).toBeGreaterThanOrEqual(seeds);
          expect((trays - 1) * 72).toBeLessThan(seeds);
        },
      ),
    );
  });
});

describe('monotone where nature is', () => {
  const share = fc.double({ min: 0.01, max: 1, noNaN: true });
  const degC = fc.double({ min: -20, max: 45, noNaN: true });
  it('better seed never needs more seeds, more losses never fewer', () => {
    fc.assert(
      fc.property(share, share, fc.integer({ min: 1, max: 5000 }), (a, b, plants) => {
        const [poor, good] = a < b ? [a, b] : [b, a];
        expect(numberOf('SEED.COUNT', plants, good)).toBeLessThanOrEqual(
          numberOf('SEED.COUNT', plants, poor),
        );
        expect(numberOf('SEED.COUNT', plants, 0.5, Math.max(a, b) * 0.9)).toBeGreaterThanOrEqual(
          numberOf('SEED.COUNT', plants, 0.5, Math.min(a, b) * 0.9),
        );
      }),
    );
  });
  it('a warmer day never counts less, with and without a ceiling, and never below nothing', () => {
    fc.assert(
      fc.property(degC, degC, fc.double({ min: 0, max: 5, noNaN: true }), (a, b, more) => {
        const [low, high] = a < b ? [a, b] : [b, a];
        for (const ceiling of [null, 28]) {
          const cool = numberOf('DEGREE.DAYS', high, low, 4, ceiling);
          const warm = numberOf('DEGREE.DAYS', high + more, low, 4, ceiling);
          expect(warm).toBeGreaterThanOrEqual(cool);
          expect(cool).toBeGreaterThanOrEqual(0);
          if (ceiling) expect(warm).toBeLessThanOrEqual(ceiling - 4);
        }
      }),
    );
  });
  it('inside base and ceiling both methods agree', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 4.1, max: 27.9, noNaN: true }),
        fc.double({ min: 4.1, max: 27.9, noNaN: true }),
        (a, b) => {
          const [low, high] = a < b ? [a, b] : [b, a];
          expect(numberOf('DEGREE.DAYS', high, low, 4, 28)).toBeCloseTo(
            numberOf('DEGREE.DAYS', high, low, 4),
            9,
          );
        },
      ),
    );
  });
  it('every crop: more plants a week take more bed, denser planting less; FEED.AREA and FEED.WANTED invert', () => {
    for (const crop of cropTable.book.names) {
      const area = numberOf('BED.AREA', 50, crop);
      expect(numberOf('BED.AREA', 60, crop)).toBeGreaterThan(area);
      const usualDensity = numberOf('BED.PLANTS', 50, crop) / area;
      expect(usualDensity).toBeCloseTo(numberOf('FACT.CROP', crop, 'density'), 9);
      expect(numberOf('BED.AREA', 50, crop, 1.1 * usualDensity)).toBeLessThan(area);
      expect(numberOf('FEED.AREA', numberOf('FEED.WANTED', 17, crop), crop)).toBeCloseTo(17, 9);
    }
  });
  it('a triangle with its own row distance is the square of that distance', () => {
    expect(numberOf('BED.DENSITY', 25, 20, 'staggered')).toBe(numberOf('BED.DENSITY', 25, 20));
    const ratio = numberOf('BED.DENSITY', 25, null, 'triangular') / numberOf('BED.DENSITY', 25);
    expect(ratio).toBeCloseTo(2 / Math.sqrt(3), 12);
  });
});

describe('weeks in the bed', () => {
  const inPlace = ['beans', 'radish', 'microgreens'];
  const leaves = (crop: string): number => numberOf('SOW.OFFSET', crop, 'clear');
  it('run from transplanting to clearing', () => {
    for (const crop of cropTable.book.names.filter((name) => !inPlace.includes(name))) {
      const days = leaves(crop) - numberOf('SOW.OFFSET', crop, 'transplant');
      expect(numberOf('BED.PLANTS', 7, crop)).toBeCloseTo(days, 9);
    }
  });
  it.each(inPlace)('run from sowing for what is sown in place: %s', (crop) => {
    expect(numberOf('BED.PLANTS', 7, crop)).toBeCloseTo(leaves(crop), 9);
  });
});

describe('ranges', () => {
  it('give row by row what single calls give, and only bad rows carry an error', () => {
    const crops = ['lettuce', 'beans', 'unicorn', 55, ''];
    const dates = [46127, 46127, 46127, 46127, ''];
    const rows = cellOf(
      'SOW.DATE',
      dates.map((date) => [date]),
      crops.map((crop) => [crop]),
      'transplant',
    ) as unknown as unknown[][];
    expect(rows.map(([cell]) => (cell instanceof GillError ? cell.code : cell))).toEqual([
      46106,
      '#NUM!',
      '#N/A',
      46072,
      '',
    ]);
  });
  it('answer 10,000 rows of crops', () => {
    const names = Array.from({ length: 10000 }, (_, i) => [
      cropTable.book.names[i % cropTable.book.names.length] ?? '',
    ]);
    const rows = cellOf('FEED.AREA', 1000, names) as unknown as number[][];
    expect(rows.length).toBe(10000);
    expect(rows[9999]?.[0]).toBe(numberOf('FEED.AREA', 1000, names[9999]?.[0]));
  });
});
