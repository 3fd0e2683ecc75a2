import { ammoniaCeiling, unionisedShare } from '../core/ammonia';
import { card, type ValueCard } from './card';
import { ph, salinity, tan, water } from './common-parameters';
import { number } from './parameter';
import { bell2007, emerson1975 } from './shared-sources';

/** pKa of ammonium: Emerson for fresh water, Bell for sea water, a line in salinity between them. */
const ammonium = {
  pKa: 'IF(salinity = 0, fresh, fresh + (sea - fresh) * MIN(salinity / 35, 1))',
  fresh: '0.09018 + 2729.92 / (water + 273.15)',
  sea: '10.0423 - 0.0315536 * water + 0.003071 * MAX(salinity, 35)',
} as const;

const sources = [emerson1975, bell2007];
const validity =
  'Fresh water 0 to 50 °C; sea water 5 to 25 °C with a probe on the NBS scale. Between fresh and sea water the share is an interpolation.';

const share = card({
  id: 'AMMONIA.SHARE',
  subject: 'Ammonia',
  summary: 'Share of total ammonia that is un-ionised, the form that harms fish',
  searchWords: ['NH3', 'toxic', 'free ammonia', 'fraction'],
  parameters: [ph, water, salinity],
  result: { kind: 'number', unit: 'share', meaning: 'un-ionised share of total ammonia' },
  method:
    'From the pKa of ammonium: Emerson for fresh water, Bell for sea water (35 g/kg and above), the pKa taken linearly with salinity between them.',
  formula: { share: '1 / (1 + 10^(pKa - ph))', ...ammonium },
  sources,
  validity,
  examples: [
    {
      args: [8, 20],
      result: 0.0381,
      tolerance: 0.0002,
      says: 'pH 8.0 at 20 °C: UF/IFAS FA16, table 1',
    },
    {
      args: [8, 15, 34],
      result: 0.0207,
      tolerance: 0.0005,
      says: 'Sea water at pH 8.0 and 15 °C: Bower & Bidwell 1978',
    },
  ],
  seeAlso: ['AMMONIA.UNIONISED', 'AMMONIA.CEILING'],
  compute: unionisedShare,
});

const unionised = card({
  id: 'AMMONIA.UNIONISED',
  subject: 'Ammonia',
  summary: 'Un-ionised ammonia nitrogen in the water, the part of total ammonia that harms fish',
  searchWords: [
    'NH3',
    'toxic',
    'free ammonia',
    'water test',
    'dead fish',
    'burnt gills',
    'algae',
    'green water',
    'ammonia spike',
    'fish dying',
    'lethal ammonia',
  ],
  parameters: [tan, ph, water, salinity],
  result: { kind: 'number', unit: 'mg/L', meaning: 'un-ionised ammonia, as N' },
  method:
    'TAN times the un-ionised share from the pKa of ammonium: Emerson for fresh water, Bell for sea water (35 g/kg and above), the pKa taken linearly with salinity between them.',
  formula: { NH3: 'tan / (1 + 10^(pKa - ph))', ...ammonium },
  sources,
  validity,
  caution:
    'Damage to gills begins near 0.05 mg/L. A test kit that shows NH3 or NH4 instead of nitrogen needs its factor first.',
  examples: [
    {
      args: [1, 8, 24],
      result: 0.0502,
      tolerance: 0.0002,
      says: 'TAN 1.0 mg/L at pH 8.0 and 24 °C: the worked example of UF/IFAS FA16',
    },
    {
      args: [1, 8, 25],
      result: 0.0537,
      tolerance: 0.00005,
      says: 'The same test in water of 25 °C',
    },
  ],
  seeAlso: ['AMMONIA.SHARE', 'AMMONIA.CEILING', 'LOAD.TAN'],
  compute: (tanValue, phValue, waterValue, salinityValue) =>
    tanValue * unionisedShare(phValue, waterValue, salinityValue),
});

const ceiling = card({
  id: 'AMMONIA.CEILING',
  subject: 'Ammonia',
  summary: 'Total ammonia at which the un-ionised part reaches a limit',
  searchWords: ['NH3', 'toxic', 'safe level', 'alarm', 'dead fish'],
  parameters: [
    number('limit', 'un-ionised ammonia not to be passed, as N', {
      unit: 'mg/L',
      above: 0,
      max: 100,
    }),
    ph,
    water,
    salinity,
  ],
  result: { kind: 'number', unit: 'mg/L', meaning: 'total ammonia nitrogen, as N' },
  method: 'The limit over the un-ionised share (AMMONIA.SHARE).',
  formula: { TAN: 'limit * (1 + 10^(pKa - ph))', ...ammonium },
  sources,
  validity,
  caution:
    'At low pH the figure is far beyond what any tank should hold: total ammonia above 1 to 2 mg/L calls for action whatever this says, for pH may rise.',
  examples: [
    {
      args: [0.05, 8, 24],
      result: 0.996,
      tolerance: 0.005,
      says: '0.05 mg/L is reached near TAN 1.0 at pH 8.0 and 24 °C: UF/IFAS FA16 read backwards',
    },
    { args: [0.05, 7, 25], result: 8.86, tolerance: 0.01, says: 'The same limit at pH 7.0' },
  ],
  seeAlso: ['AMMONIA.UNIONISED', 'AMMONIA.SHARE'],
  compute: ammoniaCeiling,
});

export const ammoniaCards: readonly ValueCard[] = [share, unionised, ceiling];
