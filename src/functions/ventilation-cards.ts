import { AIR_HEAT } from '../core/month-heat';
import { airFlow, drying, SEA_LEVEL_PRESSURE, sunFlow, USED_BY_PLANTS } from '../core/ventilation';
import { saturationFormula } from './air-cards';
import { card, type Source, type ValueCard } from './card';
import { airTemperature, coverLight, humidity, shadeCloth } from './climate-parameters';
import { number } from './parameter';
import { fao56 } from './shared-sources';

const greenhouseAir: Source = {
  author: 'University of Massachusetts Extension',
  year: 'undated',
  title: 'Natural ventilation in greenhouses',
  where:
    'full summer venting: about one air change a minute, 8 to 10 ft³ a minute for each ft² of floor',
  evidence: 'read',
};

const massBalance: Source = {
  author: 'ASHRAE',
  year: 2017,
  title: 'Handbook - Fundamentals, chapter 1',
  where: 'humidity ratio (equation 20): dry air in equals dry air out',
  evidence: 'read',
};

const flow = card({
  id: 'VENT.FLOW',
  subject: 'Air',
  summary: 'Air flow that renews the air of a tunnel so many times an hour',
  searchWords: [
    'fan',
    'air changes',
    'ventilation',
    'vents',
    'greenhouse',
    'hoop house',
    'high tunnel',
    'polytunnel',
    'too hot',
  ],
  parameters: [
    number('volume', 'volume of air in the tunnel', { unit: 'm3', above: 0, max: 1000000 }),
    number('changes', 'air changes an hour', { unit: '1/h', above: 0, max: 200 }),
  ],
  result: { kind: 'number', unit: 'm3/h', meaning: 'air flow' },
  method: 'Volume times changes an hour.',
  formula: { flow: 'volume * changes' },
  sources: [
    greenhouseAir,
    {
      author: 'University of Connecticut and University of Massachusetts floriculture advice',
      year: 'undated',
      title: 'Purging humid air from greenhouses',
      where: 'natural vents may need 30 minutes for one change, fans 2 to 3 minutes',
      evidence: 'read',
    },
  ],
  validity:
    'Any tunnel. About 60 changes an hour is full summer venting; natural vents alone may give 2 on a still, cold day.',
  dangers: ['electricity', 'heater'],
  examples: [
    {
      args: [350, 2],
      result: 700,
      says: 'A tunnel of 350 m³, vents that renew the air every half hour: 700 m³/h',
    },
    {
      args: [2.4384, 60],
      result: 146.3,
      tolerance: 0.1,
      says: 'Eight feet of air over a square metre, changed once a minute: 146 m³/h (University of Massachusetts Extension)',
    },
  ],
  seeAlso: ['VENT.DRYING', 'VENT.HEAT'],
  compute: airFlow,
});

const dryingCard = card({
  id: 'VENT.DRYING',
  subject: 'Air',
  summary: 'Water that venting carries out of a tunnel in an hour',
  searchWords: [
    'humidity',
    'dry the tunnel',
    'open the vents',
    'mould',
    'condensation',
    'greenhouse',
    'hoop house',
    'polytunnel',
    'ventilation',
  ],
  parameters: [
    number('flow', 'inside air that goes out', { unit: 'm3/h', above: 0, max: 10000000 }),
    airTemperature('inside_air', 'temperature inside'),
    humidity('inside_humidity', 'relative humidity inside'),
    airTemperature('outside_air', 'temperature outside'),
    humidity('outside_humidity', 'relative humidity outside'),
  ],
  result: {
    kind: 'number',
    unit: 'kg/h',
    meaning: 'water carried out; negative where the outside air brings water in',
  },
  method:
    'The vapour in the air that leaves, less the vapour in as much dry air from outside. What counts is the vapour pressure, not the relative humidity: cold air at 90 % still dries a warm tunnel.',
  formula: {
    W: `flow * 2.16679 * (p_i - p_o * (${SEA_LEVEL_PRESSURE} - p_i) / (${SEA_LEVEL_PRESSURE} - p_o)) / (inside_air + 273.15)`,
    p_i: `${saturationFormula('inside_air')} * inside_humidity`,
    p_o: `${saturationFormula('outside_air')} * outside_humidity`,
  },
  symbols: {
    p_i: 'vapour pressure inside, kPa',
    p_o: 'vapour pressure outside, kPa',
  },
  sources: [massBalance, fao56('equation 11')],
  validity:
    'Flow counted as inside air, at sea level (at 1500 m less than 0.5 % more). The answer is for the conditions given: as the tunnel dries or cools, measure again.',
  caution:
    'A negative answer means that the air outside holds more water: keep the vents shut for drying. Venting also loses heat.',
  dangers: ['heater'],
  examples: [
    {
      args: [700, 14, 0.9, 2, 0.85],
      result: 4.4578,
      tolerance: 0.0001,
      says: 'A cold day, 2 °C outside: 700 m³/h takes 4.5 kg of water an hour out of a tunnel at 14 °C and 90 %',
    },
    {
      args: [700, 22, '70 %', 30, '80 %'],
      result: -8.2079,
      tolerance: 0.0001,
      says: 'Before a summer storm the air outside holds more water: venting brings in 8.2 kg an hour',
    },
    {
      args: ['500 cfm', '57 degF', 0.9, '36 degF', 0.85],
      result: 5.2838,
      tolerance: 0.0001,
      says: 'The cold day again with a fan of 500 cfm, read in other units',
    },
  ],
  seeAlso: ['VENT.FLOW', 'AIR.MOISTURE', 'AIR.DEWPOINT'],
  compute: drying,
});

