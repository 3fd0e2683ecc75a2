import { notKnown } from '../core/errors';
import { card, spillCard, type SpillCard, type ValueCard } from './card';
import { cropFigures, faoAppendix } from './crop-sources';
import { cropFactNames, cropTable, factUnit } from './crop-table';
import { factBook, lookupNamedFact } from './lookup';
import { tableName } from './parameter';
import { quoted } from './plain';
import { unitWord } from './unit-word';

/**
 * Other words for the usual figures. The labels of the table are no names for facts: they would make the
 * plain form, which holds every spelling, longer than a cell takes.
 */
const facts = factBook(
  { ...cropTable, columns: cropTable.columns.map((column) => ({ ...column, label: column.fact })) },
  'the page of GILL.FACT.CROP',
  {
    emerge_days: ['emergence', 'days to emerge'],
    transplant_days: ['transplant age'],
    harvest_days: ['harvest span'],
    plants_per_m2: ['density', 'plants/m2'],
    air: ['temperature', 'air best'],
    air_min: ['air low'],
    air_max: ['air high'],
    seeds_per_gram: ['seeds/g'],
    kg_per_plant: ['kg/plant'],
    kg_per_m2: ['kg/m2', 'yield'],
    feed_ratio: ['feed'],
    kc_mid: ['kc'],
    base_temp: ['base', 'base temperature'],
    cut_every: ['days between cuts'],
    piece_weight: ['piece g'],
    bunch_weight: ['bunch', 'bunch g'],
    daily_light: ['dli'],
    store_temp: ['storage'],
    botanical: ['latin'],
  },
);

/** Excel shows at most 512 characters of a parameter: their units stand in the method. */
const factWords = cropFactNames.map((fact) => fact.replaceAll('_', ' ')).join(', ');

const factUnits = cropFactNames
  .filter((fact) => factUnit(fact) !== '')
  .map((fact) => `${fact.replaceAll('_', ' ')} ${unitWord(factUnit(fact))}`)
  .join(', ');

const cropFact = card({
  id: 'FACT.CROP',
  subject: 'Facts',
  summary: 'One fact about a crop, its range, or where the figure comes from',
  searchWords: [
    'crop table',
    'spacing',
    'temperature',
    'yield',
    'germination',
    'pH of a crop',
    'days to maturity',
  ],
  parameters: [
    tableName('crop', 'crop', cropTable.book, {}),
    tableName(
      'fact',
      `what to look up: ${factWords}; each also with "min", "max" or "source" behind it; group, start, cut, piece, light, note, beds, family, botanical`,
      facts,
      {},
    ),
  ],
  result: { kind: 'any', unit: '', meaning: 'the figure in the unit of the fact, or words' },
  method: `Looked up in the crop table, which the planning workbook shows on its Crops sheet. The figure is the usual one; min and max give the range. #N/A where nobody knows the figure. Units: ${factUnits}.`,
  sources: [cropFigures, faoAppendix],
  validity:
    'Figures for crops under cover in general; varieties differ. Yields are of a whole crop, all cuts together, and hold at the usual plants/m²: closer or wider by more than a third, go by your own. Where the source reads "usual practice, check with your supplier" no publication stands behind the figure.',
  dangers: ['food', 'sprays', 'coli'],
  examples: [
    {
      args: ['basil', 'plants per m2 max'],
      result: 40,
      says: 'Basil stands at 8 to 40 plants/m² (FAO Technical Paper 589)',
    },
    { args: ['eggplant', 'group'], result: 'fruiting', says: 'What feed is reckoned by' },
    {
      args: ['lettuce', 'kc mid source'],
      result: 'Allen et al. 1998, FAO Irrig. Drain. Pap. 56, Table 12',
      says: 'A published figure names its publication',
    },
    {
      args: ['lettuce', 'base temp source'],
      result: 'usual practice, check with your supplier',
      says: 'Behind this figure stands no publication that was seen',
    },
  ],
  seeAlso: ['FACT.CROPS', 'SOW.OFFSET', 'BED.AREA'],
  compute: (crop, column) => {
    const found = column.of(crop);
    if (found === '') {
      throw notKnown(
        `fact: no figure is known for ${column.fact.replaceAll('_', ' ')} of ${crop.name}; use your own records`,
      );
    }
    return found;
  },
  inPieces: 'The fact is an argument: the column is chosen by its name and is no arithmetic.',
  plain: (a) => {
    const { cell, value } = lookupNamedFact(cropTable, facts, a.crop, a.fact);
    return `IF(${cell}="",NA(),${value})`;
  },
});

const names = cropTable.book.names;

const allCrops = spillCard({
  id: 'FACT.CROPS',
  subject: 'Facts',
  summary: 'The crops that are known, for a drop-down list',
  searchWords: ['list of crops', 'validation', 'names'],
  parameters: [],
  columns: [{ name: 'crop', unit: '', kind: 'text' }],
  method: 'The names of the crop table, one below the other.',
  sources: [cropFigures],
  validity:
    'Every function also takes American and other common names and the botanical name, singular and plural, and ignores case and spaces.',
  examples: [
    {
      args: [],
      result: [['lettuce'], ['Swiss chard'], ['spinach']],
      says: 'The list begins with the leafy crops',
    },
    { args: [], result: names.map((name) => [name]), says: `All ${names.length} crops` },
  ],
  seeAlso: ['FACT.CROP'],
  inPieces: 'A list of names holds no arithmetic.',
  spill: () => names.map((name) => [name]),
  plainCell: (_, row) => quoted(names[row] ?? ''),
});

export const cropFactCards: readonly ValueCard[] = [cropFact];
export const cropListCards: readonly SpillCard[] = [allCrops];
