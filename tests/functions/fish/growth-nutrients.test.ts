import { describe, expect, it } from 'vitest';
import { temperatureFactor } from '../../../src/core/filter';
import { USUAL_OXYGEN } from '../../../src/core/fish-oxygen';
import { fittedGrowth } from '../../../src/core/growth-fitted';
import { dailySurvival } from '../../../src/core/month-water';
import { stagedRearing } from '../../../src/core/staged-rearing';
import { gramsPerAlkalinity, gramsPerEquivalent } from '../../../src/core/tables/bases';
import { nutrientShare } from '../../../src/core/tables/nutrient-salts';
import { GRAMS_PER_EQUIVALENT_CACO3, molarMass } from '../../../src/core/molar-mass';
import { input, publishedChecks, titleOf } from '../../tools/published-checks';
import { ask, askNumber } from './ask';

type Of = (name: string) => number;

const coefficient: (of: Of) => number = (of) =>
  askNumber(
    'GROWTH.COEFFICIENT',
    of('initial_weight'),
    of('final_weight'),
    of('days'),
    of('temperature'),
  );
/** Growth of a day at a weight, from a time too short for the weight to change much. */
const gain = (of: Of, temperature: number): number => {
  const day = 1e-4;
  const end = askNumber('GROWTH.WEIGHT', of('weight'), day, temperature, 'Nile tilapia', of('TGC'));
  return (end - of('weight')) / day;
};
const slopes =
  (cold: string, warm: string) =>
  (of: Of): number =>
    askNumber('GROWTH.COEFFICIENT', of('initial_weight'), of(cold), 100, 28) /
    askNumber('GROWTH.COEFFICIENT', of('initial_weight'), of(warm), 100, 28);
const stage = (of: Of): number =>
  askNumber('GROWTH.DAYS', of('from'), of('to'), of('temperature'), 'Nile tilapia', of('TGC'));
const seeds = (of: Of): number =>
  askNumber('SEED.COUNT', of('needed'), of('germination'), null, of('confidence'));
const filterFor =
  (rate: string, water: number) =>
  (of: Of): number =>
    askNumber(
      'FILTER.SURFACE',
      askNumber('LOAD.TAN', of('feed') * 1000, of('protein') / 100),
      of(rate),
      water,
    );

/** Weight that fish of their own coefficient reach, in water at its best for them. */
const reached = (of: Of, end: string): number =>
  askNumber(
    'GROWTH.WEIGHT',
    of('initial_weight'),
    210,
    28,
    'Nile tilapia',
    askNumber('GROWTH.COEFFICIENT', of('initial_weight'), of(end), 210, 28),
  ) - of('initial_weight');

/** Of a recorded use of bases: kg CaCO3 of potassium hydroxide, and of all. */
function recordedBases(of: Of): readonly [potassium: number, all: number] {
  const potassium = of('KOH') / gramsPerAlkalinity('potassium hydroxide');
  const quicklime = (of('CaO') * GRAMS_PER_EQUIVALENT_CACO3) / gramsPerEquivalent('CaO', 2);
  return [potassium, potassium + quicklime + of('CaOH2') / gramsPerAlkalinity('calcium hydroxide')];
}

const stages = (of: Of, weights: readonly number[]) =>
  stagedRearing({
    weights,
    density: of('density'),
    temperature: of('temperature'),
    coefficient: of('TGC'),
    interval: 28,
  });

