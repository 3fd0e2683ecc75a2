import { number } from './parameter';

/** Parameters that several subjects share, so that one range and one wording serve them all. */
export const ph = number('ph', 'pH of the water', {
  unit: 'pH',
  min: 0,
  max: 14,
  zeroIsBlank: true,
});
export const water = number('water', 'water temperature', { unit: 'degC', min: -2, max: 50 });
export const salinity = number('salinity', 'salinity of the water', {
  unit: 'g/kg',
  min: 0,
  max: 42,
  default: 0,
});
export const tan = number('tan', 'total ammonia nitrogen, as N', {
  unit: 'mg/L',
  min: 0,
  max: 1000,
});
export const tanPerDay = number('tan', 'ammonia given off a day, as N (LOAD.TAN)', {
  unit: 'g/day',
  min: 0,
  max: 1e8,
});
export const waterVolume = number('volume', 'volume of the water', {
  unit: 'L',
  above: 0,
  max: 1e9,
});

/** As on the bag: from feeds of the pond to those of larvae. */
export const FEED_PROTEIN = { unit: 'share', min: 0.1, max: 0.7 } as const;
