import {
  blowerWatts,
  diffusedAir,
  RATED_SATURATION,
  TRANSFER_THETA,
  transferFactor,
  USUAL_ALPHA,
  USUAL_BETA,
  USUAL_TAKEN_PER_METRE,
} from '../core/aeration';
import { GRAVITY } from '../core/flow';
import { card, type Source, type ValueCard } from './card';
import {
  oxygenAltitude,
  oxygenSalinity,
  oxygenWater,
  saturation,
  saturationSymbols,
} from './oxygen-cards';
import { number } from './parameter';
import { bensonKrause, greenCarritt, standardAtmosphere, volumeBalance } from './water-sources';

const oxygen = number('oxygen', 'oxygen that the tank holds', { unit: 'mg/L', min: 0, max: 60 });
const alpha = number('alpha', 'transfer in this water over that in clean water', {
  unit: 'share',
  above: 0,
  max: 1.2,
  default: USUAL_ALPHA,
});
const beta = number('beta', 'saturation of this water over that of clean water as salt', {
  unit: 'share',
  above: 0.5,
  max: 1,
  default: USUAL_BETA,
});
const theta = number('theta', 'rise of the transfer for each degree', {
  min: 1,
  max: 1.1,
  default: TRANSFER_THETA,
});

const factor = {
  factor: `alpha * (beta * C_P - oxygen) / ${RATED_SATURATION} * theta^(water - 20)`,
  ...saturation,
} as const;
const factorSymbols = { factor: 'transfer in the tank over the rated one', ...saturationSymbols };

const asce: Source = {
  author: 'American Society of Civil Engineers',
  year: 2007,
  title: 'ASCE/EWRI 2-06, Measurement of oxygen transfer in clean water',
  where: 'standard rate, and its use in the field with alpha, beta and theta',
  evidence: 'memory',
};
const indianStandard: Source = {
  author: 'Bureau of Indian Standards',
  year: 1992,
  title: 'IS 13166, aerators',
  where: 'summary: theta 1.024, transfer in proportion to the deficit',
  evidence: 'read',
};
const alphaPractice: Source = {
  author: 'Textbooks of waste water',
  year: '',
  title:
    'alpha 0.8 to 0.95 in clear fish water, 0.4 to 0.8 with fine bubbles in dirty water; beta 0.95 to 1',
  evidence: 'memory',
};
const oxygenSources = [bensonKrause, greenCarritt, standardAtmosphere];

const transfer = card({
  id: 'OXYGEN.TRANSFER',
  subject: 'Oxygen and carbon dioxide',
  summary: 'Oxygen that an aerator brings in a tank, from its standard rate',
  searchWords: [
    'SOTR',
    'OTR',
    'AOR',
    'oxygen transfer rate',
    'aerator',
    'aeration efficiency',
    'field rate',
    'air stone',
    'paddlewheel',
    'venturi',
    'alpha factor',
  ],
  parameters: [
    number(
      'standard',
      'standard oxygen transfer rate (SOTR): clean water of 20 °C without oxygen',
      {
        unit: 'kg/h',
        above: 0,
        max: 1e6,
      },
    ),
    oxygenWater,
    oxygen,
    alpha,
    beta,
    theta,
    oxygenSalinity,
    oxygenAltitude,
  ],
  result: {
    kind: 'number',
    unit: 'kg/h',
    meaning: 'oxygen brought; negative where it drives oxygen out',
  },
  method:
    'Standard rate times alpha times what is missing to saturation (beta times saturation, less the level) over 9.092 mg/L, times theta for each degree from 20.',
  formula: { OTR: 'standard * factor', ...factor },
  symbols: factorSymbols,
  sources: [asce, indianStandard, alphaPractice, ...oxygenSources],
  validity:
    'Aerators at the surface and stones to about 2 m; in deeper water bubbles give more, since their pressure lifts the saturation. Aerators give least when the tank holds most: 8 mg/L in warm water asks for several times the air of 5.',
  dangers: ['air', 'electricity'],
  examples: [
    {
      args: [1, 28, 5, 0.9, 0.98],
      result: 0.3196,
      tolerance: 0.002,
      says: 'A kilogram an hour by its rating, in a tank of 28 °C with 5 mg/L: a third of it',
    },
    {
      args: [1, 15, 7, 0.9, 0.98],
      result: 0.2534,
      tolerance: 0.002,
      says: 'The same with trout at 15 °C and 7 mg/L: a quarter',
    },
    {
      args: [1, 20, 0, 1, 1],
      result: 1,
      tolerance: 0.002,
      says: 'In the conditions of the rating: what the rating says',
    },
  ],
  seeAlso: ['OXYGEN.FISH', 'AIR.DIFFUSED', 'OXYGEN.FULL'],
  compute: (standard, water, level, a, b, t, salinity, altitude) =>
    standard *
    transferFactor({ water, oxygen: level, alpha: a, beta: b, theta: t, salinity, altitude }),
});

