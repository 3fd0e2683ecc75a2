import { noAnswer } from '../core/errors';
import { MAX_FAILURES, seedsToBeSure, seedsToSow, traysFor } from '../core/seed';
import { roundUpToWhole } from '../core/whole';
import { card, type Source, type ValueCard } from './card';
import { MAX_PLANTS } from './crop-parameters';
import { number } from './parameter';

const rutgers: Source = {
  author: 'Rutgers University, Horticultural Engineering',
  year: '',
  title: 'Lettuce production on floating rafts',
  where: '1200 seeds sown for 960 plants',
  evidence: 'read',
};
const arithmetic: Source = {
  author: 'Definition',
  year: '',
  title: 'whole pieces, rounded up',
  evidence: 'definition',
};

const MAX_SEEDS = 1e9;

const count = card({
  id: 'SEED.COUNT',
  subject: 'Sowing and seed',
  summary: 'Seeds to sow so that the wanted number of plants is left',
  searchWords: [
    'germination',
    'how many seeds',
    'losses',
    'sow extra',
    'poor germination',
    'patchy trays',
    'germination rate',
  ],
  parameters: [
    number('plants', 'plants wanted', { unit: 'plants', min: 0, max: MAX_PLANTS }),
    number('germination', 'share of the seed that comes up', {
      unit: 'share',
      min: 0.001,
      max: 1,
    }),
    number('losses', 'share of the seedlings that is lost before the cut', {
      unit: 'share',
      min: 0,
      max: 0.99,
      default: 0,
      defaultText: '0, every seedling makes a plant',
    }),
    number('sure', 'how sure of that many plants you want to be', {
      unit: 'share',
      min: 0.01,
      max: 0.9999,
      optional: true,
      defaultText: 'as many as give the plants on average, which half of the sowings miss',
    }),
  ],
  result: { kind: 'number', unit: 'seeds', meaning: 'whole seeds, rounded up' },
  method:
    'Plants divided by the share that comes up and by the share of those that live, rounded up to whole seeds. With `sure` the least number of which at least that many become plants with that chance (exact binomial: each seed for itself).',
  formula: {
    seeds: `IF(sure = "", average, IF(plants = 0, 0, IF(share >= 1, wanted, IF(failures >= ${MAX_FAILURES}, NO_ANSWER(), wanted + failures))))`,
    average: 'ROUNDUP(ROUND(plants / share, 6), 0)',
    share: 'germination * (1 - losses)',
    wanted: 'ROUNDUP(ROUND(plants, 6), 0)',
    failures: 'NEGBINOM_INV(sure, wanted, share)',
  },
  symbols: {
    share: 'share of the seeds that become plants',
    failures:
      'the fewest seeds to lose with which the chance is as wanted: quantile of the negative binomial distribution',
  },
  sources: [arithmetic, rutgers],
  validity:
    'Any crop. Old seed comes up worse than the packet says: count a test of 50 or 100 seeds. Seeds of one tray share its luck: add 3 to 5 % where a batch must not fail (common practice, no source).',
  examples: [
    {
      args: [960, 0.8],
      result: 1200,
      says: '960 lettuces at 80 %: the 1200 seeds that Rutgers University sows for them',
    },
    {
      args: [200, 0.8, 0.0975],
      result: 278,
      says: '200 heads, 80 % germination, 5 % lost in the nursery and 5 % in the bed',
    },
    {
      args: [40, '25 %'],
      result: 160,
      says: 'Edible flowers whose seed comes up one in four (common practice, no source)',
    },
    {
      args: [100, 0.9, null, 0.95],
      result: 117,
      says: '100 plants from seed of 90 % in 95 of 100 sowings; 112 seeds would reach them in 67',
    },
  ],
  seeAlso: ['SEED.TRAYS', 'FACT.CROP'],
  compute: (plants, germination, losses, sure) => {
    if (sure === undefined || plants === 0) return seedsToSow(plants, germination, losses);
    const seeds = seedsToBeSure(roundUpToWhole(plants), germination * (1 - losses), sure);
    if (seeds === Infinity) {
      throw noAnswer(
        `more than ${MAX_FAILURES} seeds would fail; ask for parts of the sowing, or leave sure out`,
      );
    }
    return seeds;
  },
});

const trays = card({
  id: 'SEED.TRAYS',
  subject: 'Sowing and seed',
  summary: 'Trays needed for a number of seeds, one in a cell',
  searchWords: ['plug tray', 'module', 'cell tray', 'flats', 'seeds per tray', 'seed trays'],
  parameters: [
    number('seeds', 'seeds to sow', { unit: 'seeds', min: 0, max: MAX_SEEDS }),
    number('cells', 'cells in a tray', { min: 1, max: 2000, whole: true }),
  ],
  result: { kind: 'number', unit: 'trays', meaning: 'whole trays, rounded up' },
  method: 'Seeds divided by the cells of a tray, rounded up to whole trays.',
  formula: { trays: 'ROUNDUP(ROUND(seeds / cells, 6), 0)' },
  sources: [arithmetic],
  validity: 'One seed in a cell. For clusters give the number of clusters.',
  examples: [
    { args: [278, 72], result: 4, says: '278 seeds in trays of 72' },
    { args: [196, 98], result: 2, says: 'Two full trays of 98' },
    { args: [201, 200], result: 2, says: 'One seed too many for one tray of 200' },
  ],
  seeAlso: ['SEED.COUNT'],
  compute: traysFor,
});

export const seedCards: readonly ValueCard[] = [count, trays];
