/**
 * Farmed fish: limits, best temperatures, densities, feed and growth figures, each with where it comes from.
 *
 * Rules that hold for every row (a test checks them):
 *   vital_low <= feed_low < best_low <= best_high < feed_high <= vital_high, and feed rates fall with weight.
 *
 * Feed rates are the feed conversion times the daily growth at the best temperature (Haskell's rule, 1959),
 * growth from the species' own coefficient, so that growth, feed and conversion of a forecast agree with
 * each other. Small fish convert better: 0.85 of it at 5 g, 0.7 at 1 g. Tilapia up to 20 g have the rates of
 * SRAC 282 (from memory), which are somewhat higher; its rates for 250 to 450 g, 1.5 to 1 %, are below what
 * the published growth and conversion of the UVI trial ask for, and are not used.
 *
 * Where publications disagree: FAO 589 gives rainbow trout 10 to 18 degC, but growth was measured from 7 to
 * 19 degC (Dwyer et al.), so the limits here are wider. FAO AFFRIS lets carp feed from 18 degC on, Goolish
 * & Adelman measured growth at 12. McMahon & Terrell's model has channel catfish stop growing below 18 degC,
 * but catfish fed through a winter on days above 12 grew. FAO AFFRIS puts the best for barramundi at 28 to 32
 * degC, Queensland at 25 to 30: 27 to 30 is what feed intake and both agree on.
 */
import type { FactSource } from './standing';

/** One figure and where it comes from. */
export type Fact = readonly [value: number, source: FactSource];

const read = (text: string): FactSource => ({ text, standing: 'read' });
const derived = (text: string): FactSource => ({ text, standing: 'derived' });

const fao = 'Somerville et al. 2014, FAO Fish. Aquac. Tech. Pap. 589';
const faoRead = read(`${fao}, ch. 7`);
const faoMemory: FactSource = { text: `${fao}, Table 7.1`, standing: 'memory' };
const recalled: FactSource = { text: 'recalled from the trade literature', standing: 'memory' };
const practice: FactSource = { text: 'common practice, no source', standing: 'common practice' };
const kenya = read('Kenyan government fish-farming guide, tilapia environmental requirements');
const uvi = read(
  'Rakocy, Bailey, Shultz & Thoman 2004, Update on tilapia and vegetable production in the UVI aquaponic system, abstract',
);
const elSayed = read('El-Sayed 2006, Tilapia Culture, ch. 4');
const catfishModel = read(
  'McMahon & Terrell 1982, Habitat suitability index models: channel catfish',
);
const troutGrowth = read('extension page on trout growth: usual coefficients 1.3 to 2.0');
const troutHeat = read(
  'Wurtsbaugh & Davis 1977, J. Fish Biol. 11:87-98: fully fed trout grow faster up to 17 °C',
);
const troutFeed = read('extension text on trout feeds: 38 to 45 % protein for larger fish');
const mozambiqueCold = read(
  'study of breathing and heart rate of Tilapia mossambica: mass deaths at 13 °C and below',
);
const mozambiqueGrowth = read(
  'study of temperature and sex in Mozambique tilapia 2019: best at 30 to 32 of 28 to 36 °C',
);
const carpHeat = read(
  'Growth and nutrition of carp in heated effluents, Aston University 1979: best at 25 and 30 °C',
);
const carpProtein = read('FAO AFFRIS, common carp, nutritional requirements: 30 to 38 %');
const catfishWinter = read(
  'Winter feeding of channel catfish, SEAFWA 1974: fed on days above 54 °F (12 °C), they grew',
);
const teugels = read('Teugels 1986, as quoted: tolerates 8 to 35 °C, grows best at 28 to 30');
const clariasProtein = read(
  'Ali et al., Sarhad J. Agric. 40:595-602: 35 to 40 % protein for African catfish',
);
const agriFutures = read('AgriFutures Australia, barramundi: most feed taken at 27 to 29 °C');
const queenslandBarramundi = read(
  'Queensland Government, barramundi: ideal 25 to 30 °C, deaths below 13',
);
const barramundiProtein = read('FAO AFFRIS, barramundi: 40 to 45 % protein above 200 g');
const barramundiTrial = read(
  'Williams et al. 2006, Aquaculture Research: conversion 0.97 to 1.32 at 29 °C',
);
const bassStudy =
  'largemouth bass temperature study, World Aquaculture Society abstract: 1.113 %/day at 26.8 °C (60 g)';
