import { dayOfStage, type Stage, stages, weeksInBed } from '../core/sowing';
import {
  type Crop,
  type CropFact,
  cropFacts,
  crops,
  range,
  sourceOf,
  usual,
} from '../core/tables/crops';
import { sourceWords } from '../core/tables/standing';
import { lookupFact, type LookupColumn, lookupTable } from './lookup';

const names = Object.keys(cropFacts) as CropFact[];
const EMPTY = '';

/** Ready sums of the figures, so that plain formulas need one look-up for a date. */
const stageColumns = {
  emerge: { fact: 'day_emerge', label: 'Day of emergence, from sowing' },
  transplant: { fact: 'day_transplant', label: 'Day of transplanting, from sowing' },
  'first cut': { fact: 'day_first_cut', label: 'Day of first cut, from sowing' },
  clear: { fact: 'day_clear', label: 'Day of clearing, from sowing' },
} as const satisfies Record<Stage, { fact: string; label: string }>;

const words: readonly LookupColumn<Crop>[] = [
  { fact: 'group', label: 'Group', unit: '', of: (crop) => crop.group },
  { fact: 'start', label: 'Started from', unit: '', of: (crop) => crop.start },
  { fact: 'cut', label: 'Cut once or again', unit: '', of: (crop) => crop.cut },
];

const figures = names.map((fact): LookupColumn<Crop> => ({
  fact,
  ...cropFacts[fact],
  of: (crop) => usual(crop, fact) ?? EMPTY,
}));

const sums: readonly LookupColumn<Crop>[] = [
  ...stages.map((stage) => ({
    ...stageColumns[stage],
    unit: 'day',
    of: (crop: Crop) => dayOfStage(crop, stage) ?? EMPTY,
  })),
  { fact: 'weeks_in_bed', label: 'Weeks in the bed', unit: 'week', of: weeksInBed },
];

const remarks: readonly LookupColumn<Crop>[] = [
  { fact: 'light', label: 'Light', unit: '', of: (crop) => crop.light },
  { fact: 'note', label: 'Note', unit: '', of: (crop) => crop.note },
  { fact: 'botanical', label: 'Botanical name', unit: '', of: (crop) => crop.botanical },
];

const ranges = names
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

const origins = names.map((fact): LookupColumn<Crop> => ({
  fact: `${fact}_source`,
  label: `${cropFacts[fact].label}: source`,
  unit: '',
  of: (crop) => {
    const source = sourceOf(crop, fact);
    return source ? sourceWords(source) : EMPTY;
  },
}));

/**
 * The crops as plain formulas look them up on the Crops sheet: words, usual figures, sums of them,
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
  columns: [...words, ...figures, ...sums, ...remarks, ...ranges, ...origins],
});

/** Formula for the usual figure of a crop. */
export const plainCropFact = (fact: CropFact | 'weeks_in_bed', name: string): string =>
  lookupFact('Crop', fact, name);

/** Formula for the days from sowing to a stage of a crop; an empty text where it has no such stage. */
export const plainDayOfStage = (stage: Stage, name: string): string =>
  lookupFact('Crop', stageColumns[stage].fact, name);
