import { fillMinutes, floodVolume, USUAL_VOIDS } from '../core/flooded-bed';
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
  seeAlso: ['FLOOD.MINUTES'],
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
  seeAlso: ['FLOOD.VOLUME'],
  compute: fillMinutes,
});

export const floodedBedCards: readonly ValueCard[] = [volume, minutes];