const diffused = card({
  id: 'AIR.DIFFUSED',
  subject: 'Air',
  summary: 'Air that stones or diffusers must blow to bring a tank its oxygen',
  searchWords: [
    'air stones',
    'air pump size',
    'diffuser',
    'SOTE',
    'bubbles',
    'how many air stones',
    'aeration',
    'cfm',
  ],
  parameters: [
    number('use', 'oxygen to bring an hour (OXYGEN.FISH), at the peak', {
      unit: 'g/h',
      min: 0,
      max: 1e9,
    }),
    number('depth', 'depth of the stones below the surface', { unit: 'm', above: 0, max: 10 }),
    oxygenWater,
    oxygen,
    number('per_metre', 'share of the oxygen in the air that dissolves for each m of depth', {
      unit: 'share',
      above: 0,
      max: 1,
      default: USUAL_TAKEN_PER_METRE,
      defaultText: '0.03, coarse stones',
    }),
    alpha,
    beta,
    theta,
    oxygenSalinity,
    oxygenAltitude,
  ],
  result: { kind: 'number', unit: 'm3/h', meaning: 'free air, of 20 °C at sea level' },
  method:
    'Oxygen over what a cubic metre of free air gives: its 0.2787 kg of oxygen, times the share that dissolves on the way up, times the share of the standard rate that is left in this tank (OXYGEN.TRANSFER).',
  formula: {
    air: `IF(factor <= 0, NO_ANSWER(), use / 1000 / (MIN(1, per_metre * depth) * 1.204 * 0.2315 * factor))`,
    ...factor,
  },
  symbols: factorSymbols,
  sources: [
    {
      author: 'Usage of the trade',
      year: '',
      title:
        'air stones in tanks of 1 m: 2 to 4 % of the oxygen dissolves; coarse bubbles 2 to 3, fine ones 5 to 7 % a metre',
      evidence: 'common practice',
    },
    asce,
    alphaPractice,
    ...oxygenSources,
  ],
  validity:
    'Stones from 0.3 to 3 m. Clogged stones give half: clean them, and leave a tenth or a fifth over. #NUM! where the tank holds so much that air brings none.',
  dangers: ['air', 'electricity'],
  examples: [
    {
      args: [1000, 1, 28, 5, 0.05, 0.9, 0.98],
      result: 225,
      tolerance: 2,
      says: 'A kilogram an hour at 28 °C and 5 mg/L where 5 % dissolves: 225 m³ of air an hour',
    },
    {
      args: [80, 1, 27, 5.5],
      result: 37.54,
      tolerance: 0.05,
      says: '80 g an hour for a tank of 27 °C that is to hold 5.5 mg/L, stones a metre deep',
    },
  ],
  seeAlso: ['AIR.BLOWER', 'OXYGEN.FISH', 'OXYGEN.TRANSFER'],
  compute: (use, depth, water, level, perMetre, a, b, t, salinity, altitude) =>
    diffusedAir(use, depth, perMetre, {
      water,
      oxygen: level,
      alpha: a,
      beta: b,
      theta: t,
      salinity,
      altitude,
    }),
});

const blower = card({
  id: 'AIR.BLOWER',
  subject: 'Air',
  summary: 'Power that a blower or air pump draws, from air and depth',
  searchWords: [
    'air pump',
    'electricity',
    'kilowatt',
    'blower size',
    'compressor',
    'back pressure',
    'power bill',
  ],
  parameters: [
    number('air', 'free air that it moves (AIR.DIFFUSED)', { unit: 'm3/h', min: 0, max: 1e7 }),
    number('depth', 'depth of the stones below the surface', { unit: 'm', min: 0, max: 10 }),
    number('loss', 'pressure lost in pipes and stones', {
      unit: 'kPa',
      min: 0,
      max: 50,
      default: 3,
      defaultText: '3 kPa; put 0.01 for none',
    }),
    number('efficiency', 'share of the power from the wall that ends in the air', {
      unit: 'share',
      above: 0,
      max: 1,
      default: 0.4,
    }),
  ],
  result: { kind: 'number', unit: 'W', meaning: 'power from the wall' },
  method:
    'Air times pressure, over efficiency. The pressure is 9.81 kPa for each metre of water, and what pipes and stones cost.',
  formula: { W: `air / 3.6 * (${GRAVITY} * depth + loss) / efficiency` },
  sources: [
    volumeBalance,
    {
      author: 'Usage of the trade',
      year: '',
      title: 'losses 2 to 5 kPa, small blowers turn 30 to 60 % of what they draw into air',
      evidence: 'common practice',
    },
  ],
  validity:
    'To about 20 kPa: the air is taken as if it were not squeezed, which at 15 kPa says 5 % too much, on the safe side. The curve of the blower at this pressure decides.',
  dangers: ['electricity', 'air'],
  examples: [
    {
      args: [100, 0, 15, 0.5],
      result: 833,
      tolerance: 3,
      says: '100 m³ an hour against 15 kPa at one half: 833 W',
    },
    { args: [37.5, 1], result: 333.5, tolerance: 0.1, says: 'The air of a tank, a metre deep' },
  ],
  seeAlso: ['AIR.DIFFUSED', 'FLOW.WATTS'],
  compute: blowerWatts,
});

export const aerationCards: readonly ValueCard[] = [transfer];
export const blownAirCards: readonly ValueCard[] = [diffused, blower];
