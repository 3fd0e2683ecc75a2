import { bedArea, type Pattern, plantDensity, plantsStanding } from '../core/bed';
import { wrongValue } from '../core/errors';
import { usual } from '../core/tables/crops';
import { card, type Source, type ValueCard } from './card';
import { cropOrWeeks, perWeek } from './crop-parameters';
import { cropFigures, faoAppendix } from './crop-sources';
import { choice, number } from './parameter';

const little: Source = {
  author: 'Little',
  year: 1961,
  title: 'A proof for the queuing formula L = lambda W, Operations Research 9:383-387',
  where: 'what stands is what comes a week times the weeks that it stays',
  evidence: 'memory',
};
const geometry: Source = {
  author: 'Definition',
  year: '',
  title: 'geometry of square and triangular grids',
  evidence: 'definition',
};

/** Weeks that a plant keeps its place; a number in place of the crop is those weeks. */
const weeksInBed = {
  weeks: 'IF(ISNUMBER(crop), crop, days_in_bed / 7)',
  days_in_bed: 'IF(crop.start = "in place", crop.transplant_days, 0) + crop.bed_days + picking',
  picking: 'IF(crop.cut = "again", crop.harvest_days, 0)',
} as const;

const method =
  'Plants a week times the weeks that a plant keeps its place: from transplanting (from sowing for what is sown in place) to the clear of SOW.STAGE, which is the cut of a crop that is cut once and the end of the harvest of one that is cut again. A number in place of the crop is those weeks, for your own turnaround.';
const validity =
  'A steady rhythm: as many plants go in each week as come out. With batches of more than a week between them provide for one whole batch more.';

export const bedPlants = card({
  id: 'BED.PLANTS',
  subject: 'Beds',
  summary: 'Plants that stand in the beds for a steady weekly cut',
  searchWords: [
    'plant sites',
    'raft holes',
    'net pots',
    'succession',
    'steady state',
    'succession planting',
  ],
  parameters: [perWeek, cropOrWeeks],
  result: {
    kind: 'number',
    unit: 'plants',
    meaning: 'places in the beds, not rounded so that it stays in step with BED.AREA',
  },
  method,
  formula: { plants: 'per_week * weeks', ...weeksInBed },
  symbols: { weeks: 'weeks that a plant keeps its place' },
  sources: [little, cropFigures],
  validity,
  dangers: ['food', 'sprays', 'coli'],
  examples: [
    { args: [200, 4], result: 800, says: '200 heads a week that stay four weeks' },
    {
      args: [70, 'lettuce'],
      result: 300,
      says: 'Lettuce keeps its place for 30 days: it is cut once, and the place is free',
    },
  ],
  seeAlso: ['BED.AREA', 'SOW.SERIES'],
  compute: plantsStanding,
});

const NEEDS_DENSITY = 'density is needed where weeks are given instead of a crop';

const area = card({
  id: 'BED.AREA',
  subject: 'Beds',
  summary: 'Bed area for a steady weekly cut',
  searchWords: ['how much bed', 'raft area', 'grow area', 'square metres', 'square feet'],
  parameters: [
    perWeek,
    cropOrWeeks,
    number('density', 'plants on a square metre of bed', {
      unit: 'plants/m2',
      above: 0,
      max: 100000,
      optional: true,
      defaultText: "the crop's usual plants/m²; needed where weeks are given instead of a crop",
    }),
  ],
  result: { kind: 'number', unit: 'm2', meaning: 'bed area, paths not included' },
  method: `The plants of BED.PLANTS divided by the density. ${method}`,
  formula: {
    area: 'per_week * weeks / on_a_square_metre',
    ...weeksInBed,
    on_a_square_metre: `IF(density <> "", density, IF(ISNUMBER(crop), VALUE("${NEEDS_DENSITY}"), crop.plants_per_m2))`,
  },
  symbols: { weeks: 'weeks that a plant keeps its place' },
  sources: [little, faoAppendix, cropFigures],
  validity: `${validity} Losses in the bed: divide the plants a week by the share that lives.`,
  dangers: ['weight'],
  examples: [
    { args: [200, 4, 20], result: 40, says: '200 heads a week, four weeks in the bed, 20 on a m²' },
    {
      args: [70, 'lettuce'],
      result: 15,
      says: '70 lettuces a week at the usual 20 plants/m² (FAO Technical Paper 589)',
    },
  ],
  seeAlso: ['BED.PLANTS', 'BED.DENSITY', 'FEED.WANTED'],
  compute: (weekly, crop, density) => {
    if (density === undefined && typeof crop === 'number') throw wrongValue(NEEDS_DENSITY);
    return bedArea(
      weekly,
      crop,
      density ?? usual(crop as Exclude<typeof crop, number>, 'plants_per_m2'),
    );
  },
});

const patterns: Readonly<Record<Pattern, readonly string[]>> = {
  square: ['rectangular', 'rectangle', 'grid', 'rows'],
  triangular: ['triangle', 'staggered', 'offset', 'hexagonal', 'quincunx', 'diamond'],
};

const spacingRange = { unit: 'cm', above: 0, max: 1000 } as const;

const density = card({
  id: 'BED.DENSITY',
  subject: 'Beds',
  summary: 'Plants on a square metre at a spacing',
  searchWords: [
    'spacing',
    'plant population',
    'staggered',
    'holes per raft',
    'plants per square metre',
    'plants per square foot',
  ],
  parameters: [
    number('spacing_in_row', 'distance from plant to plant in the row', spacingRange),
    number('spacing_between', 'distance from row to row', {
      ...spacingRange,
      optional: true,
      defaultText: 'as the pattern has it: the same as in the row, or 0.866 of it where staggered',
    }),
    choice('pattern', 'square, or triangular: every second row shifted by half a space', patterns, {
      default: 'square',
    }),
  ],
  result: {
    kind: 'number',
    unit: 'plants/m2',
    meaning: 'plants on a large bed, edges not counted',
  },
  method:
    'One plant on the spacing in the row times the distance between rows. Triangular without a distance between rows stands for plants equally far from all six neighbours; where the distance is given, shifting the rows changes nothing.',
  formula: {
    density: '10000 / (spacing_in_row * between)',
    between: 'SWITCH(pattern, "square", as_square, "triangular", as_triangular)',
    as_square: 'IF(spacing_between = "", spacing_in_row, spacing_between)',
    as_triangular: 'IF(spacing_between = "", spacing_in_row * SQRT(3) / 2, spacing_between)',
  },
  symbols: { between: 'distance from row to row, cm' },
  sources: [geometry],
  validity:
    'Beds much larger than the spacing. Printed densities are often not those of the printed spacing: FAO 589 gives lettuce 18 to 30 cm and 20 to 25 plants/m².',
  dangers: ['sprays'],
  examples: [
    { args: [25, 20], result: 20, says: 'Plants 25 cm apart in rows 20 cm apart' },
    {
      args: [25, null, 'triangular'],
      result: 18.4752,
      tolerance: 0.00005,
      says: 'Staggered, 25 cm to every neighbour: 15 % more than the 16 of a square grid',
    },
  ],
  seeAlso: ['BED.AREA', 'FACT.CROP'],
  compute: plantDensity,
});

export const bedCards: readonly ValueCard[] = [bedPlants, area, density];
