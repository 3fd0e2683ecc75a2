import { MOST_FEED } from '../core/feeding';
import {
  feedWeights,
  type FishFact,
  fishFacts,
  species,
  type Species,
} from '../core/tables/species';
import { sourceWords } from '../core/tables/standing';
import {
  type LookupColumn,
  lookupAlong,
  lookupAlongSum,
  lookupFact,
  type LookupMatrix,
  lookupTable,
} from './lookup';
import { ifGiven } from './plain';

/** Names of the facts in the order of the sheet. */
export const fishFactNames = Object.keys(fishFacts) as FishFact[];

/** Column that says where a figure comes from, or that it is only usual practice. */
export const sourceColumn = (fact: FishFact): `${FishFact}_source` => `${fact}_source`;

const figures = fishFactNames.map((fact): LookupColumn<Species> => ({
  fact,
  label: fishFacts[fact].label,
  unit: fishFacts[fact].unit,
  of: (row) => row.facts[fact][0],
}));

const origins = fishFactNames.map((fact): LookupColumn<Species> => ({
  fact: sourceColumn(fact),
  label: `${fishFacts[fact].label}: source`,
  unit: '',
  of: (row) => sourceWords(row.facts[fact][1]),
}));

const feedRates: LookupMatrix<Species> = {
  fact: 'feed_rates',
  label:
    'Feed a day as a share of body weight, at best temperature (usual practice, check with your feed supplier)',
  unit: 'share',
  heads: { fact: 'feed_weights', label: 'Mean weight', unit: 'g', values: feedWeights },
  of: (row) => row.feedRates,
};

/** The species as plain formulas look them up on the Species sheet: first all figures, then their sources. */
export const speciesTable = lookupTable<Species>({
  prefix: 'Fish',
  sheet: 'Species',
  what: 'species',
  listedBy: 'GILL.FACT.SPECIES()',
  rows: species,
  nameOf: (row) => row.name,
  aliasesOf: (row) => row.aliases,
  columns: [...figures, ...origins],
  daily: figures.length,
  matrices: [feedRates],
});

/** Formula for one figure of a species. */
export const plainFact = (fact: FishFact, name: string): string => lookupFact('Fish', fact, name);

/** Weights of the feed table, and `weight` held within them. */
const heads = `Fish_${feedRates.heads.fact}`;
const heldWithinTable = (weight: string): string => `MEDIAN(MIN(${heads}),${weight},MAX(${heads}))`;

/** Formula for the feed rate of a species at a mean weight, at best temperature. */
export const plainFeedRate = (name: string, weight: string): string =>
  `MIN(${MOST_FEED},${lookupAlong('Fish', feedRates, name, weight)}*(${heldWithinTable(weight)}/${weight})^(1/3))`;

/**
 * Formula for the sum of `factors` times the feed rates at a column of weights, each at least
 * LEAST_BATCH_WEIGHT, so that none comes to what fry are given at most.
 */
export function plainFeedRateSum(name: string, weights: string, factors: string): string {
  const [first, last] = [`MIN(${heads})`, `MAX(${heads})`];
  const held = `((${weights}<${first})*${first}+(${weights}>${last})*${last}+(${weights}>=${first})*(${weights}<=${last})*${weights})`;
  return lookupAlongSum('Fish', feedRates, name, weights, `${factors}*(${held}/${weights})^(1/3)`);
}

const plainWay = (name: string, water: string, side: 'cold' | 'warm'): string => {
  const fact = (which: FishFact): string => plainFact(which, name);
  return side === 'cold'
    ? `(${fact('best_low')}-${water})/(${fact('best_low')}-${fact('feed_low')})`
    : `(${water}-${fact('best_high')})/(${fact('feed_high')}-${fact('best_high')})`;
};

/** Formula for the share of the full ration that a species takes at a water temperature. */
export const plainAppetite = (name: string, water: string): string =>
  `MAX(0,MIN(1-MIN(1,MAX(0,${plainWay(name, water, 'cold')},${plainWay(name, water, 'warm')}))^2,${water}/${plainFact('best_low', name)}))`;

/** Formula for the temperature that counts for growth; 0 where the fish do not feed. */
export const plainGrowingTemperature = (name: string, water: string): string =>
  `MEDIAN(${plainFact('best_low', name)},${water},${plainFact('best_high', name)})*${plainAppetite(name, water)}*(1-MEDIAN(0,${plainWay(name, water, 'warm')},1)^2/3)`;

/** Formula for what fish with a coefficient of their own eat for each of what the table's fish do: a factor, or nothing. */
export const plainOwnShare = (a: {
  readonly species: string;
  readonly coefficient: string | undefined;
}): string =>
  a.coefficient === undefined
    ? ''
    : `*${ifGiven(a.coefficient, `${a.coefficient}/${plainFact('tgc', a.species)}`, '1')}`;
