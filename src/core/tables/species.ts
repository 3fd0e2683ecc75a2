/**
 * Farmed fish: limits, best temperatures, densities, feed and growth figures, each with where it comes from.
 *
 * Rules that hold for every row (a test checks them):
 *   vital_low <= feed_low < best_low <= best_high < feed_high <= vital_high, and feed rates fall with weight.
 *
 * Feed rates are the feed conversion times the daily growth in the middle of the best range (Haskell's rule,
 * 1959), growth from the species' own coefficient, so that growth, feed and conversion agree with each other
 * at every weight and temperature (a test looks at all of them). Small fish convert better: 0.85 of it at
 * 5 g, 0.7 at 1 g, but never below 0.8. Tilapia up to 20 g have the rates of SRAC 282 (from memory), which are
 * somewhat higher; its rates for 250 to 450 g, 1.5 to 1 %, are below what the published growth and conversion
 * of the UVI trial ask for, and are not used.
 *
 * Where publications disagree: FAO 589 gives rainbow trout 10 to 18 degC, but growth was measured from 7 to
 * 19 degC (Dwyer et al.), so the limits here are wider. FAO AFFRIS lets carp feed from 18 degC on, Goolish
 * & Adelman measured growth at 12; carp fry at 32 grew by 0.93 of their growth at 28 (Desai & Singh 2009).
 * McMahon & Terrell's model has channel catfish stop growing below 18 degC, but catfish fed through a winter
 * on days above 12 grew; it calls 33.5 degC lethal for fish used to 25, while others fed and grew in tanks
 * that swung from 31 to 35. FAO 589 gives Nile tilapia 27 to 30 degC, SRAC 283 29 to 31; juveniles grew half
 * as fast again at 32 as at 24 (Workagegn 2012), and growth was flat from 29 to 32 (Al-Asgah & Ali 1997).
 * FAO AFFRIS puts the best for barramundi at 28 to 32 degC, Queensland at 25 to 30; juveniles grew fastest at
 * 31.4 and within a tenth of it over 8 degC (Katersky & Carter 2007).
 *
 * Improved strains and hybrids whose growth is another's are entries of their own.
 */
import type { FactSource } from './evidence';

/** One figure and where it comes from. */
export type Fact = readonly [value: number, source: FactSource];

const read = (text: string): FactSource => ({ text, evidence: 'read' });
const derived = (text: string): FactSource => ({ text, evidence: 'derived' });

