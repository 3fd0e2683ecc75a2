/**
 * Growth as published trials found it, beside what the functions answer for the same fish and water. None of the
 * figures of the species table was fitted to the trial it is compared with, unless `because` says so. A trial
 * whose temperature was not seen is taken at the species' usual one, and its band is wider.
 */
import { feedRate } from '../core/feeding';
import { daysToGrow, growingTemperature, grownWeight } from '../core/growth';
import { species, type Species } from '../core/tables/species';

interface Trial {
  /** An entry of the species table. */
  readonly species: string;
  readonly what: string;
  readonly source: string;
  readonly evidence: 'read' | 'derived' | 'memory';
  /** Least and most of model / published that counts as agreement. */
  readonly band: readonly [number, number];
  /** Why it may lie outside the band, or what was assumed. */
  readonly because?: string;
  /** The ratio lies outside the band, for the reason in `because`. */
  readonly outside?: true;
}

/** Days from one weight to another. */
export interface GrowthTrial extends Trial {
  /** g */
  readonly from: number;
  readonly to: number;
  readonly days: number;
  /** degC */
  readonly water: number;
}

/** Growth of a day at one temperature against that at another, at equal weight. */
export interface TemperatureTrial extends Trial {
  readonly water: number;
  readonly against: number;
  /** Published share. */
  readonly share: number;
}

/** Feed over gain from one weight to another. */
export interface ConversionTrial extends Trial {
  readonly from: number;
  readonly to: number;
  readonly water: number;
  readonly conversion: number;
}

const known: readonly [number, number] = [0.8, 1.25];
const assumed: readonly [number, number] = [0.7, 1.4];

const improvedTrial =
  'improved tilapia in indoor recirculation, 210 days at three temperatures, abstract';
const workagegn = 'Workagegn 2012, Int. J. Aquaculture 2(9):59-64, abstract';
const uvi =
  'Rakocy, Bailey, Shultz & Thoman 2004, abstract (weights at stocking: SRAC 454, recalled)';
const uvi1997 =
  'Rakocy, Bailey, Shultz & Cole, Evaluation of a commercial-scale aquaponic unit, abstract';
const threeTables = 'Nozzi, Graber, Schmautz, Mathis & Junge 2018, Agronomy 8:27, Tables 2 and 4';
const goolish = 'Goolish & Adelman 1984, Aquaculture 36:27-35, abstract';
const bass = 'largemouth bass temperature study, World Aquaculture Society abstract, its cubic';

