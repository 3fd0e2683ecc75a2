import { farOut, fishToWeigh, MIDDLE, nearMiddle, wilsonInterval } from '../core/certainty';
import { wrongValue } from '../core/errors';
import { card, type Source, type ValueCard } from './card';
import { fishAbove, MAX_SPREAD } from '../core/grading';
import { MAX_FISH, MAX_GRAMS, weight } from './fish-parameters';
import { choice, number } from './parameter';

const wichura: Source = {
  author: 'Wichura',
  year: 1988,
  title: 'The percentage points of the normal distribution, Applied Statistics 37:477 (AS 241)',
  where: 'PPND7',
  evidence: 'memory',
};
const wilson: Source = {
  author: 'Wilson',
  year: 1927,
  title: 'Probable inference, J. American Statistical Association 22:209',
  where: 'score interval',
  evidence: 'memory',
};
const sampleRule: Source = {
  author: 'Normal sample-size rule',
  year: '',
  title: '(z x coefficient of variation / error) squared, with the correction for a finite stock',
  where: '97 fish for 5 % where the weights vary by 25 %',
  evidence: 'definition',
};

const normalTable: Source = {
  author: 'Math.com',
  year: '',
  title: 'z-distribution, standard normal probabilities',
  where: 'table of the area below z, five decimals',
  evidence: 'read',
};
const hart: Source = {
  author: 'Hart and others',
  year: 1968,
  title: 'Computer Approximations',
  where: 'algorithm 5666 for the area of the tail, as in West 2005',
  evidence: 'memory',
};

/** Highest power first: the area beyond z is exp(-z²/2) times one over the other, to fourteen digits. */
const tailAbove = [
  0.0352624965998911, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871,
  221.213596169931, 220.206867912376,
];
const tailBelow = [
  0.0883883476483184, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674,
  637.333633378831, 793.826512519948, 440.413735824752,
];

const power = (powers: readonly number[], x: string): string =>
  powers.reduce(
    (sum, coefficient) => (sum === '' ? `${coefficient}` : `(${sum}) * ${x} + ${coefficient}`),
    '',
  );

/** Standard deviations for a certainty, for both cards. */
const deviations = {
  z: `IF(sure <= ${MIDDLE}, near, far)`,
  near: `sure / 2 * (${power(nearMiddle.above, 'u')}) / (${power(nearMiddle.below, 'u')})`,
  u: `${MIDDLE ** 2 / 4} - (sure / 2)^2`,
  far: `(${power(farOut.above, 'v')}) / (${power(farOut.below, 'v')})`,
  v: 'SQRT(0 - LN((1 - sure) / 2)) - 1.6',
} as const;

const symbols = {
  z: 'standard deviations of the normal distribution for that certainty: 1.96 for 0.95',
  u: 'how far the certainty lies within the middle of the distribution',
  v: 'how far out it lies',
};

const sure = number('sure', 'how sure the answer is to be', {
  unit: 'share',
  min: 0.5,
  max: 0.9999,
  default: 0.95,
});

const ends = { lowest: ['low', 'lower', 'least'], highest: ['high', 'upper', 'most'] } as const;

const certain = card({
  id: 'SEED.CERTAIN',
  subject: 'Sowing and seed',
  summary: 'How low or high the true germination may be after a test of a few seeds',
  searchWords: [
    'germination test',
    'confidence interval',
    'how many came up',
    'certainty',
    'old seed',
  ],
  parameters: [
    number('came_up', 'seeds that came up', { unit: 'seeds', min: 0, max: 1e6, whole: true }),
    number('tested', 'seeds that were tested', { unit: 'seeds', min: 1, max: 1e6, whole: true }),
    sure,
    choice('limit', 'which end of the interval', ends, {
      default: 'lowest',
      defaultText: 'lowest, to sow by',
    }),
  ],
  result: { kind: 'number', unit: 'share', meaning: 'share of the seed that comes up' },
  method:
    'Score interval of Wilson: of so many seeds, those that came up, and the standard deviations that the certainty asks for. Losses count in the same way: fish that lived of fish stocked.',
  formula: {
    share:
      'IF(came_up > tested, VALUE("came_up must be at most tested"), MAX(0, MIN(1, (2 * came_up + z^2 + side * z * SQRT(z^2 + 4 * came_up * (1 - came_up / tested))) / (2 * (tested + z^2)))))',
    side: 'SWITCH(limit, "lowest", 0 - 1, "highest", 1)',
    ...deviations,
  },
  symbols,
  sources: [wilson, wichura],
  validity:
    'Each seed for itself; seeds of one tray share its luck, which widens it. The exact binomial limits (Clopper & Pearson 1934) are wider by up to 0.02 at 25 seeds.',
  examples: [
    {
      args: [45, 50],
      result: 0.7864,
      tolerance: 2e-5,
      says: '45 of 50 seeds came up: sow as if 79 % did',
    },
    {
      args: [45, 50, 0.95, 'highest'],
      result: 0.95652,
      tolerance: 2e-5,
      says: 'They may be as good as 96 %',
    },
    { args: [0, 30, 0.9], result: 0, says: 'None of 30: it may be that none ever does' },
  ],
  seeAlso: ['SEED.COUNT'],
  compute: (came, tested, certainty, limit) => {
    if (came > tested) throw wrongValue(`came_up must be at most tested (${tested}); got ${came}`);
    return wilsonInterval(came, tested, certainty)[limit === 'lowest' ? 0 : 1];
  },
});

