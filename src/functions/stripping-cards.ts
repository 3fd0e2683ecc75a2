import { afterStripping, FITTED_AIR, FITTED_INLET, OPEN_AIR } from '../core/gas-stripping';
import { card, type ValueCard } from './card';
import { number } from './parameter';
import { plummerBusenberg } from './water-sources';

const stripped = card({
  id: 'CARBON.STRIPPED',
  subject: 'Oxygen and carbon dioxide',
  summary: 'Carbon dioxide that is left after water has fallen through a column of blown air',
  searchWords: [
    'CO2',
    'degassing',
    'stripping column',
    'trickling filter',
    'gas to liquid ratio',
    'off-gassing',
    'packed column',
  ],
  parameters: [
    number('carbon_dioxide', 'carbon dioxide in the water before (CARBON.DIOXIDE)', {
      unit: 'mg/L',
      min: 0,
      max: 500,
    }),
    number('gas_to_liquid', 'litres of air for each litre of water', { min: 0, max: 100 }),
    number('water', 'water temperature', { unit: 'degC', min: 0, max: 50, default: 20 }),
    number('air', 'carbon dioxide in the air that is blown', {
      unit: 'ppm',
      above: 0,
      max: 100000,
      default: OPEN_AIR,
      defaultText: '420 ppm, the open air',
    }),
  ],
  result: { kind: 'number', unit: 'mg/L', meaning: 'carbon dioxide after one pass' },
  method:
    'The share of a published fit for the air that is blown (77 % at three litres of air for each of water, 92 % at five) of what the water holds above what it would keep under that air.',
  formula: {
    left: 'carbon_dioxide - share * (carbon_dioxide - least)',
    share: `MIN(1, (6.44 - 5.82 * 0.648^gas_to_liquid) / (${FITTED_INLET} - ${FITTED_AIR}))`,
    least: '0.04401 * air * 10^log_K',
    log_K: '108.3865 + 0.01985076 * T - 6919.53 / T - 40.45154 * LOG10(T) + 669365 / T^2',
    T: 'water + 273.15',
  },
  symbols: {
    share: 'share that goes',
    least: 'what water keeps under this air, mg/L',
    log_K: 'solubility of carbon dioxide, mol/L/atm, as a logarithm',
    T: 'water temperature in kelvin',
  },
  sources: [
    {
      author: 'Hu et al.',
      year: 2011,
      title: 'Carbon dioxide stripping with forced air, Procedia Engineering 15:4780',
      where:
        'abstract: 80 to 88 % removed at a gas-to-liquid ratio of 5, little more above 8; the fit for about 7 mg/L by a trade page that quotes it',
      evidence: 'read',
    },
    plummerBusenberg,
  ],
  validity:
    'A column of about a metre with packing and a fan. Stones in a tank take out a fifth to a half of that (common practice). Ratios from 1 to 10; at 0 water only falls. Cold air cools the water.',
  caution:
    'What leaves the water gathers in the house: send it outside, or give the air that is blown as it is.',
  dangers: ['electricity'],
  examples: [
    {
      args: [7, 3],
      result: 2.14,
      tolerance: 0.03,
      says: 'Water of 7 mg/L at a ratio of 3: 4.86 mg/L go (the fit itself)',
    },
    {
      args: [20, 5, 27],
      result: 2.1455,
      tolerance: 0.001,
      says: 'Water of 20 mg/L at 27 °C and a ratio of 5 keeps about a tenth',
    },
  ],
  seeAlso: ['CARBON.DIOXIDE', 'LOAD.CO2'],
  compute: afterStripping,
});

export const strippingCards: readonly ValueCard[] = [stripped];