const hybridText = read('text on hybrid striped bass culture (4-29 °C, best growth 25-27)');
const brazil = read(
  'Brazil, Nunley & Libey, Int. J. Recirc. Aquaculture (palmetto bass, three densities)',
);
const queensland = read('Queensland Government, jade perch');
const carpStudy = 'Goolish & Adelman 1984, Aquaculture 36:27-35';

/** What the table holds of each species, in the order in which sheets show it. */
export const fishFacts = {
  vital_low: { label: 'Coldest water it survives', unit: 'degC' },
  feed_low: { label: 'Stops feeding at or below', unit: 'degC' },
  best_low: { label: 'Best water from', unit: 'degC' },
  best_high: { label: 'Best water to', unit: 'degC' },
  feed_high: { label: 'Stops feeding at or above', unit: 'degC' },
  vital_high: { label: 'Warmest water it survives', unit: 'degC' },
  density_backyard: { label: 'Density with simple aeration', unit: 'kg/m3' },
  density_aerated: { label: 'Density, aerated commercial tank', unit: 'kg/m3' },
  protein: { label: 'Protein in the grow-out feed', unit: 'share' },
  fcr: { label: 'Feed conversion ratio', unit: 'g/g' },
  tgc: { label: 'Growth coefficient (thermal-unit, x1000)', unit: '' },
  harvest_weight: { label: 'Usual harvest weight', unit: 'g' },
  oxygen_least: { label: 'Oxygen at least', unit: 'mg/L' },
  tan_most: { label: 'Total ammonia-N at most', unit: 'mg/L' },
} as const;

export type FishFact = keyof typeof fishFacts;

/** Mean weights in g at which `feedRates` are given; between them straight lines, outside the end values. */
export const feedWeights = [1, 5, 20, 50, 100, 250, 500, 1000] as const;

export type FeedRates = readonly [number, number, number, number, number, number, number, number];

export interface Species {
  readonly name: string;
  /** Other names in use, British and American. */
  readonly aliases: readonly string[];
  readonly facts: Readonly<Record<FishFact, Fact>>;
  /** Feed a day as a share of body weight at best temperature, one for each of `feedWeights`. */
  readonly feedRates: FeedRates;
}

const backyard: Fact = [20, { text: `${fao}, ch. 2`, standing: 'memory' }];

