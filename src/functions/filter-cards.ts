import {
  bedFilters,
  type FilterBed,
  filterMedia,
  filterSurface,
  LEVEL_OF_RATE,
  LOST_TO_SOLIDS,
  NITRIFICATION_RATE,
  PER_COOL_DEGREE,
  PER_WARM_DEGREE,
  RATE_WATER,
  SLOPES_MEET,
  tanUptakeOfBeds,
} from '../core/filter';
import { card, type Source, type ValueCard } from './card';
import { choiceBy } from './formula';
import { tanPerDay } from './common-parameters';
import { choice, number } from './parameter';
import { spellingsOf } from './plain-words';
import { timmonsEbeling } from './water-sources';

const subject = 'Filter';

const rate = number('rate', 'ammonia nitrogen that 1 m² takes up a day in water of 25 °C', {
  unit: 'g/m2/day TAN',
  above: 0,
  max: 10,
  default: NITRIFICATION_RATE,
});

const filterWater = number('water', 'water temperature', {
  unit: 'degC',
  min: 0,
  max: 40,
  default: RATE_WATER,
  defaultText: '25 °C, which asks for no correction',
});

const level = number('level', 'ammonia nitrogen that the water is to hold', {
  unit: 'mg/L',
  above: 0,
  max: 100,
  default: LEVEL_OF_RATE,
  defaultText: '1 mg/L or more, at which the rate is full',
});
const solids = number(
  'solids',
  'organic carbon for each weight of ammonia nitrogen in the water at the filter: 0 where the solids are taken out before it, 1 and more where they are not',
  {
    unit: 'g/g',
    min: 0,
    max: 20,
    default: 0,
    defaultText: '0, solids taken out before the filter',
  },
);

const zhuChen2002: Source = {
  author: 'Zhu & Chen',
  year: 2002,
  title: 'The impact of temperature on nitrification rate in fixed film biofilters',
  where: '4.275 % a degree at 20 °C where ammonia is short, 1.108 % where oxygen is',
  evidence: 'read',
};
const zhuChen2001: Source = {
  author: 'Zhu & Chen',
  year: 2001,
  title: 'Effects of organic carbon on nitrification rate in fixed film biofilters',
  where: 'about 70 % lower at a ratio of carbon to nitrogen of 1 to 2 than at 0',
  evidence: 'read',
};
const coldNitrification: Source = {
  author: 'Hoang et al.',
  year: 2014,
  title: 'Nitrification in cold water',
  where: '18 % of the rate at 20 °C is left at 1 °C',
  evidence: 'read',
};
const sources = [
  timmonsEbeling(
    'trickling filters and rafts: 0.45 g/m²/day at 25 to 30 °C, 0.15 to 0.25 at 12 to 15',
  ),
  zhuChen2002,
  zhuChen2001,
  coldNitrification,
];
const method =
  'Ammonia over the rate. From 25 down to 20 °C the rate falls by 4.275 % a degree, below that by a factor of 1.0945; above 25 °C nothing is gained. Below 1 mg/L it falls in proportion to the ammonia in the water, and by up to 70 % where organic carbon comes with the ammonia.';
const validity =
  'The rate is usual practice (0.2 to 2 g/m²/day for any media): check with your supplier. Needs oxygen above 4 mg/L, pH 6.5 to 8.5 and a filter some six weeks old.';

/** Share of the rate that water, level and solids leave. */
const shareSteps = {
  share: 'warm * cool * MIN(1, level) * (1 - lost)',
  warm: `${PER_WARM_DEGREE}^(MEDIAN(${SLOPES_MEET}, water, ${RATE_WATER}) - ${RATE_WATER})`,
  cool: `${PER_COOL_DEGREE}^(MIN(water, ${SLOPES_MEET}) - ${SLOPES_MEET})`,
  lost: `${LOST_TO_SOLIDS} * MIN(1, solids)`,
} as const;
const shareSymbols = {
  share: 'share of the rate that temperature, ammonia and solids leave',
  warm: `of it, what water below ${RATE_WATER} °C leaves`,
  cool: `and water below ${SLOPES_MEET} °C`,
  lost: 'share that is lost to solids',
};

const surface = card({
  id: 'FILTER.SURFACE',
  subject,
  summary: 'Wetted surface on which bacteria can nitrify a day of ammonia',
  searchWords: [
    'biofilter',
    'nitrification',
    'bacteria',
    'media area',
    'cloudy water',
    'ammonia spike',
    'new filter',
  ],
  parameters: [tanPerDay, rate, filterWater, level, solids],
  result: { kind: 'number', unit: 'm2', meaning: 'wetted surface' },
  method,
  formula: { surface: 'tan / (rate * share)', ...shareSteps },
  symbols: shareSymbols,
  sources,
  validity,
  dangers: ['chlorine'],
  examples: [
    { args: [88.56], result: 196.8, tolerance: 0.05, says: 'The ammonia of 3008 g of feed, warm' },
    {
      args: [88.56, 0.45, 15],
      result: 381.1,
      tolerance: 0.1,
      says: 'The same at 15 °C: nearly twice the surface',
    },
    {
      args: [88.56, 0.45, 25, 0.5],
      result: 393.6,
      tolerance: 0.05,
      says: 'Where the water is to hold no more than 0.5 mg/L: twice the surface',
    },
  ],
  seeAlso: ['FILTER.MEDIA', 'LOAD.TAN'],
  compute: (tan, perArea, water, tanLevel, carbon) =>
    filterSurface(tan, perArea, { water, level: tanLevel, solids: carbon }),
});