export const growthTrials: readonly GrowthTrial[] = [
  {
    species: 'Nile tilapia',
    what: 'raft system, twenty harvests',
    from: 79.2,
    to: 813.8,
    days: 168,
    water: 28,
    source: uvi,
    evidence: 'derived',
    band: known,
    because: 'the coefficient of the table rests on this trial; 28 °C assumed',
  },
  {
    species: 'red tilapia',
    what: 'earlier raft system, eleven harvests',
    from: 43.4,
    to: 487.2,
    days: 168,
    water: 28,
    source: uvi1997,
    evidence: 'derived',
    band: known,
    because: '28 °C assumed',
  },
  {
    species: 'Nile tilapia',
    what: 'summer greenhouse, feed alone',
    from: 248,
    to: 492,
    days: 57,
    water: 27,
    source: threeTables,
    evidence: 'read',
    band: assumed,
    because: 'the temperature was not seen',
  },
  {
    species: 'improved Nile tilapia',
    what: 'film channels without a sump',
    from: 78.1,
    to: 242.9,
    days: 49,
    water: 28,
    source: 'Castillo-Castellanos et al. 2016, Aquacult. Int., abstract and Table 3',
    evidence: 'read',
    band: assumed,
    because: 'the temperature was not seen',
  },
  {
    species: 'improved Nile tilapia',
    what: 'recirculation at 22 °C, fed to appetite',
    from: 8.39,
    to: 597.84,
    days: 210,
    water: 22,
    source: improvedTrial,
    evidence: 'read',
    band: known,
    because: 'the coefficient of the table rests on this trial',
  },
  {
    species: 'improved Nile tilapia',
    what: 'recirculation at 30 °C, fed to appetite',
    from: 8.39,
    to: 1079.39,
    days: 210,
    water: 30,
    source: improvedTrial,
    evidence: 'read',
    band: known,
    because: 'the coefficient of the table rests on this trial',
  },
  {
    species: 'Nile tilapia',
    what: 'juveniles at 24 °C',
    from: 4.19,
    to: 29.32,
    days: 90,
    water: 24,
    source: workagegn,
    evidence: 'read',
    band: known,
    outside: true,
    because: 'unselected fish on 27 % protein with a conversion of 2.4 and more',
  },
  {
    species: 'Nile tilapia',
    what: 'juveniles at 32 °C',
    from: 4.19,
    to: 57.24,
    days: 90,
    water: 32,
    source: workagegn,
    evidence: 'read',
    band: known,
    outside: true,
    because: 'unselected fish on 27 % protein with a conversion of 2.4 and more',
  },
  {
    species: 'channel catfish',
    what: 'recirculation at 27 °C, 14 weeks',
    from: 111.4,
    to: 363.6,
    days: 98,
    water: 27,
    source: 'channel catfish at 22, 27 and 32 °C, abstract',
    evidence: 'read',
    band: known,
  },
  {
    species: 'African catfish',
    what: 'good farms, ten months',
    from: 1,
    to: 1000,
    days: 300,
    water: 27,
    source: 'FAO AFFRIS, North African catfish',
    evidence: 'derived',
    band: assumed,
    because: 'the temperature was not seen; the coefficient of the table rests on it',
  },
  {
    species: 'African catfish',
    what: 'fingerlings in indoor tanks, eight weeks',
    from: 11.32,
    to: 174.95,
    days: 56,
    water: 28,
    source: 'fingerling African catfish in indoor and outdoor tanks, abstract',
    evidence: 'read',
    band: assumed,
    outside: true,
    because:
      'fingerlings thinned by cannibals, 81 % alive, grew twice as fast as farms do to market weight; the temperature was not seen',
  },
  {
    species: 'rainbow trout',
    what: 'recirculation, ten and a half months',
    from: 37.8,
    to: 552.2,
    days: 317,
    water: 15,
    source: 'Arredondo-Figueroa et al. 2017, Agric. Sciences 8(7), abstract',
    evidence: 'read',
    band: assumed,
    outside: true,
    because: 'the temperature was not seen: at 10 °C the days would agree',
  },
  {
    species: 'rainbow trout',
    what: 'farm at 15 °C, from first feed to twelve months after hatch',
    from: 0.1,
    to: 900,
    days: 335,
    water: 15,
    source: 'FAO AFFRIS, rainbow trout: 800 to 1000 g',
    evidence: 'derived',
    band: known,
  },
  {
    species: 'rainbow trout',
    what: 'fast trout at 11 °C',
    from: 10,
    to: 350,
    days: 200,
    water: 11,
    source: 'extension page on growth coefficients',
    evidence: 'read',
    band: assumed,
    because: 'its coefficient of 2.2 is above the usual 1.3 to 2.0',
  },
  {
    species: 'barramundi',
    what: 'tanks at 22 to 27 °C, a year',
    from: 1,
    to: 500,
    days: 365,
    water: 24.5,
    source: 'FAO AFFRIS, barramundi',
    evidence: 'derived',
    band: assumed,
    because: 'weight at stocking assumed, temperature the middle of what is printed',
  },
  {
    species: 'barramundi',
    what: 'tanks in warmer water, a year',
    from: 1,
    to: 800,
    days: 365,
    water: 30,
    source: 'FAO AFFRIS, barramundi',
    evidence: 'derived',
    band: assumed,
    because: 'weight at stocking assumed, temperature the middle of the best',
  },
  {
    species: 'common carp',
    what: 'low-technology units, fewer fish',
    from: 180,
    to: 515,
    days: 133,
    water: 26,
    source: 'Maucieri et al. 2019, PLoS ONE, abstract (weight at stocking and days derived)',
    evidence: 'derived',
    band: assumed,
    outside: true,
    because:
      'small units with weak filters, where more fish grew more slowly still; the temperature was not seen',
  },
];

export const temperatureTrials: readonly TemperatureTrial[] = [
  {
    species: 'improved Nile tilapia',
    what: '22 against 30 °C',
    water: 22,
    against: 30,
    share: 0.777,
    source: improvedTrial,
    evidence: 'derived',
    band: known,
  },
  {
    species: 'Nile tilapia',
    what: '22 against 30 °C, total gain three times as large',
    water: 22,
    against: 30,
    share: 0.693,
    source: 'text of SRAC 283, read as total gain',
    evidence: 'derived',
    band: known,
  },
  {
    species: 'Nile tilapia',
    what: '24 against 32 °C, juveniles',
    water: 24,
    against: 32,
    share: 0.656,
    source: workagegn,
    evidence: 'derived',
    band: assumed,
    because: 'the whole of the fall is one trial of small, slow fish',
  },
  {
    species: 'common carp',
    what: '12 against 30 °C, juveniles',
    water: 12,
    against: 30,
    share: 0.214,
    source: goolish,
    evidence: 'derived',
    band: known,
  },
  {
    species: 'common carp',
    what: '18 against 30 °C, juveniles',
    water: 18,
    against: 30,
    share: 0.696,
    source: goolish,
    evidence: 'derived',
    band: known,
  },
  {
    species: 'common carp',
    what: '24 against 30 °C, juveniles',
    water: 24,
    against: 30,
    share: 0.94,
    source: goolish,
    evidence: 'derived',
    band: known,
  },
  {
    species: 'common carp',
    what: '32 against 28 °C, fry',
    water: 32,
    against: 28,
    share: 0.935,
    source: 'Desai & Singh 2009, J. Thermal Biology 34:276-280, abstract',
    evidence: 'derived',
    band: assumed,
  },
  {
    species: 'barramundi',
    what: '20 against 29 °C',
    water: 20,
    against: 29,
    share: 0.25,
    source: 'Williams et al. 2006, Aquaculture Research',
    evidence: 'read',
    band: assumed,
    because: 'so near the limit of feeding half a degree changes it by half',
  },
  {
    species: 'barramundi',
    what: '27 against 31.4 °C, juveniles',
    water: 27,
    against: 31.4,
    share: 0.879,
    source: 'Katersky & Carter 2007, Aquaculture 272:444-450, abstract, its parabola',
    evidence: 'derived',
    band: known,
  },
  {
    species: 'largemouth bass',
    what: '20 against 26.8 °C',
    water: 20,
    against: 26.8,
    share: 0.701,
    source: bass,
    evidence: 'derived',
    band: known,
  },
  {
    species: 'largemouth bass',
    what: '33 against 26.8 °C',
    water: 33,
    against: 26.8,
    share: 0.555,
    source: bass,
    evidence: 'derived',
    band: known,
  },
];

