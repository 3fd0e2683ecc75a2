import {
  drainMinutes,
  fillMinutes,
  floodVolume,
  OUTLET_COEFFICIENT,
  USUAL_VOIDS,
} from '../core/flooded-bed';
import { GRAVITY } from '../core/flow';
import { card, type ValueCard } from './card';
import { waterVolume } from './common-parameters';
import { number } from './parameter';
import { volumeBalance } from './water-sources';

const subject = 'Flooded beds';

const volume = card({
  id: 'FLOOD.VOLUME',
  subject,
  summary: 'Water that a flooded bed holds between its stones',
  searchWords: ['media bed', 'gravel', 'ebb and flow', 'sump', 'flood and drain', 'bell siphon'],
  parameters: [
    number('area', 'area of the bed', { unit: 'm2', above: 0, max: 1e6 }),
    number('depth', 'depth to which it is flooded', { unit: 'm', above: 0, max: 3 }),
    number('voids', 'space between the stones as a share of the bed', {
      unit: 'share',
      above: 0,
      max: 1,
      default: USUAL_VOIDS,
    }),
  ],
  result: { kind: 'number', unit: 'L', meaning: 'water' },
  method: 'Area times depth times the share of space between the stones.',
  formula: { water: 'area * depth * voids * 1000' },
  sources: [
    volumeBalance,
    {
      author: 'Stormwater guide',
      year: '',
      title: 'reservoir aggregate: clean, even stone of 20 or 50 mm',
      where: 'void share 0.40',
      evidence: 'read',
    },
  ],
  validity:
    'Usual shares: gravel of 10 to 20 mm 0.35 to 0.40, expanded clay 0.40 to 0.50. Measure your own: litres of water that fill 10 L of media. Roots and sludge take a tenth to a third.',
  dangers: ['weight', 'sulphide'],
  examples: [
    { args: [2, 0.25], result: 200, says: 'A bed of 2 m² flooded 25 cm deep' },
    { args: [2, 0.25, 0.45], result: 225, says: 'The same in expanded clay' },
  ],
  seeAlso: ['FLOOD.MINUTES', 'FLOOD.DRAIN'],
  compute: floodVolume,
});

const minutes = card({
  id: 'FLOOD.MINUTES',
  subject,
  summary: 'Minutes that a flooded bed takes to fill',
  searchWords: ['timer', 'siphon', 'ebb and flow', 'cycle', 'flood and drain', 'bell siphon'],
  parameters: [
    { ...waterVolume, meaning: 'water that the bed holds (FLOOD.VOLUME)' },
    number('flow', 'flow into the bed less what drains meanwhile', {
      unit: 'L/h',
      above: 0,
      max: 1e8,
    }),
  ],
  result: { kind: 'number', unit: 'min', meaning: 'time to fill' },
  method: 'Volume over net flow.',
  formula: { minutes: 'volume / flow * 60' },
  sources: [volumeBalance],
  validity: 'Steady flow into a drained bed.',
  dangers: ['electricity'],
  examples: [
    { args: [200, 800], result: 15, says: '200 L at a net 800 L/h' },
    { args: [225, 1000], result: 13.5, says: '225 L at a net 1000 L/h' },
  ],
  seeAlso: ['FLOOD.VOLUME', 'FLOOD.DRAIN'],
  compute: fillMinutes,
});

const drainCard = card({
  id: 'FLOOD.DRAIN',
  subject,
  summary: 'Minutes that a flooded bed takes to empty through its standpipe or siphon',
  searchWords: [
    'bell siphon',
    'standpipe',
    'drain time',
    'siphon does not break',
    'siphon does not stop',
    'ebb and flow',
    'timer',
    'flood and drain',
  ],
  parameters: [
    number('area', 'area of the bed', { unit: 'm2', above: 0, max: 1e6 }),
    number('depth', 'depth to which it is flooded', { unit: 'm', above: 0, max: 3 }),
    number('bore', 'inside width of the standpipe, siphon or drain hole', {
      unit: 'mm',
      above: 0,
      max: 3000,
    }),
    number('drop', 'height from the floor of the bed down to where the outlet lets go', {
      unit: 'm',
      min: 0,
      max: 10,
      default: 0,
    }),
    number('inflow', 'flow that still runs in', { unit: 'L/h', min: 0, max: 1e8, default: 0 }),
    number('voids', 'space between the stones as a share of the bed', {
      unit: 'share',
      above: 0,
      max: 1,
      default: USUAL_VOIDS,
    }),
    number('coefficient', 'share of the ideal flow that the outlet passes', {
      above: 0,
      max: 1,
      default: OUTLET_COEFFICIENT,
    }),
  ],
  result: { kind: 'number', unit: 'min', meaning: 'time to empty' },
  method:
    'Torricelli: an outlet passes k times the root of the head over it. The level falls from the flooded depth to the floor, solved exactly, with what still runs in.',
  formula: {
    minutes:
      '120000 * area * voids / k * IF(inflow = 0, h_1 - h_0, IF(k * h_0 <= inflow, NO_ANSWER(), h_1 - h_0 + inflow / k * LN((k * h_1 - inflow) / (k * h_0 - inflow))))',
    h_1: 'SQRT(depth + drop)',
    h_0: 'SQRT(drop)',
    k: `3600000 * coefficient * PI() / 4 * (bore / 1000)^2 * SQRT(2 * ${GRAVITY})`,
  },
  symbols: {
    h_1: 'root of the head when the bed is full, √m',
    h_0: 'root of the head when it is empty, √m',
    k: 'flow at a head of 1 m, L/h',
  },
  sources: [
    {
      author: 'Torricelli',
      year: '',
      title: 'flow from an opening under a falling head, as in any textbook of hydraulics',
      where: 'an exercise: a tank 4 ft wide, an opening of 5 in², from 6 to 2 ft in 94 s',
      evidence: 'read',
    },
    volumeBalance,
  ],
  validity:
    'A bed whose stones let the water through freely. 0.6 is the sharp-edged hole of the textbooks; long tails, elbows and roots take more away: time your own bed. A siphon only stops where it passes more than runs in until the bed is empty, so that it wants a drop below the floor; #NUM! where it would run on. A standpipe with a small hole at its foot, for a timer, must pass less than the pump gives.',
  dangers: ['electricity'],
  examples: [
    {
      args: [6, 0.3, 50, 0.3, 2000],
      result: 4.1561,
      tolerance: 0.0001,
      says: 'A bed of 6 m² flooded 30 cm deep, a siphon of 50 mm that lets go 30 cm lower, 2000 L/h running in: 4 minutes',
    },
    {
      args: ['12.5664 ft2', '4 ft', '2.52313 in', '2 ft', null, 1, 1],
      result: 1.56,
      tolerance: 0.01,
      says: 'A textbook exercise: a tank 4 ft wide, an opening of 5 in², from 6 ft of water down to 2 ft: 94 seconds',
    },
  ],
  seeAlso: ['FLOOD.VOLUME', 'FLOOD.MINUTES', 'FLOW.DRAIN'],
  compute: (area, depth, bore, drop, inflow, voids, coefficient) =>
    drainMinutes({ area, depth, voids, bore, drop, inflow, coefficient }),
});

export const floodedBedCards: readonly ValueCard[] = [volume, minutes, drainCard];
