import { coverLoss, WATER_HEAT_CAPACITY, waterHeat } from '../core/heat';
import { card, type Source, type ValueCard } from './card';
import { airTemperature } from './climate-parameters';
import { number } from './parameter';

const asabe: Source = {
  author: 'ANSI/ASAE',
  year: 2003,
  title: 'EP406.4 Heating, ventilating and cooling greenhouses',
  where:
    'approximate heat-transfer coefficients: single polyethylene 6.5 to 6.8, inflated double 4.0, single glass 6.2, 8 mm twin-wall polycarbonate 3.0 to 3.7 W/m²/K',
  evidence: 'memory',
};

const doubleGlazing: Source = {
  author: 'Rasheed, Lee & Lee',
  year: 2017,
  title: 'Spanish Journal of Agricultural Research, heat demand of greenhouses',
  where: 'abstract: double glazing saves 34 %',
  evidence: 'read',
};

const cover = card({
  id: 'HEAT.COVER',
  subject: 'Water and heat',
  summary: 'Heat that a tunnel loses through its cover',
  searchWords: [
    'heating',
    'U-value',
    'polythene',
    'glass',
    'heater size',
    'insulation',
    'frost',
    'cold night',
    'greenhouse',
    'hoop house',
    'high tunnel',
    'polytunnel',
    'heat loss',
  ],
  parameters: [
    number('area', 'area of the whole cover, walls and ends too', {
      unit: 'm2',
      above: 0,
      max: 1000000,
    }),
    number('u', 'heat loss rate of the cover (U-value)', { unit: 'W/m2/K', above: 0, max: 20 }),
    airTemperature('inside', 'temperature inside'),
    airTemperature('outside', 'temperature outside'),
  ],
  result: { kind: 'number', unit: 'W', meaning: 'heat lost; negative where it comes in' },
  method: 'Area times U-value times the difference in temperature.',
  formula: { Q: 'area * u * (inside - outside)' },
  sources: [
    {
      author: 'Definition',
      year: '',
      title: 'the U-value is the heat lost by a square metre for each degree',
      evidence: 'definition',
    },
    asabe,
    doubleGlazing,
  ],
  validity:
    'Steady cold without sun. Air that leaks in comes on top: 0.335 W for each m³ of tunnel, air change an hour and degree. U rises with wind. Usual U-values, to be checked with the maker: single film about 6.5, inflated double film about 4, single glass 6.2, twin-wall polycarbonate 3 to 3.7.',
  dangers: ['heater'],
  examples: [
    {
      args: [240, 6.5, 15, 0],
      result: 23400,
      says: '240 m² of single film, 15 degrees warmer inside: 23.4 kW',
    },
    {
      args: [240, 4, 15, 0],
      result: 14400,
      says: 'The same tunnel under inflated double film: 14.4 kW',
    },
    {
      args: [240, '0.7 Btu/h/ft2/degF', '59 degF', '32 degF'],
      result: 14309,
      tolerance: 1,
      says: 'The double film with American units',
    },
  ],
  seeAlso: ['HEAT.WATER'],
  compute: coverLoss,
});

const waterRange = { unit: 'degC', min: -2, max: 50 } as const;

const waterCard = card({
  id: 'HEAT.WATER',
  subject: 'Water and heat',
  summary: 'Energy that warms the water of a tank from one temperature to another',
  searchWords: ['heater', 'kWh', 'warm the tank', 'chill'],
  parameters: [
    number('volume', 'volume of water', { unit: 'L', above: 0, max: 100000000 }),
    number('from', 'temperature of the water now', waterRange),
    number('to', 'temperature wanted', waterRange),
  ],
  result: {
    kind: 'number',
    unit: 'kWh',
    meaning: 'energy for warming; negative is heat to take out',
  },
  method:
    'Volume times 4.186 kJ a litre and degree times the difference, 3600 kJ being 1 kWh. No losses on the way.',
  formula: { E: `volume * ${WATER_HEAT_CAPACITY} * (to - from) / 3600` },
  sources: [
    {
      author: 'Definition',
      year: '',
      title: 'heat capacity of water, 4.186 kJ/kg/K',
      evidence: 'definition',
    },
  ],
  validity:
    'Water from -2 to 50 °C without freezing; a litre taken as a kilogram, within 1 %. What the tank loses while it warms comes on top, and a heat pump draws a third or a quarter of it from the mains.',
  caution: 'Warm fish slowly: a degree in an hour at most (common practice).',
  dangers: ['electricity', 'heater'],
  examples: [
    {
      args: [10000, 20, 25],
      result: 58.1,
      tolerance: 0.05,
      says: '10 000 L up 5 degrees: 58 kWh, 19.4 h with 3 kW',
    },
    {
      args: [1000, 20, 21],
      result: 1.163,
      tolerance: 0.0005,
      says: '1000 L up one degree: 1.163 kWh',
    },
  ],
  seeAlso: ['HEAT.COVER'],
  compute: waterHeat,
});

export const heatCards: readonly ValueCard[] = [cover, waterCard];