export const conversionTrials: readonly ConversionTrial[] = [
  {
    species: 'Nile tilapia',
    what: 'raft system, twenty harvests',
    from: 79.2,
    to: 813.8,
    water: 28,
    conversion: 1.7,
    source: uvi,
    evidence: 'read',
    band: known,
    because: 'the conversion of the table is this one',
  },
  {
    species: 'red tilapia',
    what: 'earlier raft system, eleven harvests',
    from: 43.4,
    to: 487.2,
    water: 28,
    conversion: 1.76,
    source: uvi1997,
    evidence: 'read',
    band: known,
  },
  {
    species: 'improved Nile tilapia',
    what: 'summer greenhouse, three systems',
    from: 235,
    to: 460,
    water: 27,
    conversion: 1.3,
    source: threeTables,
    evidence: 'read',
    band: known,
    because: 'the strain and the temperature were not seen',
  },
  {
    species: 'channel catfish',
    what: 'recirculation at 27 °C, 14 weeks',
    from: 111.4,
    to: 363.6,
    water: 27,
    conversion: 1.3,
    source: 'channel catfish at 22, 27 and 32 °C, abstract',
    evidence: 'read',
    band: assumed,
    because: 'fish of a trial, fed by hand; farms reach 1.5 to 2.0',
  },
  {
    species: 'African catfish',
    what: 'shallow troughs with water spinach',
    from: 30,
    to: 200,
    water: 28,
    conversion: 1.25,
    source: 'Endut et al. 2016, Desalin. Water Treat. 57:29531, abstract: 1.18 to 1.33',
    evidence: 'read',
    band: known,
    because: 'weights and temperature were not seen',
  },
  {
    species: 'common carp',
    what: 'low-technology units, fewer fish',
    from: 180,
    to: 515,
    water: 26,
    conversion: 1.55,
    source: 'Maucieri et al. 2019, PLoS ONE, abstract',
    evidence: 'read',
    band: [0.75, 1.3],
    because: 'the temperature was not seen',
  },
  {
    species: 'common carp',
    what: 'low-technology units, more fish',
    from: 160,
    to: 413,
    water: 26,
    conversion: 1.86,
    source: 'Maucieri et al. 2019, PLoS ONE, abstract',
    evidence: 'read',
    band: [0.75, 1.3],
    because: 'the temperature was not seen',
  },
];

const found = (trial: Trial): Species => {
  const fish = species.find((fish) => fish.name === trial.species);
  if (!fish) throw new Error(`no species is called ${trial.species}`);
  return fish;
};

/** Days that the functions give for the trial's weights and water. */
export function modelledDays(trial: GrowthTrial): number {
  const fish = found(trial);
  const temperature = growingTemperature(fish, trial.water);
  return daysToGrow(trial.from, trial.to, temperature, fish.facts.tgc[0]);
}

/** Growth of a day at the trial's temperature over that at the other. */
export function modelledShare(trial: TemperatureTrial): number {
  const fish = found(trial);
  return growingTemperature(fish, trial.water) / growingTemperature(fish, trial.against);
}

/** Feed over gain, day by day from the first weight to the second. */
export function modelledConversion(trial: ConversionTrial): number {
  const fish = found(trial);
  const temperature = growingTemperature(fish, trial.water);
  let feed = 0;
  let weight = trial.from;
  while (weight < trial.to) {
    feed += weight * feedRate(fish, weight, trial.water);
    weight = grownWeight(weight, 1, temperature, fish.facts.tgc[0]);
  }
  return feed / (weight - trial.from);
}
