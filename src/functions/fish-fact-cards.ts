import { card, spillCard, type SpillCard, type ValueCard } from './card';
import { speciesFigures } from './fish-sources';
import { factBook, lookupNamedFact } from './lookup';
import { tableName } from './parameter';
import { quoted } from './plain';
import { speciesTable } from './species-table';
import { unitWord } from './unit-word';

/** Other words for the facts of the species table. */
const facts = factBook(speciesTable, 'the page of GILL.FACT.FISH', {
  vital_low: ['lowest temperature', 'lethal low'],
  vital_high: ['highest temperature', 'lethal high'],
  feed_low: ['stops feeding below'],
  feed_high: ['stops feeding above'],
  best_low: ['optimum low'],
  best_high: ['optimum high'],
  density_aerated: ['density'],
  fcr: ['conversion'],
  tgc: ['growth coefficient', 'coefficient'],
  oxygen_least: ['oxygen'],
  oxygen_critical: ['critical oxygen', 'danger'],
  tan_most: ['tan', 'ammonia'],
});

const factWords = speciesTable.columns
  .filter((column) => !column.fact.endsWith('_source'))
  .map(
    (column) => `${column.fact.replaceAll('_', ' ')} (${unitWord(column.unit) || 'x1000 scale'})`,
  )
  .join(', ');

const fishFact = card({
  id: 'FACT.FISH',
  subject: 'Facts',
  summary: 'One figure of a fish species, or where that figure comes from',
  searchWords: [
    'temperature limits',
    'optimum',
    'protein',
    'species table',
    'water temperature',
    'cold tolerance',
  ],
  parameters: [
    tableName('species', 'fish species', speciesTable.book, {}),
    tableName(
      'fact',
      `what to look up: ${factWords}; with "source" behind it, where the figure comes from`,
      facts,
      {},
    ),
  ],
  result: { kind: 'any', unit: '', meaning: 'the figure in the unit of the fact, or its source' },
  method: 'Looked up in the species table, which the planning workbook shows on its Species sheet.',
  sources: [speciesFigures],
  validity:
    'Figures for farmed fish in general. Where the source reads "usual practice, check with your supplier" no publication stands behind the figure.',
  dangers: ['permit', 'quarantine', 'medicines'],
  examples: [
    {
      args: ['Nile tilapia', 'feed low'],
      result: 17,
      says: 'Tilapia neither feed nor grow below 17 °C (FAO Technical Paper 589)',
    },
    { args: ['jade perch', 'vital low'], result: 13, says: 'Mass deaths (Queensland Government)' },
    {
      args: ['jade perch', 'protein source'],
      result: 'usual practice, check with your supplier',
      says: 'No publication stands behind that figure',
    },
  ],
  seeAlso: ['FACT.SPECIES', 'FEED.RATE'],
  compute: (row, column) => column.of(row),
  inPieces: 'The fact is an argument: the column is chosen by its name and is no arithmetic.',
  plain: (a) => lookupNamedFact(speciesTable, facts, a.species, a.fact).value,
});

const names = speciesTable.book.names;

const allSpecies = spillCard({
  id: 'FACT.SPECIES',
  subject: 'Facts',
  summary: 'The fish species that are known, for a drop-down list',
  searchWords: ['list of fish', 'validation'],
  parameters: [],
  columns: [{ name: 'species', unit: '', kind: 'text' }],
  method: 'The names of the species table, one below the other.',
  sources: [speciesFigures],
  validity:
    'Every function also takes common other names, singular and plural, and ignores case and spaces.',
  dangers: ['permit'],
  examples: [
    {
      args: [],
      result: [['Nile tilapia'], ['Mozambique tilapia'], ['common carp']],
      says: 'The list begins with the tilapias',
    },
    {
      args: [],
      result: names.map((name) => [name]),
      says: `All ${names.length} species`,
    },
  ],
  seeAlso: ['FACT.FISH'],
  inPieces: 'A list of names holds no arithmetic.',
  spill: () => names.map((name) => [name]),
  plainCell: (_, row) => quoted(names[row] ?? ''),
});

export const fishFactCards: readonly ValueCard[] = [fishFact];
export const speciesListCards: readonly SpillCard[] = [allSpecies];
