import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readNumberText } from '../../../src/functions/units';
import { askNumber, askRotation, askRows } from './ask';

interface Check {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, { readonly value: number; readonly unit: string }>>;
  readonly expected: { readonly value: number; readonly unit: string };
  readonly tolerance: number;
  readonly source: string;
  readonly where: string;
  readonly provenance: string;
}

const checks = JSON.parse(
  readFileSync(new URL('../../checks/fish.json', import.meta.url), 'utf8'),
) as Check[];

/** Daily growth in % of body weight that the growth card gives. */
const growthPercent = (species: string, grams: number, water: number): number =>
  100 * Math.log(askNumber('GROWTH.WEIGHT', grams, 1, water, species) / grams);

/** Growth in length, cm a month, of a fish of the published condition factor (100 g/cm3). */
function lengthGrowth(species: string, water: number, condition: number): number {
  const length = (grams: number): number => Math.cbrt((100 * grams) / condition);
  return length(askNumber('GROWTH.WEIGHT', 100, 30.4375, water, species)) - length(100);
}

const inCentimetres = readNumberText('1 in', 'cm', 'length');
const condition = (millionthPounds: number): number =>
  (100 * readNumberText(`${millionthPounds * 1e-6} lb`, 'g', 'weight')) / inCentimetres ** 3;

type Inputs = (name: string) => number;
const harvestDensity =
  (weightName: string) =>
  (of: Inputs): number => {
    // A cubic metre, one week before and after: the survival is that of the whole time.
    const rows = askRows(
      'STOCK.FORECAST',
      of('stocking'),
      of(weightName),
      1,
      5,
      'Nile tilapia',
      of('survival') / 100,
      1000,
    );
    return rows[1]?.[4] as number;
  };
/** kg that the design guide's row allows in fish of half a kilo, at its density. */
const designGuide =
  (density: number) =>
  (of: Inputs): number =>
    askNumber('STOCK.LIMIT', of('tank'), 500, density) * 0.5;
const dailyGain = (of: Inputs): number => {
  const days = of('weeks') * 7;
  const coefficient = askNumber('GROWTH.COEFFICIENT', of('W1'), of('W2'), days, 28);
  const rows = askRows(
    'STOCK.FORECAST',
    100,
    of('W1'),
    of('weeks'),
    28,
    null,
    null,
    null,
    coefficient,
  );
  return ((rows.at(-1)?.[2] as number) - of('W1')) / days;
};
const annual = (of: Inputs): number => {
  const kg = askNumber('STOCK.LIMIT', of('tank'), 1, of('density')) / 1000;
  return (kg * 52) / of('interval');
};

interface Way {
  readonly through: string;
  readonly value: (of: Inputs) => number;
  /** In place of the check's own tolerance, with the reason. */
  readonly within?: readonly [tolerance: number, because: string];
}

/** The published growth of young carp against that at its best, as the ration follows it. */
const carpAppetite = (of: Inputs): number =>
  3.32 *
  (askNumber('FEED.RATE', 'common carp', 20, of('temperature')) /
    askNumber('FEED.RATE', 'common carp', 20));
const carpShape: Way = {
  through: 'FEED.RATE',
  value: carpAppetite,
  within: [0.34, 'the ration follows the growth within a tenth of the best'],
};
const aboveMaintenance: Way = {
  through: 'FEED.RATE',
  // What is left over after upkeep must be something: the ration itself is above it.
  value: (of) =>
    Math.min(of('published'), 100 * askNumber('FEED.RATE', 'common carp', 20, of('temperature'))),
};

