import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dayOfStage, stages } from '../../../src/core/sowing';
import {
  type Crop,
  type CropFact,
  cropFacts,
  crops,
  range,
  sourceOf,
  usual,
} from '../../../src/core/tables/crops';
import { sourceWords } from '../../../src/core/tables/evidence';

const facts = Object.keys(cropFacts) as CropFact[];
const figures = crops.flatMap((crop) =>
  facts.filter((fact) => sourceOf(crop, fact)).map((fact) => ({ crop, fact })),
);
const known = (name: string): Crop => {
  const crop = crops.find((crop) => crop.name === name);
  if (!crop) throw new Error(`no crop ${name}`);
  return crop;
};
const dataOf = <T>(file: string): T =>
  JSON.parse(readFileSync(new URL(`../../checks/${file}`, import.meta.url), 'utf8')) as T;

describe('crop table', () => {
  it('has 46 crops and no duplicate name', () => {
    expect(crops.length).toBe(46);
    const names = crops.flatMap((crop) => [crop.name, ...crop.aliases, crop.botanical]);
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
  });

  it('has each usual figure inside its range, and no reversed range', () => {
    for (const { crop, fact } of figures) {
      const [low, high] = range(crop, fact) ?? [usual(crop, fact), usual(crop, fact)];
      const middle = usual(crop, fact);
      const where = `${crop.name} ${fact}`;
      expect(Number.isFinite(middle), where).toBe(true);
      expect(Number(low), where).toBeLessThanOrEqual(Number(middle));
      expect(Number(middle), where).toBeLessThanOrEqual(Number(high));
    }
  });

  it('has a source for every figure, and shows a recalled one as usual practice only', () => {
    for (const { crop, fact } of figures) {
      const source = sourceOf(crop, fact);
      expect(source?.text.length, `${crop.name} ${fact}`).toBeGreaterThan(5);
      const shown = source ? sourceWords(source) : '';
      const published = source?.evidence === 'read' || source?.evidence === 'derived';
      expect(shown.includes('usual practice'), `${crop.name} ${fact}`).toBe(!published);
    }
  });

  it('holds figures in their units', () => {
    for (const crop of crops) {
      expect(usual(crop, 'germination')).toBeGreaterThan(0);
      expect(usual(crop, 'germination')).toBeLessThanOrEqual(1);
      for (const fact of ['emerge_days', 'transplant_days', 'bed_days', 'harvest_days'] as const) {
        const days = usual(crop, fact);
        if (days !== undefined) expect(Number.isInteger(days), `${crop.name} ${fact}`).toBe(true);
      }
    }
  });

  it('has stages that follow one another', () => {
    for (const crop of crops) {
      const days = stages.flatMap((stage) => dayOfStage(crop, stage) ?? []);
      expect(days, crop.name).toEqual([...days].sort((a, b) => a - b));
      // What is cut once is cleared with its first cut.
      expect(new Set(days).size, crop.name).toBe(days.length - (crop.cut === 'once' ? 1 : 0));
    }
  });

  it('allows at most two weeks for cutting a crop that is cut once', () => {
    for (const crop of crops.filter((crop) => crop.cut === 'once')) {
      expect(usual(crop, 'harvest_days'), crop.name).toBeLessThanOrEqual(14);
    }
  });
});

interface Appendix {
  readonly source: string;
  readonly crops: readonly {
    readonly crop: string;
    readonly provenance: string;
    readonly printed: Readonly<Partial<Record<CropFact, readonly [number, number]>>>;
  }[];
}

const appendix = dataOf<Appendix>('crops-fao589.json');

/** Where the table does not follow the appendix, and what it follows instead. */
const otherwise: Readonly<Record<string, string>> = {
  'broccoli germination_temp': 'the appendix prints one temperature, 25 degC',
  'cucumber bed_days': 'trials in the UVI system were quicker',
  'aubergine plants_per_m2': 'yield and density of tunnel trials',
  'tomato plants_per_m2': 'trained plants under cover stand wider',
  'aubergine bed_days': 'the appendix does not say from when it counts',
  'beans bed_days': 'the appendix counts beans and peas together, to the end of the crop',
};