const sample = card({
  id: 'STOCK.SAMPLE',
  subject: 'Stock',
  summary: 'Fish to weigh so that their mean weight is right within a share of it',
  searchWords: ['sample size', 'how many fish', 'weighing', 'sampling', 'mean weight', 'certainty'],
  parameters: [
    number('within', 'how far the mean may be off, a share of it', {
      unit: 'share',
      min: 0.001,
      max: 0.5,
    }),
    number('spread', 'spread of the weights: standard deviation over mean', {
      unit: 'share',
      min: 0.01,
      max: 1.5,
      default: 0.2,
      defaultText: '0.2; African catfish 0.3',
    }),
    sure,
    number('fish', 'fish in the tank', {
      unit: 'fish',
      min: 1,
      max: MAX_FISH,
      optional: true,
      defaultText: 'very many',
    }),
  ],
  result: { kind: 'number', unit: 'fish', meaning: 'whole fish, rounded up' },
  method:
    'The standard deviations that the certainty asks for, times spread over error, squared; of a small stock fewer do.',
  formula: {
    fish_to_weigh: 'ROUNDUP(ROUND(IF(fish = "", n, n / (1 + n / fish)), 6), 0)',
    n: '(z * spread / within)^2',
    ...deviations,
  },
  symbols: { ...symbols, n: 'fish of a stock without end' },
  sources: [sampleRule, wichura],
  validity:
    'Fish netted by chance, from several depths. Weigh them in bulk by counted batches; the spread comes from a few single weighings. The spread of a graded group is smaller, that of fish that eat each other larger.',
  dangers: ['wounds'],
  examples: [
    {
      args: [0.05, 0.25],
      result: 97,
      says: '97 fish for ±5 % where weights vary by 25 % (normal sample-size rule)',
    },
    { args: ['5 %', '25 %', null, 200], result: 65, says: 'Of 200 in the tank 65 do' },
    { args: [0.1], result: 16, says: '16 for ±10 % at the usual spread' },
  ],
  seeAlso: ['GROWTH.COEFFICIENT', 'STOCK.DENSITY'],
  compute: (within, spread, certainty, fish) =>
    fishToWeigh(within, spread, certainty, fish ?? Infinity),
});

const above = card({
  id: 'STOCK.ABOVE',
  subject: 'Stock',
  summary: 'Fish of a group that weigh more than a size, from their mean weight and spread',
  searchWords: [
    'grading',
    'size distribution',
    'how many are big enough',
    'market size',
    'top third',
    'variation',
    'uneven fish',
  ],
  parameters: [
    number('fish', 'fish in the group', { unit: 'fish', min: 0, max: MAX_FISH, whole: true }),
    weight,
    number('size', 'size above which fish count', { unit: 'g', above: 0, max: MAX_GRAMS }),
    number('spread', 'spread of the weights: standard deviation over mean', {
      unit: 'share',
      min: 0.01,
      max: MAX_SPREAD,
      default: 0.2,
      defaultText: '0.2; African catfish 0.3',
    }),
  ],
  result: { kind: 'number', unit: 'fish', meaning: 'whole fish, rounded' },
  method:
    'Weights are taken as normally distributed about the mean: how many standard deviations the size lies from it says which share is above.',
  formula: {
    heavier: 'INT(ROUND(fish * IF(weight > size, 1 - tail, tail) + 0.5, 6))',
    tail: `EXP(0 - z^2 / 2) * (${power(tailAbove, 'z')}) / (${power(tailBelow, 'z')})`,
    z: 'MIN(8, MAX(weight - size, size - weight) / (spread * weight))',
  },
  symbols: {
    tail: 'share beyond so many standard deviations, on one side',
    z: 'standard deviations between the mean and the size; beyond 8 nobody is left',
  },
  sources: [normalTable, hart],
  validity:
    'A group that was stocked together and not graded since: what was graded is cut off on one side. Take the spread from a few dozen single weighings; above 0.5 the distribution is another.',
  dangers: ['wounds'],
  examples: [
    {
      args: [1000, 400, 500, 0.25],
      result: 159,
      says: '1000 fish of 400 g, a quarter of spread: one standard deviation above the mean, 15.9 % are left (published tables of the normal distribution)',
    },
    {
      args: [900, '2 kg', '2 kg', '25 %'],
      result: 450,
      says: 'Half of them weigh more than the mean',
    },
    {
      args: [640, 550, 450],
      result: 524,
      says: '640 fish of 550 g at the usual spread: 524 are above 450 g',
    },
  ],
  seeAlso: ['STOCK.SAMPLE', 'GROWTH.DAYS'],
  compute: (fish, mean, size, spread) => fishAbove({ fish, weight: mean, spread }, size),
});

export const certaintyCards: readonly ValueCard[] = [certain, sample, above];