const ways: Readonly<Record<string, Way>> = {
  'tgc-forward': {
    through: 'GROWTH.WEIGHT',
    value: (of) =>
      askNumber(
        'GROWTH.WEIGHT',
        of('W1'),
        of('days'),
        of('temperature'),
        'rainbow trout',
        of('TGC'),
      ),
  },
  'tgc-coefficient': {
    through: 'GROWTH.COEFFICIENT',
    value: (of) =>
      askNumber('GROWTH.COEFFICIENT', of('W1'), of('W2'), of('days'), of('temperature')),
  },
  'tgc-trout-farm': {
    through: 'GROWTH.COEFFICIENT',
    value: (of) =>
      askNumber('GROWTH.COEFFICIENT', of('W1'), of('W2'), of('days'), of('temperature')),
  },
  'timmons-tilapia-28': {
    through: 'GROWTH.WEIGHT',
    value: (of) => lengthGrowth('Nile tilapia', of('temperature'), 2.1),
    within: [0.6, 'a growth law in length against one in weight: 20 %'],
  },
  'timmons-trout-15': {
    through: 'GROWTH.WEIGHT',
    value: (of) => lengthGrowth('rainbow trout', of('temperature'), 1.11),
    within: [
      0.9,
      'the FAO farm datum asks for 3.5 cm a month: modern strains outgrow it by a third',
    ],
  },
  'lmb-sgr-max': {
    through: 'GROWTH.WEIGHT',
    value: (of) => growthPercent('largemouth bass', 60, of('temperature')),
  },
  'lmb-rtgi-max': {
    through: 'FEED.RATE',
    value: (of) =>
      askNumber('FEED.RATE', 'largemouth bass', 60, of('temperature')) /
      askNumber('FEED.RATE', 'largemouth bass', 60),
  },
  'carp-gmax-12': carpShape,
  'carp-gmax-18': carpShape,
  'carp-gmax-24': carpShape,
  'carp-gmax-30': carpShape,
  'carp-maint-12': aboveMaintenance,
  'carp-maint-18': aboveMaintenance,
  'carp-maint-24': aboveMaintenance,
  'carp-maint-30': aboveMaintenance,
  'hsb-final-density-36': { through: 'STOCK.FORECAST', value: harvestDensity('final_weight') },
  'hsb-final-density-72': { through: 'STOCK.FORECAST', value: harvestDensity('final_weight') },
  'hsb-final-density-144': { through: 'STOCK.FORECAST', value: harvestDensity('final_weight') },
  'uvi-nile-density': { through: 'STOCK.FORECAST', value: harvestDensity('weight') },
  'uvi-red-density': { through: 'STOCK.FORECAST', value: harvestDensity('weight') },
  'uvi-tanks': {
    through: 'STOCK.ROTATION',
    // Water in which the table's coefficient takes the published time.
    value: (of) => {
      const plan = askRotation(346.7, 813.8, 79.2, 27.28, 'Nile tilapia', 0.983, 61.5, 4);
      expect(plan.days / 7).toBeCloseTo(of('period'), 1);
      expect(plan.weeks).toBeCloseTo(of('interval'), 1);
      return Math.round(plan.days / 7 / plan.weeks);
    },
  },
  'uvi-nile-gain': { through: 'STOCK.FORECAST', value: dailyGain },
  'uvi-red-gain': { through: 'STOCK.FORECAST', value: dailyGain },
  'uvi-nile-annual': { through: 'STOCK.LIMIT', value: annual },
  'uvi-red-annual': { through: 'STOCK.LIMIT', value: annual },
  'fao-feed-lettuce': {
    through: 'FEED.DAY',
    // 20 kg of fish at 1 % eat what four square metres call for.
    value: () => askNumber('FEED.DAY', 100, 200, null, null, 0.01),
  },
  'fao-biomass-1pct': {
    through: 'FEED.DAY',
    value: (of) => of('feed') / askNumber('FEED.DAY', 1, 1000, null, null, 0.01),
  },
  'fao-biomass-2pct': {
    through: 'FEED.DAY',
    value: (of) => of('feed') / askNumber('FEED.DAY', 1, 1000, null, null, 0.02),
  },
  'fao-design-200': { through: 'STOCK.LIMIT', value: designGuide(25) },
  'fao-design-500': { through: 'STOCK.LIMIT', value: designGuide(20) },
  'fao-design-1000': { through: 'STOCK.LIMIT', value: designGuide(20) },
  'fao-design-1500': { through: 'STOCK.LIMIT', value: designGuide(20) },
  'fao-design-2000': { through: 'STOCK.LIMIT', value: designGuide(20) },
  'fao-design-3000': { through: 'STOCK.LIMIT', value: designGuide(20) },
  'condition-trout': { through: 'text with units', value: (of) => condition(of('K_imperial')) },
  'condition-perch': { through: 'text with units', value: (of) => condition(of('K_imperial')) },
  'condition-hybrid-striped-bass': {
    through: 'text with units',
    value: (of) => condition(of('K_imperial')),
  },
  'condition-tilapia': { through: 'text with units', value: (of) => condition(of('K_imperial')) },
  'density-c-unit': {
    through: 'text with units',
    value: (of) =>
      (of('C_inch') * inCentimetres * readNumberText('1 ft3', 'm3', 'volume')) /
      readNumberText('1 lb', 'kg', 'weight'),
  },
};

describe('published figures on fish, through the cards', () => {
  it.each(checks)('$id: $source, $where ($provenance)', (check) => {
    const way = ways[check.id];
    if (!way) throw new Error(`${check.id} has no way through a card`);
    const of: Inputs = (name) => {
      const value = name === 'published' ? check.expected.value : check.inputs[name]?.value;
      if (value === undefined) throw new Error(`${check.id} has no ${name}`);
      return value;
    };
    const tolerance = way.within?.[0] ?? check.tolerance;
    expect(Math.abs(way.value(of) - check.expected.value), way.through).toBeLessThanOrEqual(
      tolerance + 1e-9,
    );
  });
});

describe('design guide, Somerville et al. 2014, FAO Fish. Aquac. Tech. Pap. 589, Table 8.1 (memory)', () => {
  // tank L, feed g/day: fish of 500 g at 20 kg/m3, 1 % of body weight a day (1 % read in chapter 7)
  it.each([
    [500, 100],
    [1000, 200],
    [1500, 300],
    [2000, 400],
    [3000, 600],
  ])('%i L feeds %i g a day', (litres, feed) => {
    const fish = askNumber('STOCK.LIMIT', litres, 500);
    expect(askNumber('FEED.DAY', fish, 500, null, null, 0.01)).toBeCloseTo(feed, 9);
  });
});

describe('tilapia in tanks, SRAC 282 Table 1 (memory), beside UVI feed conversion (read)', () => {
  // from g, to g, gain g/day, feed % at the beginning and end of the stage
  it.each([
    [5, 20, 10, 7],
    [20, 50, 7, 4],
    [50, 100, 4, 3.5],
  ])('%i to %i g: the table stays within a tenth of %f to %f %%', (from, to, high, low) => {
    expect(askNumber('FEED.RATE', 'Nile tilapia', from)).toBeGreaterThan((low / 100) * 0.9);
    expect(askNumber('FEED.RATE', 'Nile tilapia', from)).toBeLessThan((high / 100) * 1.1);
    expect(askNumber('FEED.RATE', 'Nile tilapia', to)).toBeGreaterThan((low / 100) * 0.9);
  });
});
