import { feedRateRange, fishFactOrders, fishFactRanges } from '../core/fish-fact-ranges';
import {
  feedWeights,
  type FishFact,
  fishFacts,
  species,
  type Species,
} from '../core/tables/species';
import { sourceWords } from '../core/tables/evidence';
import {
  type LookupColumn,
  lookupAlongSum,
  lookupFact,
  type LookupMatrix,
  lookupTable,
} from './lookup';

/** Names of the facts in the order of the sheet. */
export const fishFactNames = Object.keys(fishFacts) as FishFact[];

/** Column that says where a figure comes from, or that it is only usual practice. */
export const sourceColumn = (fact: FishFact): `${FishFact}_source` => `${fact}_source`;

const figures = fishFactNames.map((fact): LookupColumn<Species> => ({
  fact,
  label: fishFacts[fact].label,
  unit: fishFacts[fact].unit,
  of: (row) => row.facts[fact][0],
  range: fishFactRanges[fact],
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
  range: feedRateRange,
  goesWith: {
    facts: ['tgc', 'fcr'],
    label: 'Feed against the table',
    note: 'Feed is growth times conversion (Haskell 1959). At the same weight, fish of another growth coefficient or conversion than the table’s eat in proportion to both: those that grow faster eat more, those that convert better eat less. A feed rate typed over its cell counts as it is typed.',
  },
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
  orders: fishFactOrders,
});

/** Formula for one figure of a species. */
export const plainFact = (fact: FishFact, name: string): string => lookupFact('Fish', fact, name);

/** Weights of the feed table. */
const heads = `Fish_${feedRates.heads.fact}`;

/**
 * Formula for the sum of `factors` times the feed rates at a column of weights, each at least
 * MIN_BATCH_WEIGHT, so that none comes to what fry are given at most.
 */
export function plainFeedRateSum(name: string, weights: string, factors: string): string {
  const [first, last] = [`MIN(${heads})`, `MAX(${heads})`];
  const held = `((${weights}<${first})*${first}+(${weights}>${last})*${last}+(${weights}>=${first})*(${weights}<=${last})*${weights})`;
  return lookupAlongSum('Fish', feedRates, name, weights, `${factors}*(${held}/${weights})^(1/3)`);
}