/** The share at which a function of it passes a figure, between 0 and 1. */
function shareAt(passes: (share: number) => boolean): number {
  let [low, high] = [0.001, 1];
  while (high - low > 1e-7) {
    const middle = (low + high) / 2;
    if (passes(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Exact lower limit: with that germination so many come up in one of forty tests of `tested` seeds. */
const exactLow = (cameUp: number, tested: number): number =>
  cameUp === 0
    ? 0
    : shareAt((share) => askNumber('SEED.COUNT', cameUp, share, null, 0.025) <= tested);
const exactHigh = (cameUp: number, tested: number): number => 1 - exactLow(tested - cameUp, tested);
const exact =
  (limit: typeof exactLow) =>
  (of: Of): number =>
    limit(of('successes'), of('trials'));
const scored =
  (end: string) =>
  (of: Of): number =>
    askNumber('SEED.CERTAIN', of('successes'), of('trials'), 0.95, end);
const sampled: (of: Of) => number = (of) =>
  askNumber('STOCK.SAMPLE', of('error') / 100, of('CV') / 100, 0.95);
const deaths: (of: Of) => number = (of) =>
  100 * (1 - dailySurvival(of('survival') / 100, of('days')));

/** Each check through the functions, as a grower would ask. */
const ways: Readonly<Record<string, (of: Of) => number>> = {
  'tgc-gst-30': coefficient,
  'tgc-gst-22': coefficient,
  'tgc-work-24': coefficient,
  'tgc-work-32': coefficient,
  'tgc-catfish-27': coefficient,
  'gain-tgc-gst-30': (of) => gain(of, of('temperature')),
  'gain-tgc-100': (of) => gain(of, of('temperature')),
  'ration-tgc-100': (of) => (100 * of('FCR') * gain(of, of('temperature'))) / of('weight'),
  'slope-ratio-gst-22-30': slopes('final_22', 'final_30'),
  'slope-ratio-work-24-32': slopes('final_24', 'final_32'),
  'fcr-from-efficiency': (of) => askNumber('FEED.CONVERSION', 100, of('feed_efficiency')),
  'density-clarias-indoor': (of) =>
    askNumber('STOCK.DENSITY', (of('stocking') * of('survival')) / 100, of('weight'), 1000),
  'split-count': (of) =>
    Math.ceil(
      of('fish') / askNumber('STOCK.LIMIT', of('volume') * 1000, of('weight'), of('density_limit')),
    ),
  'stage-days-1': stage,
  'stage-days-2': stage,
  'stage-days-3': stage,
  'alk-return-nitrate': (of) =>
    askNumber('LOAD.ALKALINITY', of('N')) - askNumber('LOAD.ALKALINITY', of('N'), 1),
  'alk-balance-day': (of) => {
    const share = (name: string): number => of(name) / of('N_nitrified');
    return (
      askNumber(
        'LOAD.ALKALINITY',
        of('N_nitrified'),
        share('nitrate_uptake'),
        share('denitrified'),
      ) -
      (of('makeup_volume') * of('makeup_alkalinity')) / 1000
    );
  },
  'frac-k2so4-k': () => nutrientShare('potassium sulphate', 'K'),
  'frac-koh-k': () => nutrientShare('potassium hydroxide', 'K'),
  'frac-caoh2-ca': () => nutrientShare('calcium hydroxide', 'Ca'),
  'frac-camgco32-mg': () => nutrientShare('dolomite', 'Mg'),
  'frac-mgso4-7h2o-mg': () => nutrientShare('magnesium sulphate', 'Mg'),
  'dose-k2so4': (of) => askNumber('DOSE.NUTRIENT', of('volume'), 0, of('rise'), 'K'),
  'dolomite-eq': () => (2 * molarMass('CaCO3')) / molarMass('CaMg(CO3)2'),
  'n-head-lettuce': (of) => askNumber('NUTRIENT.CROP', of('fresh') / 1000, 'lettuce', 'N'),
  'fe-dose-weekly': (of) =>
    (askNumber('DOSE.NUTRIENT', of('volume'), 0, of('target'), 'Fe') * 0.1 * 7) / of('interval'),
  'area-from-feed-60': (of) => askNumber('FEED.AREA', of('feed'), of('ratio')),
  'endut-area-300': (of) => askNumber('FEED.AREA', of('feed'), of('ratio')),
  'feed-from-area-100': (of) => askNumber('FEED.WANTED', of('area'), of('ratio')),
  'ratio-protein': (of) => askNumber('FEED.WANTED', 1, of('ratio'), null, of('protein') / 100),
  'nitrif-temp-tan': (of) =>
    100 * (temperatureFactor(of('temperature') + 1) / temperatureFactor(of('temperature')) - 1),
  'nitrif-factor-25-tan': (of) => temperatureFactor(of('temperature')) / temperatureFactor(20),
  'nitrif-carbon': () =>
    askNumber('FILTER.SURFACE', 1, 1, 25, 1, 0) / askNumber('FILTER.SURFACE', 1, 1, 25, 1, 1.5),
  'nitrif-theta-1C': (of) => (temperatureFactor(20) / temperatureFactor(1)) ** (1 / of('dT')),
  'biofilter-area-25': filterFor('rate', 25),
  'biofilter-area-20': (of) => filterFor('rate_25', of('temperature'))(of),
  'rate-linear-0.5': (of) => 1 / askNumber('FILTER.SURFACE', 1, of('rate_at_1'), 25, of('TAN')),
  'sow-1-50': seeds,
  'sow-20-80': seeds,
  'sow-100-90': seeds,
  'sow-200-85': seeds,
  'sow-72-75': seeds,
  'slope-from-gain': (of) =>
    askNumber('GROWTH.COEFFICIENT', 1e-9, 1000 * of('gain_ratio'), 100, 28) /
    askNumber('GROWTH.COEFFICIENT', 1e-9, 1000, 100, 28),
  'gain-ratio-gst': (of) => reached(of, 'final_22') / reached(of, 'final_30'),
  'uvi-base-equivalents': (of) => recordedBases(of)[1],
  'uvi-base-k-share': (of) => recordedBases(of)[0] / recordedBases(of)[1],
  'endut-hlr': (of) => askNumber('FLOW.TURNOVER', of('HLR') * 1000, 1 / 24),
  'limit-tilapia-do-appetite': () => USUAL_OXYGEN,
  'f-to-c-tilapia-handling': () => askNumber('FACT.FISH', 'tilapia', 'handling low'),
  'yield-all-in': (of) => stages(of, [of('from'), of('to')]).allInAllOut,
  'yield-staged': (of) => stages(of, [10, 100, 300, 600]).output,
  'yield-uvi': (of) =>
    askNumber('STOCK.DENSITY', of('annual'), 1000, of('tanks') * of('tank_volume') * 1000),
  'cp-5-25-low': exact(exactLow),
  'cp-5-25-high': exact(exactHigh),
  'cp-45-50-low': exact(exactLow),
  'cp-45-50-high': exact(exactHigh),
  'cp-0-30-high': exact(exactHigh),
  'wilson-45-50-low': scored('lowest'),
  'wilson-45-50-high': scored('highest'),
  'wilson-0-30-low': scored('lowest'),
  'wilson-0-30-high': scored('highest'),
  'wilson-5-25-low': scored('lowest'),
  'wilson-5-25-high': scored('highest'),
  'sow-naive-risk': (of) =>
    shareAt(
      (sure) =>
        sure > 0.9999 ||
        (sure >= 0.01 &&
          askNumber('SEED.COUNT', of('needed'), of('germination'), null, sure) > of('sown')),
    ),
  'n-cv25-e5': sampled,
  'n-cv20-e5': sampled,
  'n-cv20-e10': sampled,
  'n-fpc': (of) => askNumber('STOCK.SAMPLE', of('error') / 100, of('CV') / 100, 0.95, of('stock')),
  'tgc-regression': (of) =>
    fittedGrowth(
      [0, 28, 56, 84].map((day, i) => ({
        day,
        weight: [50, 92, 150, 231][i] as number,
        temperature: of('temperature'),
      })),
    ).coefficient,
  'mort-uvi': deaths,
  'mort-clarias': deaths,
  'o2-cutthroat': (of) =>
    (askNumber('LOAD.OXYGEN', of('ration') * 10, of('O2_per_feed') / 1000) * 1000) / 24,
};

describe('published growth, nutrients and filters, through the functions', () => {
  it.each(
    publishedChecks('growth-nutrients.json').map((check) => [titleOf(check), check] as const),
  )('%s', (_, check) => {
    const way = ways[check.id];
    if (!way) throw new Error(`${check.id} has no way through a function`);
    const value = way((name) => input(check, name));
    expect(Math.abs(value - Number(check.expected.value))).toBeLessThanOrEqual(
      check.tolerance + 1e-9,
    );
  });
});

describe('seeds for a promise', () => {
  it('are no fewer than the average asks for where one is at least half sure, and enough in that share of sowings', () => {
    for (const [plants, share, sure] of [
      [1, 0.5, 0.9],
      [30, 0.6, 0.8],
      [200, 0.85, 0.99],
    ] as const) {
      const seedCount = askNumber('SEED.COUNT', plants, share, null, sure);
      // The chance of at least so many plants, term by term from the top.
      const chance = (of: number): number => {
        let term = share ** of;
        let sum = 0;
        for (let k = of; k >= plants; k--) {
          sum += term;
          term *= (k / (of - k + 1)) * ((1 - share) / share);
        }
        return sum;
      };
      expect(chance(seedCount)).toBeGreaterThanOrEqual(sure - 1e-9);
      expect(chance(seedCount - 1)).toBeLessThan(sure);
    }
  });
  it('stay the average where nothing is said of being sure, and have a sentence where too many would fail', () => {
    expect(ask('SEED.COUNT', 100, 0.9)).toBe(112);
    expect(ask('SEED.COUNT', 100, 1, 0, 0.99)).toBe(100);
    expect(ask('SEED.COUNT', 1e6, 0.5, 0, 0.95)).toMatchObject({
      code: '#NUM!',
      message: expect.stringContaining('5000 seeds would fail') as string,
    });
  });
});

describe('what the functions refuse', () => {
  it('base for water that needs none, for an old test, and where ammonia would turn harmful', () => {
    expect(ask('DOSE.BASE', 7800, 40, 60, null, 7.8)).toMatchObject({
      message: 'pH 7.8 is above 7.6; this water needs no base',
    });
    expect(ask('DOSE.BASE', 7800, 40, 60, null, null, null, null, 30)).toMatchObject({
      message: expect.stringContaining('the test is 30 days old') as string,
    });
    expect(ask('DOSE.BASE', 7800, 20, 100, null, 7.2, 3, 28)).toMatchObject({
      code: '#NUM!',
      message: expect.stringContaining('bring ammonia down first') as string,
    });
    expect(askNumber('DOSE.BASE', 7800, 40, 60, null, 6.6, 0.8, 27, 2)).toBe(
      askNumber('DOSE.BASE', 7800, 40, 60),
    );
  });
  it('shares of nitrogen that come to more than all of it, and salts without the nutrient', () => {
    expect(ask('LOAD.ALKALINITY', 100, 0.7, 0.5)).toMatchObject({ code: '#VALUE!' });
    expect(ask('DOSE.NUTRIENT', 7800, 5, 10, 'K', 'gypsum')).toMatchObject({
      message: 'calcium sulphate holds no K; choose another salt',
    });
    expect(ask('DOSE.NUTRIENT', 7800, 50, 10, 'K')).toMatchObject({ code: '#NUM!' });
  });
});

describe('feed by kind of bed', () => {
  // Rakocy et al. 2004 (read): 17.5 and 20.6 kg of feed a day on 214 m2 of rafts, both in good order for years.
  it.each([17490, 20610])(
    '%i g on rafts: within a quarter of the 214 m2 of the published farm',
    (feed) => {
      const area = askNumber('FEED.AREA', feed, 'leafy', 'raft');
      expect(area / 214).toBeGreaterThan(0.8);
      expect(area / 214).toBeLessThan(1.25);
    },
  );
  it('leaves gravel and a left-out kind of bed as they were', () => {
    for (const crops of ['leafy', 'fruiting', 'basil', 52]) {
      expect(ask('FEED.AREA', 1000, crops, 'gravel')).toBe(ask('FEED.AREA', 1000, crops));
    }
  });
  it('keeps rafts between 40 and 100, film channels between 15 and 42', () => {
    for (const crops of ['leafy', 'brassica', 'fruiting', 'basil', 10, 400]) {
      expect(askNumber('FEED.WANTED', 1, crops, 'raft')).toBeGreaterThanOrEqual(40);
      expect(askNumber('FEED.WANTED', 1, crops, 'raft')).toBeLessThanOrEqual(100);
      expect(askNumber('FEED.WANTED', 1, crops, 'film')).toBeGreaterThanOrEqual(15);
      expect(askNumber('FEED.WANTED', 1, crops, 'film')).toBeLessThanOrEqual(42);
    }
  });
});

describe('beds as filters', () => {
  it('rafts count with half a gram a m2, less in cold, little ammonia and solids', () => {
    expect(askNumber('FILTER.BEDS', 214, 'raft')).toBeCloseTo(107, 9);
    const warm = askNumber('FILTER.BEDS', 10, 'gravel');
    expect(askNumber('FILTER.BEDS', 10, 'gravel', 15)).toBeLessThan(0.6 * warm);
    expect(askNumber('FILTER.BEDS', 10, 'gravel', 25, 0.5)).toBeCloseTo(warm / 2, 9);
    expect(askNumber('FILTER.BEDS', 10, 'gravel', 25, 1, 1)).toBeCloseTo(0.3 * warm, 9);
    expect(askNumber('FILTER.BEDS', 10, 'gravel', null, null, null, 0.5)).toBeCloseTo(2 * warm, 9);
  });
});
