import { airFlow, drying, SEA_LEVEL_PRESSURE } from '../core/ventilation';
import { saturationFormula } from './air-cards';
import { card, type Source, type ValueCard } from './card';
import { airTemperature, humidity } from './climate-parameters';
import { number } from './parameter';
import { fao56 } from './shared-sources';

const greenhouseAir: Source = {
  author: 'University of Massachusetts Extension',
  year: 'undated',
  title: 'Natural ventilation in greenhouses',
  where: 'full summer venting: about one air change a minute',
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
  seeAlso: ['VENT.DRYING'],
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

export const ventilationCards: readonly ValueCard[] = [flow, dryingCard];
