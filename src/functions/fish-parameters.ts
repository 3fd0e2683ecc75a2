import { FEED_CONVERSIONS } from '../core/feeding';
import { GROWTH_COEFFICIENTS, MIN_GROWING_WEIGHT } from '../core/growth';
import { nameOrNumber, number, tableName } from './parameter';
import { speciesTable } from './species-table';

/** Parameters that the fish cards share, so that one range and one wording serve them all. */
export const MAX_GRAMS = 200000;
export const MAX_FISH = 1e9;
export const MAX_LITRES = 1e9;

export const weight = number('weight', 'mean weight of a fish', {
  unit: 'g',
  above: 0,
  max: MAX_GRAMS,
});
/** The weight of fish that are to grow: fry below it grow by another rule. */
export const growingWeight = number('weight', 'mean weight of a fish', {
  unit: 'g',
  min: MIN_GROWING_WEIGHT,
  max: MAX_GRAMS,
});
export const fish = number('fish', 'number of fish', { unit: 'fish', min: 0, max: MAX_FISH });
export const volume = number('volume', 'water in the tank', {
  unit: 'L',
  above: 0,
  max: MAX_LITRES,
});
export const species = tableName('species', 'fish species', speciesTable.book, {
  default: 'Nile tilapia',
});
export const waterIfKnown = number('water', 'water temperature', {
  unit: 'degC',
  min: -2,
  max: 50,
  optional: true,
  defaultText: 'a temperature at its best for the species',
});
export const coefficient = number(
  'coefficient',
  "thermal-unit growth coefficient, x1000 scale, from the farm's own records",
  {
    min: GROWTH_COEFFICIENTS[0],
    max: GROWTH_COEFFICIENTS[1],
    optional: true,
    defaultText: "the species' coefficient",
  },
);
export const conversion = number(
  'conversion',
  "feed for each gram of growth, from the farm's own records: 0.6 is the best of small fish on dry feed",
  {
    min: FEED_CONVERSIONS[0],
    max: FEED_CONVERSIONS[1],
    optional: true,
    defaultText: "the species' feed conversion ratio",
  },
);
export const survival = number('survival', 'share of the fish that live, over the whole time', {
  unit: 'share',
  above: 0,
  max: 1,
});

/** Safe in any tank with an air stone: what holds where neither fish nor aeration is named. */
export const PLAIN_DENSITY = 20;

export const density = nameOrNumber(
  'density',
  'weight of fish that the water may carry; a species stands for what it takes in an aerated commercial tank',
  speciesTable.book,
  {
    unit: 'kg/m3',
    above: 0,
    max: 500,
    default: PLAIN_DENSITY,
    defaultText: '20 kg/m³, the level for simple aeration',
    of: (row) => row.facts.density_aerated[0],
  },
);
