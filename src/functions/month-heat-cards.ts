import { nameKey } from '../core/nearest-name';
import {
  AIR_HEAT,
  EDGE_HEAT,
  EVAPORATION_HEAT,
  evaporationHeat,
  type Fuel,
  fuelFor,
  fuels,
  INNER_RESISTANCE,
  innerSide,
  monthHeat,
} from '../core/month-heat';
import { card, type Source, type ValueCard } from './card';
import { airTemperature } from './climate-parameters';
import { fao56 } from './shared-sources';
import { type NameBook, nameOrNumber, number } from './parameter';

const subject = 'Water and heat';

const bartok: Source = {
  author: 'Bartok',
  year: 2013,
  title: 'University of Connecticut, heating greenhouses',
  where:
    'propane 92 500 and heating oil 138 500 Btu a US gallon, natural gas 1030 Btu/ft³, pellets 16 MBtu a short ton',
  evidence: 'read',
};

const month = card({
  id: 'HEAT.MONTH',
  subject,
  summary: 'Heat that a house takes over a month, from its days’ highs and lows',
  searchWords: [
    'heating cost',
    'degree hours',
    'degree days',
    'kWh',
    'heater',
    'greenhouse heating',
    'winter',
    'fuel',
  ],
  parameters: [
    number('area', 'area of the whole cover, walls and ends too', {
      unit: 'm2',
      min: 0,
      max: 1e6,
    }),
    number('u', 'heat loss rate of the cover (U-value)', { unit: 'W/m2/K', above: 0, max: 20 }),
    number('volume', 'volume of air in the house', { unit: 'm3', min: 0, max: 1e6 }),
    number('changes', 'air changes an hour with the vents shut', {
      unit: '1/h',
      min: 0,
      max: 200,
    }),
    airTemperature('inside', 'temperature that the house is kept at'),
    airTemperature('high', 'mean of the days’ highest temperatures outside'),
    airTemperature('low', 'mean of the days’ lowest temperatures outside'),
    number('days', 'days of the month', { unit: 'day', above: 0, max: 366 }),
    number('edge', 'length of outer wall along the ground, not insulated', {
      unit: 'm',
      min: 0,
      max: 100000,
      default: 0,
    }),
  ],
  result: { kind: 'number', unit: 'kWh', meaning: 'heat over those days' },
  method: `What the house loses for each degree (cover, ${AIR_HEAT} W for each m³ and air change, ${EDGE_HEAT} W for each metre of edge) times the degree-hours below the temperature wanted, the day taken as a sine between low and high.`,
  formula: {
    E: 'IF(high < low, VALUE("high must not be below low"), UA * hours * days / 1000)',
    UA: `area * u + ${AIR_HEAT} * volume * changes + ${EDGE_HEAT} * edge`,
    hours:
      'IF(inside <= low, 0, IF(inside >= high, 24 * (inside - mean), 24 * ((inside - mean) * (PI() + 2 * angle) + 2 * half * COS(angle)) / (2 * PI())))',
    angle: 'ASIN((inside - mean) / half)',
    half: '(high - low) / 2',
    mean: '(high + low) / 2',
  },
  symbols: {
    UA: 'heat lost for each degree, W',
    hours: 'degree-hours of a day',
    angle: 'where the sine crosses the temperature wanted, as radians',
    half: 'half the swing of the day, K',
    mean: 'mean of high and low, °C',
  },
  sources: [
    {
      author: 'Baskerville & Emin',
      year: 1969,
      title:
        'Rapid estimation of heat accumulation from maximum and minimum temperatures, Ecology 50:514',
      where: 'the single sine, here from below',
      evidence: 'memory',
    },
    {
      author: 'ANSI/ASAE',
      year: 2003,
      title: 'EP406.4 Heating, ventilating and cooling greenhouses',
      where: 'infiltration, and 0.8 Btu/h/ft/°F along the ground',
      evidence: 'memory',
    },
    bartok,
  ],
  validity:
    'Without the sun: by day it heats the house for nothing, so that this is an upper bound, near in dark months and for nights. Air changes with the vents shut: 0.5 to 1 under new film, 1 to 2 under old glass (common practice). Tanks warmer than the air heat the house and lose what it gains (HEAT.COVER, HEAT.EVAPORATION).',
  dangers: ['heater', 'electricity'],
  examples: [
    {
      args: [240, 4, 350, 1, 12, 6, -2, 31],
      result: 8014.7,
      tolerance: 0.5,
      says: 'A tunnel of 240 m² of double film kept at 12 °C through a January of -2 to 6 °C: 8 MWh',
    },
    {
      args: [0, 1, 350, 1, 15, 0, 0, 1],
      result: 42.21,
      tolerance: 0.24,
      says: 'What leaks out of 350 m³ at one change an hour and 15 degrees: 1759 W, 42 kWh a day',
    },
  ],
  seeAlso: ['HEAT.COVER', 'HEAT.FUEL', 'DEGREE.DAYS'],
  compute: (area, u, volume, changes, inside, high, low, days, edge) =>
    monthHeat({ area, u, volume, changes, edge }, inside, high, low, days),
});

const fuelBook: NameBook<Fuel> = {
  what: 'fuel',
  listedBy: 'the page of GILL.HEAT.FUEL',
  names: fuels.map((row) => row.name),
  find: (name) =>
    fuels.find((row) =>
      [row.name, ...row.spellings].some((spelling) => nameKey(spelling) === nameKey(name)),
    ),
};