describe(`published ranges: ${appendix.source}`, () => {
  const printed = appendix.crops.flatMap(({ crop, provenance, printed: ranges }) =>
    (Object.keys(ranges) as CropFact[]).map((fact) => ({
      title: `${crop} ${fact}`,
      crop,
      fact,
      provenance,
      expected: ranges[fact],
    })),
  );

  it.each(printed.filter(({ title }) => !otherwise[title]))(
    '$title as printed ($provenance)',
    ({ crop, fact, expected }) => {
      expect(range(known(crop), fact)).toEqual(expected);
    },
  );

  it('departs from them only where it says so', () => {
    const departing = printed
      .filter(({ crop, fact, expected }) => {
        const ours = range(known(crop), fact);
        return ours?.[0] !== expected?.[0] || ours?.[1] !== expected?.[1];
      })
      .map(({ title }) => title);
    expect(departing.sort()).toEqual(Object.keys(otherwise).sort());
    for (const { title, crop, fact } of printed.filter((one) => otherwise[one.title])) {
      expect(sourceOf(known(crop), fact)?.text, title).not.toMatch(/^Somerville/);
    }
  });
});

interface Emergence {
  readonly source: string;
  readonly degC: readonly number[];
  readonly days: Readonly<Record<string, readonly (number | null)[]>>;
}

const emergence = dataOf<Emergence>('emergence-harrington.json');

/** Days to emergence between the printed temperatures along straight lines; undefined where none came up. */
function daysAt(crop: string, warmth: number): number | undefined {
  const row = emergence.days[crop] ?? [];
  const i = emergence.degC.findIndex((t, at) => at > 0 && warmth <= t);
  const [a, b] = [row[i - 1] ?? undefined, row[i] ?? undefined];
  const [from, to] = [emergence.degC[i - 1] ?? NaN, emergence.degC[i] ?? NaN];
  if (warmth === to) return b;
  return a === undefined || b === undefined ? b : a + ((b - a) * (warmth - from)) / (to - from);
}

describe(`days to emergence against ${emergence.source} (read)`, () => {
  /** The printed days over the temperatures at which the table germinates the crop. */
  const printedSpan = (crop: Crop): number[] => {
    const [low = NaN, high = NaN] = range(crop, 'germination_temp') ?? [];
    return Array.from({ length: high - low + 1 }, (_, i) => daysAt(crop.name, low + i)).filter(
      (days) => days !== undefined,
    );
  };

  it.each(Object.keys(emergence.days).filter((name) => name !== 'parsley'))(
    '%s: the range meets the printed days',
    (name) => {
      const crop = known(name);
      const days = printedSpan(crop);
      const [low = NaN, high = NaN] = range(crop, 'emerge_days') ?? [];
      expect(days.length).toBeGreaterThan(0);
      expect(low).toBeLessThanOrEqual(Math.max(...days));
      expect(high).toBeGreaterThanOrEqual(Math.min(...days));
    },
  );

  it.each(['spinach', 'celery', 'peas', 'okra', 'radish', 'spring onion'])(
    '%s, whose source it is: the range lies inside the printed days, within a day',
    (name) => {
      const crop = known(name);
      const days = printedSpan(crop);
      const [low = NaN, high = NaN] = range(crop, 'emerge_days') ?? [];
      expect(low).toBeGreaterThanOrEqual(Math.min(...days) - 1);
      expect(high).toBeLessThanOrEqual(Math.max(...days) + 1);
    },
  );

  it('parsley: the table keeps to FAO 589, three days quicker than printed here, and warns', () => {
    const parsley = known('parsley');
    expect(Math.min(...printedSpan(parsley)) - (usual(parsley, 'emerge_days') ?? NaN)).toBe(3);
    expect(parsley.note).toMatch(/uncertain/);
  });
});

interface CropYield {
  readonly crop: string;
  readonly plants_per_m2: number;
  readonly kg_per_plant: number;
  readonly kg_per_m2: number;
  readonly kg_per_m2_range: readonly [number, number];
  readonly harvest_days: number;
  readonly degree_days: number;
  readonly source: string;
  readonly provenance: string;
}

