import { unionisedShare } from '../core/ammonia';
import { card, type ValueCard } from './card';
import { ph, salinity, tan, water } from './common-parameters';
import { bell2007, emerson1975 } from './sources';

const plainPka = (a: { water: string; salinity: string }): string => {
  const fresh = `0.09018+2729.92/(${a.water}+273.15)`;
  if (a.salinity === '0') return `(${fresh})`;
  const sea = `10.0423-0.0315536*${a.water}+0.003071*MAX(${a.salinity},35)`;
  return `(${fresh}+(${sea}-(${fresh}))*MIN(${a.salinity}/35,1))`;
};

const plainShare = (a: { ph: string; water: string; salinity: string }): string =>
  `1/(1+10^(${plainPka(a)}-${a.ph}))`;

const unionised = card({
  id: 'AMMONIA.UNIONISED',
  subject: 'Ammonia',
  summary: 'Un-ionised ammonia nitrogen in the water, the part of total ammonia that harms fish',
  searchWords: ['NH3', 'toxic', 'free ammonia', 'water test'],
  parameters: [tan, ph, water, salinity],
  result: { kind: 'number', unit: 'mg/L', meaning: 'un-ionised ammonia, as N' },
  method:
    'TAN times the un-ionised share from the pKa of ammonium: Emerson for fresh water, Bell for sea water (35 g/kg and above), the pKa taken linearly with salinity between them.',
  formula: 'NH3 = TAN / (1 + 10^(pKa - pH))',
  sources: [emerson1975, bell2007],
  validity:
    'Fresh water 0 to 50 degC; sea water 5 to 25 degC with a probe on the NBS scale. Between fresh and sea water the share is an interpolation.',
  caution:
    'Damage to gills begins near 0.05 mg/L. A test kit that shows NH3 or NH4 instead of nitrogen needs its factor first.',
  examples: [
    {
      args: [1, 8, 24],
      result: 0.0502,
      tolerance: 0.0002,
      says: 'TAN 1.0 mg/L at pH 8.0 and 24 degC: the worked example of UF/IFAS FA16',
    },
    {
      args: [1, 8, 25],
      result: 0.0537,
      tolerance: 0.00005,
      says: 'The same test in water of 25 degC',
    },
  ],
  seeAlso: ['AMMONIA.SHARE', 'AMMONIA.CEILING', 'LOAD.TAN'],
  compute: (tanValue, phValue, waterValue, salinityValue) =>
    tanValue * unionisedShare(phValue, waterValue, salinityValue),
  plain: (a) => `${a.tan}*${plainShare(a)}`,
});

export const ammoniaCards: readonly ValueCard[] = [unionised];
