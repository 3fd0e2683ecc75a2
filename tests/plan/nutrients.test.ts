import { describe, expect, it } from 'vitest';
import { contentNameOf, potassiumPart } from '../../src/core/nutrients';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { cropTable } from '../../src/functions/crop-table';
import { askNumber } from '../functions/fish/ask';
import { numberOf } from '../tools/card-value';
import { figuresOf } from './plan-figures';

const month = { water: 28, high: 31, low: 24, humidity: 0.75 };
const NUTRIENTS = ['N', 'P', 'K', 'Ca', 'Mg', 'Fe'] as const;

function nutrientsOf(
  beds: readonly { readonly crop?: string; readonly length: number }[],
  figures: Record<string, number | string> = {},
  formulas: 'live' | 'plain' = 'live',
) {
  const farm = readFarm({
    name: 'Nutrients',
    units: 'metric',
    asOf: '2026-06-01',
    site: { place: 'Valley', latitude: 44, altitude: 50 },
    months: Array.from({ length: 12 }, () => month),
    water: { total: 30000, sump: 3000 },
    filter: { media: 0, specificSurface: 500 },
    feed: { protein: 0.32, price: 1 },
    figures,
    stock: {
      species: 'Nile tilapia',
      wanted: 50,
      startWeight: 50,
      harvestWeight: 600,
      survival: 0.95,
    },
    tanks: [{ name: 'T1', volume: 7800, species: 'Nile tilapia', fish: 640, weight: 235 }],
    beds: beds.map(({ crop, length }, i) => ({
      name: `B${i + 1}`,
      kind: 'raft',
      length,
      width: 2,
      ...(crop !== undefined && { crop, sown: '2026-04-20', planted: '2026-05-11' }),
    })),
  });
  const plan = planWorkbook(farm, { formulas });
  const kept = [
    ...['Site', 'Fish log', 'Plantings', 'Tanks', 'Beds', 'Stock plan', 'Balance'],
    ...['Crops', 'Species'],
  ];
  return figuresOf({
    ...plan,
    sheets: plan.sheets.filter(({ name }) => kept.includes(name)),
    names: plan.names.filter(({ sheet }) => kept.includes(sheet)),
  });
}