const sunCard = card({
  id: 'VENT.HEAT',
  subject: 'Air',
  summary: 'Outside air that keeps a house in the sun from getting too warm',
  searchWords: [
    'overheating',
    'summer ventilation',
    'too hot',
    'cooling',
    'fan size',
    'shade cloth',
    'greenhouse',
    'roll-up sides',
  ],
  parameters: [
    number('area', 'floor of the house', { unit: 'm2', above: 0, max: 1e6 }),
    number('radiation', 'sun on level ground outside', {
      unit: 'W/m2',
      min: 0,
      max: 1400,
    }),
    airTemperature('inside', 'temperature that the house may have'),
    airTemperature('outside', 'temperature outside'),
    coverLight,
    shadeCloth,
    number('used', 'share of the heat that plants turn into vapour', {
      unit: 'share',
      min: 0,
      max: 0.95,
      default: USED_BY_PLANTS,
    }),
  ],
  result: { kind: 'number', unit: 'm3/h', meaning: 'flow of air' },
  method:
    'The sun that comes through cover and cloth, less what plants turn into vapour, over what a cubic metre of air carries off for each degree that it warms: 0.335 Wh.',
  formula: {
    flow: `IF(inside <= outside, NO_ANSWER(), area * radiation * cover * (1 - shade) * (1 - used) / (${AIR_HEAT} * (inside - outside)))`,
  },
  sources: [
    {
      author: 'ASAE',
      year: 2003,
      title: 'EP406.4, Heating, ventilating and cooling greenhouses',
      where: 'balance of heat of a vented house (recalled)',
      evidence: 'memory',
    },
    greenhouseAir,
  ],
  validity:
    'Bright noon in summer is 800 to 1000 W/m². Half of the heat goes into vapour where the house is full of watered plants, hardly any where it is empty. Nothing is counted for what passes through the cover, so that the answer is on the safe side. Vents reach it only with wind: roof and side vents of 15 to 20 % of the floor each are usual.',
  caution:
    'Hot air also warms the water: fish eat less, and warm water holds less oxygen, just when they need more. Look at the tanks first.',
  dangers: ['heater'],
  examples: [
    {
      args: [1, 900, 35.6, 30],
      result: 167.91,
      tolerance: 0.01,
      says: 'A square metre under full sun, 5.6 °C (10 °F) warmer than outside: 168 m³/h, 9 ft³ a minute for each ft²',
    },
    {
      args: [120, 900, 35, 30, 0.7, 0.3],
      result: 15797,
      tolerance: 1,
      says: 'A tunnel of 120 m² under a 30 % cloth, 5 °C warmer than outside',
    },
  ],
  seeAlso: ['VENT.FLOW', 'LIGHT.INSIDE', 'SUN.NOON'],
  compute: (area, radiation, inside, outside, cover, shade, used) =>
    sunFlow({ area, radiation, cover, shade, used }, inside, outside),
});

export const ventilationCards: readonly ValueCard[] = [flow, dryingCard, sunCard];
