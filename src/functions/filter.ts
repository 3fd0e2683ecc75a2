import { filterMedia, filterSurface, NITRIFICATION_RATE, RATE_WATER } from '../core/filter';
import { card, type ValueCard } from './card';
import { tanPerDay } from './common-parameters';
import { number } from './parameter';
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

const sources = [
  timmonsEbeling(
    'trickling filters and rafts: 0.45 g/m²/day at 25 to 30 °C, 0.15 to 0.25 at 12 to 15; factor 1.08 a degree',
  ),
];
const method =
  'Ammonia over the rate; below 25 °C the rate falls by a factor of 1.08 a degree, above it nothing is gained.';
const validity =
  'Rate and temperature factor are usual practice (0.2 to 2 g/m²/day for any media): check with your supplier. Needs oxygen above 4 mg/L, pH 6.5 to 8.5 and a filter some six weeks old; below 10 °C the factor is stretched beyond what it rests on.';

const plainSurface = (a: { tan: string; rate: string; water: string }): string =>
  `${a.tan}/(${a.rate}*1.08^(MIN(${a.water},25)-25))`;

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
  parameters: [tanPerDay, rate, filterWater],
  result: { kind: 'number', unit: 'm2', meaning: 'wetted surface' },
  method,
  formula: 'surface = TAN / (rate * 1.08^(min(water, 25) - 25))',
  sources,
  validity,
  dangers: ['chlorine'],
  examples: [
    { args: [88.56], result: 196.8, tolerance: 0.05, says: 'The ammonia of 3008 g of feed, warm' },
    {
      args: [88.56, 0.45, 15],
      result: 424.9,
      tolerance: 0.05,
      says: 'The same at 15 °C: more than twice the surface',
    },
  ],
  seeAlso: ['FILTER.MEDIA', 'LOAD.TAN'],
  compute: filterSurface,
  plain: plainSurface,
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
      max: 10000,
    }),
    rate,
    filterWater,
  ],
  result: { kind: 'number', unit: 'L', meaning: 'media, heaped' },
  method: `${method} That surface is divided by the surface of a cubic metre of media.`,
  formula: 'media = 1000 * TAN / (rate * 1.08^(min(water, 25) - 25)) / specific_surface',
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
  compute: filterMedia,
  plain: (a) => `1000*${plainSurface(a)}/${a.specific_surface}`,
});

export const filterCards: readonly ValueCard[] = [surface, media];