export const species: readonly Species[] = [
  {
    name: 'Nile tilapia',
    aliases: ['tilapia', 'Oreochromis niloticus', 'nilotica'],
    facts: {
      vital_low: [14, faoRead],
      feed_low: [17, faoRead],
      best_low: [27, faoRead],
      best_high: [30, faoRead],
      feed_high: [35, elSayed],
      vital_high: [36, faoRead],
      density_backyard: backyard,
      density_aerated: [60, uvi],
      protein: [0.32, faoRead],
      fcr: [1.7, uvi],
      tgc: [
        1.1,
        derived('from 79 to 814 g in 24 weeks (UVI; 28 °C assumed): 1.07, and from 50 g: 1.20'),
      ],
      harvest_weight: [600, faoMemory],
      oxygen_least: [4, kenya],
      tan_most: [2, faoMemory],
    },
    feedRates: [0.15, 0.1, 0.065, 0.043, 0.034, 0.025, 0.02, 0.016],
  },
  {
    name: 'Mozambique tilapia',
    aliases: ['Oreochromis mossambicus', 'mossambica', 'mozambique bream', 'blue kurper'],
    facts: {
      vital_low: [13, mozambiqueCold],
      feed_low: [17, faoRead],
      best_low: [30, mozambiqueGrowth],
      best_high: [32, mozambiqueGrowth],
      feed_high: [37, recalled],
      vital_high: [39, recalled],
      density_backyard: backyard,
      density_aerated: [60, practice],
      protein: [0.32, practice],
      fcr: [1.8, recalled],
      tgc: [0.8, practice],
      harvest_weight: [350, practice],
      oxygen_least: [4, kenya],
      tan_most: [2, practice],
    },
    feedRates: [0.094, 0.067, 0.049, 0.036, 0.029, 0.021, 0.017, 0.013],
  },
  {
    name: 'common carp',
    aliases: ['carp', 'European carp', 'mirror carp', 'koi', 'Cyprinus carpio'],
    facts: {
      vital_low: [4, faoMemory],
      feed_low: [10, derived(`${carpStudy}: growth 0.71 %/day at 12 °C, none near 10`)],
      best_low: [25, carpHeat],
      best_high: [30, carpHeat],
      feed_high: [33, recalled],
      vital_high: [34, faoMemory],
      density_backyard: backyard,
      density_aerated: [50, practice],
      protein: [0.34, carpProtein],
      fcr: [1.8, recalled],
      tgc: [
        1,
        derived(
          'FAO AFFRIS: 1 to 1.2 kg in 5 to 7 warm months, 1.2 from 100 g on; fry trial of Desai & Singh 2009: 0.65',
        ),
      ],
      harvest_weight: [600, faoMemory],
      oxygen_least: [4, faoMemory],
      tan_most: [1, faoMemory],
    },
    feedRates: [0.1, 0.074, 0.055, 0.04, 0.032, 0.024, 0.019, 0.015],
  },
  {
    name: 'channel catfish',
    aliases: ['American catfish', 'channel cat', 'Ictalurus punctatus'],
    facts: {
      vital_low: [5, faoMemory],
      feed_low: [12, catfishWinter],
      best_low: [26, catfishModel],
      best_high: [29, catfishModel],
      feed_high: [33, practice],
      vital_high: [33.5, catfishModel],
      density_backyard: backyard,
      density_aerated: [50, practice],
      protein: [0.32, faoMemory],
      fcr: [1.7, recalled],
      tgc: [0.9, recalled],
      harvest_weight: [500, practice],
      oxygen_least: [5, catfishModel],
      tan_most: [1, faoMemory],
    },
    feedRates: [0.088, 0.063, 0.047, 0.034, 0.027, 0.02, 0.016, 0.013],
  },
  {
    name: 'African catfish',
    aliases: ['sharptooth catfish', 'African sharptooth catfish', 'clarias', 'Clarias gariepinus'],
    facts: {
      vital_low: [8, teugels],
      feed_low: [16, practice],
      best_low: [28, teugels],
      best_high: [30, teugels],
      feed_high: [34, practice],
      vital_high: [35, teugels],
      density_backyard: backyard,
      density_aerated: [100, recalled],
      protein: [0.38, clariasProtein],
      fcr: [1.1, recalled],
      tgc: [
        1.2,
        derived(
          'FAO AFFRIS: 1 g to about 1 kg in 10 months, 1.1; FAO w3595e ch. 6: 500 g in 6 months in ponds, 1.4',
        ),
      ],
      harvest_weight: [800, practice],
      oxygen_least: [3, practice],
      tan_most: [2, practice],
    },
    feedRates: [0.08, 0.057, 0.042, 0.031, 0.025, 0.018, 0.014, 0.011],
  },
  {
    name: 'rainbow trout',
    aliases: ['trout', 'steelhead', 'steelhead trout', 'Oncorhynchus mykiss'],
    facts: {
      vital_low: [1, recalled],
      feed_low: [4, practice],
      best_low: [14, faoMemory],
      best_high: [17, troutHeat],
      feed_high: [21, practice],
      vital_high: [24, recalled],
      density_backyard: backyard,
      density_aerated: [40, practice],
      protein: [0.42, troutFeed],
      fcr: [1.1, recalled],
      tgc: [1.6, troutGrowth],
      harvest_weight: [350, practice],
      oxygen_least: [6, faoMemory],
      tan_most: [0.5, faoMemory],
    },
    feedRates: [0.057, 0.041, 0.03, 0.022, 0.018, 0.013, 0.01, 0.0082],
  },
  {
    name: 'barramundi',
    aliases: ['Asian sea bass', 'giant perch', 'Lates calcarifer'],
    facts: {
      vital_low: [13, queenslandBarramundi],
      feed_low: [
        19,
        derived(
          'AgriFutures: hardly any feed taken at 20 °C; Williams et al. 2006: growth at 20 a quarter of that at 29',
        ),
      ],
      best_low: [27, agriFutures],
      best_high: [30, queenslandBarramundi],
      feed_high: [33, practice],
      vital_high: [34, faoMemory],
      density_backyard: backyard,
      density_aerated: [40, practice],
      protein: [0.43, barramundiProtein],
      fcr: [1.2, barramundiTrial],
      tgc: [
        1,
        derived(
          'Williams et al. 2006 at 29 °C: 1.1 to 1.3; FAO AFFRIS, 500 to 800 g in a year: 0.8',
        ),
      ],
      harvest_weight: [500, practice],
      oxygen_least: [4, faoMemory],
      tan_most: [1, faoMemory],
    },
    feedRates: [0.072, 0.051, 0.038, 0.028, 0.022, 0.016, 0.013, 0.01],
  },
  {
    name: 'largemouth bass',
    aliases: ['largemouth black bass', 'black bass', 'Micropterus salmoides'],
    facts: {
      vital_low: [3, recalled],
      feed_low: [10, practice],
      best_low: [25, derived(`${bassStudy}; growth within 5 % of its best`)],
      best_high: [28, derived(`${bassStudy}; growth within 5 % of its best`)],
      feed_high: [34, practice],
      vital_high: [36, recalled],
      density_backyard: backyard,
      density_aerated: [40, practice],
      protein: [0.45, practice],
      fcr: [1.4, recalled],
      tgc: [0.54, derived(bassStudy)],
      harvest_weight: [500, read('largemouth bass tank paper, introduction')],
      oxygen_least: [5, practice],
      tan_most: [1, practice],
    },
    feedRates: [0.042, 0.03, 0.022, 0.016, 0.013, 0.0095, 0.0076, 0.006],
  },
  {
    name: 'hybrid striped bass',
    aliases: ['striped bass hybrid', 'sunshine bass', 'palmetto bass', 'wiper'],
    facts: {
      vital_low: [4, hybridText],
      feed_low: [10, recalled],
      best_low: [25, hybridText],
      best_high: [27, hybridText],
      feed_high: [31, practice],
      vital_high: [33, recalled],
      density_backyard: backyard,
      density_aerated: [50, practice],
      protein: [0.4, practice],
      fcr: [1.4, brazil],
      tgc: [0.8, practice],
      harvest_weight: [600, practice],
      oxygen_least: [5, practice],
      tan_most: [1, practice],
    },
    feedRates: [0.061, 0.043, 0.032, 0.024, 0.019, 0.014, 0.011, 0.0087],
  },
  {
    name: 'jade perch',
    aliases: ['Barcoo grunter', 'Scortum barcoo'],
    facts: {
      vital_low: [13, queensland],
      feed_low: [16, queensland],
      best_low: [24, recalled],
      best_high: [28, recalled],
      feed_high: [34, practice],
      vital_high: [36, practice],
      density_backyard: backyard,
      density_aerated: [40, practice],
      protein: [0.38, practice],
      fcr: [1.4, recalled],
      tgc: [0.7, practice],
      harvest_weight: [500, practice],
      oxygen_least: [4, queensland],
      tan_most: [1, practice],
    },
    feedRates: [0.054, 0.038, 0.028, 0.021, 0.016, 0.012, 0.0096, 0.0076],
  },
];