const media = card({
  id: 'FILTER.MEDIA',
  subject,
  summary: 'Litres of filter media that carry the surface for a day of ammonia',
  searchWords: [
    'biofilter',
    'gravel',
    'clay',
    'plastic media',
    'volume',
    'ammonia spike',
    'new filter',
    'liters',
    'moving bed',
  ],
  parameters: [
    tanPerDay,
    number('specific_surface', 'surface of the media, as on its data sheet', {
      unit: 'm2/m3',
      above: 0,
      max: 50000,
    }),
    rate,
    filterWater,
    level,
    solids,
  ],
  result: { kind: 'number', unit: 'L', meaning: 'media, heaped' },
  method: `${method} That surface is divided by the surface of a cubic metre of media.`,
  formula: { media: '1000 * tan / (rate * share) / specific_surface', ...shareSteps },
  symbols: shareSymbols,
  sources,
  validity: `${validity} Usual surfaces, m²/m³: coarse gravel 150, volcanic gravel 300, expanded clay 250 to 300, plastic 600.`,
  dangers: ['weight'],
  examples: [
    {
      args: [88.56, 300],
      result: 656,
      tolerance: 0.01,
      says: 'Volcanic gravel for the ammonia of 3008 g of feed',
    },
    { args: [88.56, 600], result: 328, tolerance: 0.01, says: 'The same on plastic media' },
  ],
  seeAlso: ['FILTER.SURFACE', 'LOAD.TAN'],
  compute: (tan, specific, perArea, water, tanLevel, carbon) =>
    filterMedia(tan, specific, perArea, { water, level: tanLevel, solids: carbon }),
});

const bedWords = spellingsOf<FilterBed>(bedFilters);

const USUAL_DEPTH = 0.25;

const beds = card({
  id: 'FILTER.BEDS',
  subject,
  summary: 'Ammonia that rafts or media beds nitrify a day, as part of the filter',
  searchWords: ['biofilter', 'nitrification', 'gravel bed', 'raft', 'do I need a filter'],
  parameters: [
    number('area', 'bed area', { unit: 'm2', min: 0, max: 1e7 }),
    choice('bed', 'kind of bed', bedWords),
    filterWater,
    level,
    number(
      'solids',
      'organic carbon for each weight of ammonia nitrogen in the water at the bed: 0 where the solids are taken out before it',
      {
        unit: 'g/g',
        min: 0,
        max: 20,
        default: 0,
        defaultText:
          '0, solids taken out before the beds; for beds that are the only filter take 1',
      },
    ),
    number('depth', 'wetted depth of the media; rafts do without', {
      unit: 'm',
      above: 0,
      max: 2,
      default: USUAL_DEPTH,
    }),
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'ammonia taken up, as N' },
  method:
    'Rafts: 0.5 g a day for each m² of bed, a floor of what was measured. Gravel and clay: area times depth times their surface (150 and 250 m²/m³) at 0.45 g/m²/day. Both fall with cold, little ammonia and solids as in FILTER.SURFACE.',
  formula: {
    TAN: 'area * per_area * share',
    per_area: choiceBy('bed', {
      raft: bedFilters.raft.perArea,
      gravel: `${bedFilters.gravel.surface} * ${NITRIFICATION_RATE} * depth`,
      clay: `${bedFilters.clay.surface} * ${NITRIFICATION_RATE} * depth`,
    }),
    ...shareSteps,
  },
  symbols: {
    per_area: 'what a m² takes up in clean warm water, g/day; of media by their surface and depth',
    ...shareSymbols,
  },
  sources: [
    {
      author: 'University of the Virgin Islands, as quoted by Rakocy',
      year: 2007,
      title: 'Ten guidelines for aquaponic systems',
      where: 'rafts removed 0.56 g TAN a day for each m²',
      evidence: 'memory',
    },
    ...sources,
  ],
  validity:
    'A floor for planning, from beds some six weeks old. Dry corners and clogged media do nothing: take the area through which water really runs.',
  dangers: ['weight'],
  examples: [
    { args: [214, 'raft'], result: 107, says: '214 m² of rafts in warm water' },
    {
      args: [10, 'gravel', 20, 1, 1],
      result: 41.064,
      tolerance: 0.001,
      says: '10 m² of gravel, 25 cm wetted, at 20 °C with all solids in it',
    },
  ],
  seeAlso: ['FILTER.SURFACE', 'LOAD.TAN'],
  compute: (area, bed, water, tanLevel, carbon, depth) =>
    tanUptakeOfBeds(area, bed, depth, { water, level: tanLevel, solids: carbon }),
});

export const filterCards: readonly ValueCard[] = [surface, media, beds];
