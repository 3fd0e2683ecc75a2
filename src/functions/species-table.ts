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

/** Formula for the table's feed rate of a species at a mean weight. */
export const plainFeedRate = (name: string, weight: string): string =>
  lookupAlong('Fish', feedRates, name, weight);

/** Formula for the sum of `factors` times the table's feed rates at a column of weights. */
export const plainFeedRateSum = (name: string, weights: string, factors: string): string =>
  lookupAlongSum('Fish', feedRates, name, weights, factors);

/** Formula for the share of the full ration that a species takes at a water temperature. */
export function plainAppetite(name: string, water: string): string {
  const fact = (which: FishFact): string => plainFact(which, name);
  const cold = `(${fact('best_low')}-${water})/(${fact('best_low')}-${fact('feed_low')})`;
  const warm = `(${water}-${fact('best_high')})/(${fact('feed_high')}-${fact('best_high')})`;
  return `(1-MIN(1,MAX(0,${cold},${warm}))^2)`;
}

/** Formula for the temperature that counts for growth; 0 where the fish do not feed. */
export function plainGrowingTemperature(name: string, water: string): string {
  const fact = (which: FishFact): string => plainFact(which, name);
  return `IF(AND(${water}>${fact('feed_low')},${water}<${fact('feed_high')}),MIN(${water},${fact('best_high')}),0)`;
}