const fao = 'Somerville et al. 2014, FAO Fish. Aquac. Tech. Pap. 589';
const faoRead = read(`${fao}, ch. 7`);
const faoMemory: FactSource = { text: `${fao}, Table 7.1`, evidence: 'memory' };
const recalled: FactSource = { text: 'recalled from the trade literature', evidence: 'memory' };
const practice: FactSource = { text: 'common practice, no source', evidence: 'common practice' };
const kenya = read('Kenyan government fish-farming guide, tilapia environmental requirements');
const uvi = read(
  'Rakocy, Bailey, Shultz & Thoman 2004, Update on tilapia and vegetable production in the UVI aquaponic system, abstract',
);
const tilapiaBest = read('text of SRAC 283: tilapia grow best at 85 to 88 °F (29 to 31 °C)');
const tilapiaWarm = derived(
  'Workagegn 2012: juveniles grew best at 32 °C, with skin reddening at 34; FAO 589: dies above 36',
);
const catfishModel = read(
  'McMahon & Terrell 1982, Habitat suitability index models: channel catfish',
);
const troutGrowth = read('extension page on trout growth: usual coefficients 1.3 to 2.0');
const troutHeat = read(
  'Wurtsbaugh & Davis 1977, J. Fish Biol. 11:87-98: fully fed trout grow faster up to 17 °C',
);
const troutCold: FactSource = {
  text: 'Timmons & Ebeling, Recirculating Aquaculture: trout grow in length from 0 °C on',
  evidence: 'memory',
};
const troutFeed = read('extension text on trout feeds: 38 to 45 % protein for larger fish');
const improvedTilapia = derived(
  'improved strain in indoor recirculation, 8.39 g for 210 days: 1.38 at 22 °C, 1.31 at 30',
);
const mozambiqueCold = read(
  'study of breathing and heart rate of Tilapia mossambica: mass deaths at 13 °C and below',
);
const mozambiqueGrowth = read(
  'study of temperature and sex in Mozambique tilapia 2019: best at 30 to 32 of 28 to 36 °C',
);
const carpHeat = read(
  'Growth and nutrition of carp in heated effluents, Aston University 1979: best at 25 and 30 °C',
);
const carpWarm = derived(
  'Desai & Singh 2009: carp fry grew by 3.57 %/day at 32 °C against 3.82 at 28; FAO 589: dies above 34',
);
const carpProtein = read('FAO AFFRIS, common carp, nutritional requirements: 30 to 38 %');
const catfishWinter = read(
  'Winter feeding of channel catfish, SEAFWA 1974: fed on days above 54 °F (12 °C), they grew',
);
const catfishWarm = derived(
  'trial of daily swings: channel catfish fed and grew at 31 to 35 °C, less than at 27 to 31, and more died',
);
const teugels = read('Teugels 1986, as quoted: tolerates 8 to 35 °C, grows best at 28 to 30');
const clariasProtein = read(
  'Ali et al., Sarhad J. Agric. 40:595-602: 35 to 40 % protein for African catfish',
);
const agriFutures = read('AgriFutures Australia, barramundi: most feed taken at 27 to 29 °C');
const queenslandBarramundi = read(
  'Queensland Government, barramundi: ideal 25 to 30 °C, deaths below 13',
);
const barramundiBest = read('FAO AFFRIS, barramundi: best at 28 to 32 °C');
const barramundiWarm = derived(
  'Katersky & Carter 2007: juveniles grew by nine tenths of the best over 8 °C around 31.4 °C',
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
  oxygen_critical: { label: 'Oxygen at which it is in danger', unit: 'mg/L' },
  tan_most: { label: 'Total ammonia-N at most', unit: 'mg/L' },
  unionised_most: { label: 'Un-ionised ammonia-N harms from', unit: 'mg/L' },
  nitrite_most: { label: 'Nitrite-N at most', unit: 'mg/L' },
  carbon_dioxide_most: { label: 'Carbon dioxide at most', unit: 'mg/L' },
  handling_low: { label: 'Not handled in water below', unit: 'degC' },
  handling_high: { label: 'Not handled in water above', unit: 'degC' },
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

const backyard: Fact = [20, { text: `${fao}, ch. 2`, evidence: 'memory' }];

/** Limits of water for warm-water fish in general, where a species has no other of its own. */
const warmWater = {
  unionised_most: [
    0.05,
    read('UF/IFAS FA16, Ammonia in aquatic systems: damage to gills begins at 0.05 mg/L'),
  ],
  nitrite_most: [1, read('FAO Technical Paper 589: harmful above 1 mg/L')],
  carbon_dioxide_most: [20, read('Clinical Guide to Fish Medicine: aim below 20 mg/L')],
} as const satisfies Partial<Record<FishFact, Fact>>;
const tilapiaHandling = derived(
  'text of SRAC 283: tilapia that are handled below 65 °F (18.3 °C) die',
);
const jadeHandling = derived(
  'Queensland Government, jade perch: fish that are handled at 17 °C and below die',
);
const catfishNitrite = derived(
  'Tomasso 1986: of the species compared the most sensitive to nitrite; half of what is usual',
);
/** FAO 589, table 3.1, and the trade's manuals on trout, both recalled. */
const troutWater: FactSource = {
  text: 'manuals on trout and FAO Technical Paper 589, table 3.1, cold-water fish',
  evidence: 'memory',
};

const nileTilapia: Species = {
  name: 'Nile tilapia',
  aliases: ['tilapia', 'Oreochromis niloticus', 'nilotica'],
  facts: {
    vital_low: [14, faoRead],
    feed_low: [17, faoRead],
    best_low: [27, faoRead],
    best_high: [31, tilapiaBest],
    feed_high: [36, tilapiaWarm],
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
    oxygen_critical: [2, practice],
    tan_most: [2, faoMemory],
    ...warmWater,
    handling_low: [18.3, tilapiaHandling],
    handling_high: [34, tilapiaWarm],
  },
  feedRates: [0.15, 0.1, 0.065, 0.043, 0.034, 0.025, 0.02, 0.016],
};

const rainbowTrout: Species = {
  name: 'rainbow trout',
  aliases: ['trout', 'steelhead', 'steelhead trout', 'Oncorhynchus mykiss'],
  facts: {
    vital_low: [1, recalled],
    feed_low: [2, troutCold],
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
    oxygen_critical: [5, practice],
    tan_most: [0.5, faoMemory],
    unionised_most: [0.0125, troutWater],
    nitrite_most: [0.1, troutWater],
    carbon_dioxide_most: [15, troutWater],
    handling_low: [2, practice],
    handling_high: [20, practice],
  },
  feedRates: [0.067, 0.044, 0.03, 0.022, 0.018, 0.013, 0.01, 0.0082],
};

export const species: readonly Species[] = [
  nileTilapia,
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
      oxygen_critical: [2, practice],
      tan_most: [2, practice],
      ...warmWater,
      handling_low: [18.3, tilapiaHandling],
      handling_high: [35, practice],
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
      feed_high: [34, carpWarm],
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
      oxygen_critical: [2, practice],
      tan_most: [1, faoMemory],
      ...warmWater,
      handling_low: [5, practice],
      handling_high: [32, practice],
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
      best_high: [30, faoMemory],
      feed_high: [35, catfishWarm],
      vital_high: [36, catfishWarm],
      density_backyard: backyard,
      density_aerated: [50, practice],
      protein: [0.32, faoMemory],
      fcr: [1.7, recalled],
      tgc: [0.9, recalled],
      harvest_weight: [500, practice],
      oxygen_least: [5, catfishModel],
      oxygen_critical: [2.5, practice],
      tan_most: [1, faoMemory],
      ...warmWater,
      nitrite_most: [0.5, catfishNitrite],
      handling_low: [10, practice],
      handling_high: [32, practice],
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
      oxygen_critical: [2.5, practice],
      tan_most: [2, practice],
      ...warmWater,
      handling_low: [16, practice],
      handling_high: [33, practice],
    },
    feedRates: [0.09, 0.062, 0.042, 0.031, 0.025, 0.018, 0.014, 0.011],
  },
  rainbowTrout,
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
      best_high: [32, barramundiBest],
      feed_high: [37, barramundiWarm],
      vital_high: [38, barramundiWarm],
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
      oxygen_critical: [3, practice],
      tan_most: [1, faoMemory],
      ...warmWater,
      handling_low: [20, practice],
      handling_high: [34, practice],
    },
    feedRates: [0.082, 0.055, 0.039, 0.029, 0.023, 0.017, 0.0134, 0.0106],
  },
  {
    name: 'largemouth bass',
    aliases: ['largemouth black bass', 'black bass', 'Micropterus salmoides'],
    facts: {
      vital_low: [3, recalled],
      feed_low: [12, derived(`${bassStudy}; growth a third of its best at 15 °C`)],
      best_low: [25, derived(`${bassStudy}; growth within 5 % of its best`)],
      best_high: [28, derived(`${bassStudy}; growth within 5 % of its best`)],
      feed_high: [
        35.5,
        read(
          'largemouth bass at 35 °C, Aquaculture Reports 2021, abstract: less than 0.21 % of their weight a day',
        ),
      ],
      vital_high: [36, recalled],
      density_backyard: backyard,
      density_aerated: [40, practice],
      protein: [0.45, practice],
      fcr: [1.4, recalled],
      tgc: [0.54, derived(bassStudy)],
      harvest_weight: [500, read('largemouth bass tank paper, introduction')],
      oxygen_least: [5, practice],
      oxygen_critical: [3, practice],
      tan_most: [1, practice],
      ...warmWater,
      handling_low: [5, practice],
      handling_high: [30, practice],
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
      oxygen_critical: [3, practice],
      tan_most: [1, practice],
      ...warmWater,
      handling_low: [6, practice],
      handling_high: [28, practice],
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
      oxygen_critical: [3, practice],
      tan_most: [1, practice],
      ...warmWater,
      handling_low: [17.5, jadeHandling],
      handling_high: [33, practice],
    },
    feedRates: [0.054, 0.038, 0.028, 0.021, 0.016, 0.012, 0.0096, 0.0076],
  },
  {
    name: 'improved Nile tilapia',
    aliases: ['improved tilapia', 'selected Nile tilapia', 'selected tilapia'],
    facts: {
      ...nileTilapia.facts,
      best_low: [
        24,
        derived(
          'improved strain in recirculation: length grew 0.78 times as fast at 22 °C as at 30, which the thermal-unit rule from 24 °C on gives within 6 %',
        ),
      ],
      fcr: [1.5, practice],
      tgc: [1.3, improvedTilapia],
      harvest_weight: [800, practice],
    },
    feedRates: [0.125, 0.083, 0.06, 0.044, 0.035, 0.0255, 0.0203, 0.0161],
  },
  {
    name: 'red tilapia',
    aliases: ['red hybrid tilapia', 'Florida red tilapia'],
    facts: {
      ...nileTilapia.facts,
      density_aerated: [70, uvi],
      fcr: [1.8, uvi],
      tgc: [0.9, derived('from 59 to 512 g in 24 weeks (UVI; 28 °C assumed): 0.87')],
      harvest_weight: [500, uvi],
    },
    feedRates: [0.1, 0.07, 0.052, 0.038, 0.0304, 0.0224, 0.0178, 0.0141],
  },
  {
    name: 'improved rainbow trout',
    aliases: ['improved trout', 'selected rainbow trout', 'selected trout', 'all-female trout'],
    facts: {
      ...rainbowTrout.facts,
      tgc: [
        1.9,
        derived(
          'Davidson et al. 2014: all-female fish to about 5 kg at 13 °C in recirculation, 22 months after hatch',
        ),
      ],
      harvest_weight: [1000, practice],
    },
    feedRates: [0.08, 0.053, 0.0358, 0.0264, 0.0209, 0.0154, 0.0122, 0.0097],
  },
];