describe('nutrients a week', () => {
  const lettuce = nutrientsOf([{ crop: 'lettuce', length: 20 }]);
  const feed = lettuce.number('Balance_feed');

  it('feed brings what NUTRIENT.FEED says, crops take up what their harvest carries off and what stays in roots', () => {
    const brings = lettuce.numbers('Nutrient_feed');
    const takes = lettuce.numbers('Nutrient_crops');
    // One crop of 3.6 kg/m2 keeps its place for the weeks of BED.PLANTS: 40 m2.
    const weeks = numberOf('FACT.CROP', 'lettuce', 'bed days') / 7;
    const harvest = (40 * numberOf('FACT.CROP', 'lettuce', 'kg per m2')) / weeks;
    expect(lettuce.number('Nutrient_harvest') / harvest).toBeCloseTo(1, 1);
    NUTRIENTS.forEach((id, i) => {
      expect(brings[i]).toBeCloseTo(7 * askNumber('NUTRIENT.FEED', feed, id, 0.32), 6);
      expect(takes[i]).toBeCloseTo(
        1.15 * askNumber('NUTRIENT.CROP', lettuce.number('Nutrient_harvest'), 'lettuce', id),
        6,
      );
    });
  });

  it('the two bases together are the alkalinity that published farms dosed: 16 to 36 g CaCO3 for each kg of feed', () => {
    const alkalinity = lettuce.number('Nutrient_alkalinity');
    expect(alkalinity).toBeCloseTo((7 * feed * 26) / 1000, 6);
    // Equivalents by IUPAC molar masses: KHCO3 100.115, Ca(OH)2 37.046, CaCO3 50.04 g.
    const bases =
      lettuce.number('Nutrient_potassium') / 2.0005 + lettuce.number('Nutrient_calcium') / 0.7403;
    expect(bases / alkalinity).toBeCloseTo(1, 3);
    const own = nutrientsOf([{ crop: 'lettuce', length: 20 }], {
      Load_base_own: 60,
      Nutrient_potassium_base: 'potassium hydroxide',
      Nutrient_calcium_base: 'calcium carbonate',
    });
    expect(own.number('Nutrient_alkalinity')).toBeCloseTo((7 * feed * 60) / 1000, 6);
    // KOH 56.106 g.
    expect(own.number('Nutrient_potassium') / 1.1212 + own.number('Nutrient_calcium')).toBeCloseTo(
      own.number('Nutrient_alkalinity'),
      0,
    );
  });

  it('potassium and calcium come along as the crops lack them, and what is still short is made up for by a salt', () => {
    const large = nutrientsOf([{ crop: 'lettuce', length: 120 }]);
    const of = (name: string): Record<string, number> =>
      Object.fromEntries(NUTRIENTS.map((id, i) => [id, large.numbers(name)[i] as number]));
    const [brings, takes, base, short, salt] = [
      'Nutrient_feed',
      'Nutrient_crops',
      'Nutrient_base',
      'Nutrient_short',
      'Nutrient_salt',
    ].map(of) as Record<string, number>[] as [
      Record<string, number>,
      Record<string, number>,
      Record<string, number>,
      Record<string, number>,
      Record<string, number>,
    ];
    for (const id of NUTRIENTS) {
      expect(short[id]).toBeCloseTo(
        Math.max(0, (takes[id] as number) - (brings[id] as number) - (base[id] as number)),
        6,
      );
      if ((short[id] as number) > 0)
        expect(salt[id]).toBeCloseTo(
          askNumber('DOSE.NUTRIENT', 1000, 0, short[id] as number, id),
          6,
        );
    }
    // Both are short; the part of each that its base covers is the same.
    const covered = (id: 'K' | 'Ca'): number =>
      (base[id] as number) / ((takes[id] as number) - (brings[id] as number));
    expect(short.K).toBeGreaterThan(0);
    expect(covered('K')).toBeCloseTo(covered('Ca'), 6);
    expect(String(large.all('Nutrient_verdict')[0])).toMatch(
      /^Beside feed and base, a week: .*g potassium sulphate; /,
    );
    expect(potassiumPart(0, 0)).toBe(0.4);
    expect(potassiumPart(100, 0)).toBe(1);
    expect(potassiumPart(0, 100)).toBe(0);
    expect(large.number('Nutrient_potassium_part')).toBeCloseTo(
      potassiumPart(
        (takes.K as number) - (brings.K as number),
        (takes.Ca as number) - (brings.Ca as number),
      ),
      9,
    );
  });

  it('is the same in a plain plan', () => {
    const plain = nutrientsOf([{ crop: 'lettuce', length: 20 }], {}, 'plain');
    for (const name of ['Nutrient_feed', 'Nutrient_crops', 'Nutrient_salt'])
      plain
        .numbers(name)
        .forEach((value, i) => expect(value).toBeCloseTo(lettuce.numbers(name)[i] as number, 6));
  });

  it('every crop takes up as its own kind: basil as basil, cucumbers as cucumbers, the rest by group', () => {
    const crops = cropTable.rows.map(({ name }) => name);
    const kinds = nutrientsOf(crops.map((crop) => ({ crop, length: 1 }))).all('Beds_content');
    expect(kinds.slice(0, crops.length)).toEqual(cropTable.rows.map(contentNameOf));
    expect(new Set(kinds.slice(0, crops.length))).toEqual(
      new Set(['lettuce', 'basil', 'herb', 'tomato', 'cucumber']),
    );
  });

  it('without plants nothing is short', () => {
    const bare = nutrientsOf([{ length: 20 }]);
    expect(bare.numbers('Nutrient_salt')).toEqual([0, 0, 0, 0, 0, 0]);
    expect(bare.all('Nutrient_verdict')[0]).toMatch(/^No bed has plants in it/);
  });
});
