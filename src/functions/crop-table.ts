import {
  type Crop,
  type CropFact,
  cropFacts,
  crops,
  range,
  sourceOf,
  usual,
} from '../core/tables/crops';
import { sourceWords } from '../core/tables/evidence';
import { type LookupColumn, lookupTable } from './lookup';

/** Names of the figures in the order of the sheet. */
export const cropFactNames = Object.keys(cropFacts) as CropFact[];
const EMPTY = '';

export const factUnit = (fact: CropFact): string => cropFacts[fact].unit;

const words: readonly LookupColumn<Crop>[] = [
  { fact: 'group', label: 'Group', unit: '', of: (crop) => crop.group },
  { fact: 'start', label: 'Started from', unit: '', of: (crop) => crop.start },
  { fact: 'cut', label: 'Cut once or again', unit: '', of: (crop) => crop.cut },
  { fact: 'piece', label: 'Sold by the', unit: '', of: (crop) => crop.piece },
];

const figures = cropFactNames.map((fact): LookupColumn<Crop> => ({
  fact,
  ...cropFacts[fact],
  of: (crop) => usual(crop, fact) ?? EMPTY,
}));

const remarks: readonly LookupColumn<Crop>[] = [
  { fact: 'light', label: 'Light', unit: '', of: (crop) => crop.light },
  { fact: 'note', label: 'Note', unit: '', of: (crop) => crop.note },
  { fact: 'beds', label: 'Kinds of bed', unit: '', of: (crop) => crop.beds },
  { fact: 'family', label: 'Family', unit: '', of: (crop) => crop.family },
  { fact: 'botanical', label: 'Botanical name', unit: '', of: (crop) => crop.botanical },
];

const ranges = cropFactNames
  .filter((fact) => crops.some((crop) => range(crop, fact)))
  .flatMap((fact): LookupColumn<Crop>[] => [
    {
      fact: `${fact}_min`,
      label: `${cropFacts[fact].label}: lowest`,
      unit: cropFacts[fact].unit,
      of: (crop) => range(crop, fact)?.[0] ?? EMPTY,
    },
    {
      fact: `${fact}_max`,
      label: `${cropFacts[fact].label}: highest`,
      unit: cropFacts[fact].unit,
      of: (crop) => range(crop, fact)?.[1] ?? EMPTY,
    },
  ]);

const origins = cropFactNames.map((fact): LookupColumn<Crop> => ({
  fact: `${fact}_source`,
  label: `${cropFacts[fact].label}: source`,
  unit: '',
  of: (crop) => {
    const source = sourceOf(crop, fact);
    return source ? sourceWords(source) : EMPTY;
  },
}));

/**
 * The crops as plain formulas look them up on the Crops sheet: words, usual figures,
 * remarks, then the ranges and the source of each figure. A figure that nobody knows is an empty text.
 */
export const cropTable = lookupTable<Crop>({
  prefix: 'Crop',
  sheet: 'Crops',
  what: 'crop',
  listedBy: 'GILL.FACT.CROPS()',
  rows: crops,
  nameOf: (crop) => crop.name,
  aliasesOf: (crop) => [...crop.aliases, crop.botanical],
  columns: [...words, ...figures, ...remarks, ...ranges, ...origins],
  daily: words.length + figures.length + remarks.length,
});