const fuel = card({
  id: 'HEAT.FUEL',
  subject,
  summary: 'Fuel that gives so much heat',
  searchWords: ['propane', 'gas', 'oil', 'pellets', 'heating cost', 'gas bill', 'gallons'],
  parameters: [
    number('heat', 'heat wanted (HEAT.MONTH)', { unit: 'kWh', min: 0, max: 1e9 }),
    nameOrNumber('fuel', 'fuel, or its kWh in a unit', fuelBook, {
      above: 0,
      max: 1000,
      words: Object.fromEntries(fuels.map((row) => [row.name, row.spellings])),
      of: (row) => row.content,
    }),
    number('efficiency', 'share of the heat that ends in the house; above 1 for a heat pump', {
      above: 0,
      max: 8,
      default: 0.8,
    }),
  ],
  result: {
    kind: 'number',
    unit: '',
    meaning: 'litres of propane, oil or kerosene, m³ of gas, kg of pellets, kWh of electricity',
  },
  method: 'Heat over what a unit of the fuel holds and over the efficiency.',
  formula: {
    fuel_wanted: 'heat / content / efficiency',
    content: `IF(ISNUMBER(fuel), fuel, SWITCH(fuel, ${fuels.map((row) => `"${row.name}", ${row.content}`).join(', ')}, NA()))`,
  },
  symbols: { fuel_wanted: 'fuel, in its own unit', content: 'kWh in a unit' },
  sources: [bartok],
  validity:
    'Propane 7.16, heating oil 10.7 and kerosene 10.5 kWh/L, natural gas 10.7 kWh/m³, pellets of 10 % water 5.2 kWh/kg. Electricity: put 1 for a heater and 3 to 4 for a heat pump as the efficiency.',
  dangers: ['heater'],
  examples: [
    {
      args: [133.3, 'propane', 0.8],
      result: 23.3,
      tolerance: 0.1,
      says: 'A night of 133 kWh: 23.3 L of propane at 80 %',
    },
    {
      args: [8028, 'pellets', 0.85],
      result: 1827.2,
      tolerance: 0.1,
      says: 'A cold month of a tunnel: 1.8 tonnes of pellets',
    },
  ],
  seeAlso: ['HEAT.MONTH', 'HEAT.COVER'],
  compute: fuelFor,
});

const evaporation = card({
  id: 'HEAT.EVAPORATION',
  subject,
  summary: 'Heat that evaporating water takes along',
  searchWords: ['tank cover', 'cold tank', 'latent heat', 'heat loss of a tank'],
  parameters: [number('water', 'water that evaporates', { unit: 'L', min: 0, max: 1e9 })],
  result: { kind: 'number', unit: 'kWh', meaning: 'heat' },
  method: `${EVAPORATION_HEAT} MJ for each litre.`,
  formula: { E: `water * ${EVAPORATION_HEAT} / 3.6` },
  sources: [
    fao56('table 1: a millimetre of water is 2.45 MJ/m², latent heat at about 20 °C'),
    {
      author: 'Rafferty',
      year: '',
      title: 'Aquaculture heated by geothermal water, Geo-Heat Center',
      where: 'evaporation is the largest loss of a pond (its round 1000 Btu a pound is 5 % less)',
      evidence: 'read',
    },
  ],
  validity: 'Water of 10 to 35 °C, within 2 %. Cover the tank first, then buy the heater.',
  examples: [
    { args: [100], result: 68.06, tolerance: 0.01, says: '100 L: 68 kWh' },
    { args: ['10 gal'], result: 25.76, tolerance: 0.01, says: 'Ten gallons' },
  ],
  seeAlso: ['HEAT.WATER', 'WATER.USE'],
  compute: evaporationHeat,
});

const coverSide = card({
  id: 'AIR.COVER',
  subject: 'Air',
  summary: 'Temperature of the inner side of a cover, where the first drops form',
  searchWords: ['condensation', 'dripping', 'drops on the glass', 'wet leaves'],
  parameters: [
    airTemperature('inside', 'temperature inside'),
    airTemperature('outside', 'temperature outside'),
    number('u', 'heat loss rate of the cover (U-value)', { unit: 'W/m2/K', above: 0, max: 20 }),
  ],
  result: { kind: 'number', unit: 'degC', meaning: 'temperature of the inner side' },
  method: `Of the whole fall to the outside, the part U times ${INNER_RESISTANCE} m²K/W lies between the air and the cover. It drips where this is at or below the dew point (AIR.DEWPOINT).`,
  formula: { cover: `inside - (inside - outside) * MIN(1, u * ${INNER_RESISTANCE})` },
  sources: [
    {
      author: 'ISO',
      year: 2017,
      title: 'ISO 6946, Building components: thermal resistance',
      where: 'inner surface resistance 0.13 m²K/W',
      evidence: 'memory',
    },
  ],
  validity: 'Steady nights without wind. Under a clear sky film radiates and is colder yet.',
  dangers: ['sprays'],
  examples: [
    { args: [15, 0, 6.5], result: 2.325, says: 'Single film, 15 degrees inside, frost outside' },
    { args: [15, 0, 4], result: 7.2, says: 'Double film: 7 degrees, far less dripping' },
  ],
  seeAlso: ['AIR.DEWPOINT', 'LEAF.WETNESS'],
  compute: innerSide,
});

export const monthHeatCards: readonly ValueCard[] = [month, fuel, evaporation];
export const coverCards: readonly ValueCard[] = [coverSide];