describe('yield of a whole crop with its density', () => {
  const yields = dataOf<readonly CropYield[]>('crop-yields.json');

  it('is there for every crop', () => {
    expect(yields.map(({ crop }) => crop.toLowerCase()).sort()).toEqual(
      crops.map(({ name }) => name.toLowerCase()).sort(),
    );
  });

  it.each(yields)('$crop: $kg_per_m2 kg/m² ($provenance) $source', (stated) => {
    const crop = crops.find(({ name }) => name.toLowerCase() === stated.crop);
    if (!crop) throw new Error(`no crop ${stated.crop}`);
    expect(usual(crop, 'plants_per_m2')).toBe(stated.plants_per_m2);
    expect(usual(crop, 'kg_per_plant')).toBe(stated.kg_per_plant);
    expect(usual(crop, 'harvest_days')).toBe(stated.harvest_days);
    // Printed with two digits.
    expect(Math.abs(usual(crop, 'kg_per_m2') / stated.kg_per_m2 - 1)).toBeLessThan(0.02);
    const [low, high] = range(crop, 'kg_per_m2') ?? [NaN, NaN];
    expect(Math.abs(low / stated.kg_per_m2_range[0] - 1)).toBeLessThan(0.04);
    expect(Math.abs(high / stated.kg_per_m2_range[1] - 1)).toBeLessThan(0.04);
    expect(Math.abs(usual(crop, 'degree_days') - stated.degree_days)).toBeLessThanOrEqual(1);
  });

  it('is the yield of a plant times the plants, and what grows by degree days grows at its usual warmth', () => {
    for (const crop of crops) {
      const product = usual(crop, 'kg_per_plant') * usual(crop, 'plants_per_m2');
      expect(usual(crop, 'kg_per_m2'), crop.name).toBeCloseTo(product, 9);
      expect(usual(crop, 'base_temp'), crop.name).toBeLessThan(usual(crop, 'air'));
      expect(usual(crop, 'air'), crop.name).toBeLessThanOrEqual(usual(crop, 'cap_temp'));
    }
  });

  it('is at least a piece where a whole plant is the piece, and the weights stand in order', () => {
    for (const crop of crops) {
      const [piece, bunch] = [usual(crop, 'piece_weight'), usual(crop, 'bunch_weight')];
      expect(piece, crop.name).toBeGreaterThan(0);
      expect(bunch, crop.name).toBeGreaterThan(0);
      if (['head', 'onion', 'root', 'bulb'].includes(crop.piece)) {
        expect((1000 * usual(crop, 'kg_per_plant')) / piece, crop.name).toBeCloseTo(1, 9);
      }
    }
  });
});

describe('figures as they are printed (read)', () => {
  const GRAMS_IN_OUNCE = 28.349523125;
  const METRES_IN_INCH = 0.0254;

  it.each([
    ['dill', 0.6],
    ['spring onion', 0.7],
    ['radish', 0.75],
  ])('%s: germination of 7 CFR 201.31 (onion, Welsh, for spring onion)', (name, least) => {
    expect(usual(known(name), 'germination')).toBe(least);
  });

  it('dill: 14,000 seeds an ounce, 6 to 10 inches apart (Oregon State Univ. 2010)', () => {
    const dill = known('dill');
    expect(usual(dill, 'seeds_per_gram')).toBeCloseTo(14_000 / GRAMS_IN_OUNCE, 1);
    const [near, far] = range(dill, 'spacing') ?? [];
    expect(near).toBeCloseTo(600 * METRES_IN_INCH, 0);
    expect(far).toBeCloseTo(1000 * METRES_IN_INCH, 0);
  });

  it('radish: 2 by 12 inches in the field, 264 and 554 on a floating m² (Iowa State Univ. Extension 2013, Jakše 2018)', () => {
    const [fewest, most] = range(known('radish'), 'plants_per_m2') ?? [];
    expect(fewest).toBeCloseTo(1 / (2 * 12 * METRES_IN_INCH ** 2), 0);
    expect([usual(known('radish'), 'plants_per_m2'), most]).toEqual([264, 554]);
  });

  it('radish: ready three to five weeks from sowing (Iowa State Univ. Extension 2013)', () => {
    const radish = known('radish');
    const [soonest = NaN, latest = NaN] = range(radish, 'bed_days') ?? [];
    const up = usual(radish, 'emerge_days') ?? NaN;
    expect([(soonest + up) / 7, (latest + up) / 7]).toEqual([3, 5]);
  });

  it.each([
    ['spring onion', 45, 85],
    ['radish', 40, 75],
  ])('%s: air from %d to %d °F (Maynard & Hochmuth 1997)', (name, low, high) => {
    const celsius = [low, high].map((f) => Math.round(((f - 32) * 5) / 9));
    expect(range(known(name), 'air')).toEqual(celsius);
  });
});

describe('plausibility, common practice, no source', () => {
  it('seedlings of the main crops go to the beds about four weeks after sowing', () => {
    const main = ['lettuce', 'Swiss chard', 'spinach', 'basil', 'pak choi', 'kale', 'broccoli'];
    const fruit = ['head cabbage', 'cucumber', 'tomato', 'courgette', 'parsley', 'coriander'];
    const days = [...main, ...fruit].map((name) => usual(known(name), 'transplant_days'));
    const mean = days.reduce((sum, value) => sum + value, 0) / days.length;
    expect(mean).toBeGreaterThan(21);
    expect(mean).toBeLessThan(35);
  });
});
