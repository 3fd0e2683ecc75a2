import { carbonDioxide } from '../core/carbonate';
import { card, type ValueCard } from './card';
import { number } from './parameter';
import { plummerBusenberg } from './water-sources';

const dioxide = card({
  id: 'CARBON.DIOXIDE',
  subject: 'Oxygen and carbon dioxide',
  summary: 'Carbon dioxide dissolved in the water, from its pH and alkalinity',
  searchWords: ['CO2', 'degassing', 'carbonic acid', 'sluggish fish', 'off-gassing', 'fish dying'],
  parameters: [
    number('ph', 'pH of the water', { unit: 'pH', min: 4.5, max: 10 }),
    number('alkalinity', 'total alkalinity', { unit: 'mg/L as CaCO3', above: 0, max: 2000 }),
    number('water', 'water temperature', { unit: 'degC', min: 0, max: 50 }),
  ],
  result: { kind: 'number', unit: 'mg/L', meaning: 'carbon dioxide' },
  method:
    'Bicarbonate from the alkalinity, less its share of carbonate; carbon dioxide from bicarbonate, pH and the first constant of carbonic acid at that temperature.',
  formula: {
    CO2: 'IF(A_C <= 0, VALUE("pH and alkalinity do not fit together; measure both again"), 44010 * HCO3 * 10^(pK1 - ph))',
    HCO3: 'A_C / (1 + 2 * 10^(ph - pK2))',
    A_C: 'alkalinity / 50043 + 10^(0 - ph) - 10^(ph - 14)',
    pK1: '356.3094 + 0.06091964 * T - 21834.37 / T - 126.8339 * LOG10(T) + 1684915 / T^2',
    pK2: '107.8871 + 0.03252849 * T - 5151.79 / T - 38.92561 * LOG10(T) + 563713.9 / T^2',
    T: 'water + 273.15',
  },
  symbols: {
    HCO3: 'bicarbonate, mol/L',
    A_C: 'alkalinity of bicarbonate and carbonate, mol/L',
    T: 'water temperature in kelvin',
  },
  sources: [plummerBusenberg],
  validity:
    'Fresh water whose alkalinity is carbonate. Water with 200 to 500 mg/L of dissolved solids holds about a tenth less than computed. An error of 0.1 in pH changes the result by a quarter, so measure pH in the tank, before gas escapes.',
  caution:
    'Keep below 20 mg/L. More air, not more base, drives it out. In a closed shed it gathers in the air that people yieldToPage.',
  examples: [
    {
      args: [6.8, 50, 25],
      result: 15.65,
      tolerance: 0.15,
      says: 'Alkalinity 50 mg/L at pH 6.8 and 25 °C: the worked example of Tucker 1984',
    },
    { args: [7.4, 100, 20], result: 8.43, tolerance: 0.05, says: 'A usual tank at 20 °C' },
  ],
  seeAlso: ['LOAD.CO2', 'DOSE.BASE'],
  compute: carbonDioxide,
});

export const carbonateCards: readonly ValueCard[] = [dioxide];
