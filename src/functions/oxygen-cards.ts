import { oxygenSaturation } from '../core/oxygen';
import { card, type ValueCard } from './card';
import { number } from './parameter';
import { bensonKrause, greenCarritt, standardAtmosphere } from './water-sources';

const subject = 'Oxygen and carbon dioxide';

/** The equations' own ranges, narrower than what other subjects take. */
export const oxygenWater = number('water', 'water temperature', { unit: 'degC', min: 0, max: 40 });
export const oxygenSalinity = number('salinity', 'salinity of the water', {
  unit: 'g/kg',
  min: 0,
  max: 40,
  default: 0,
});
export const oxygenAltitude = number(
  'altitude',
  'altitude of the farm, for the pressure of its air',
  {
    unit: 'm',
    min: -430,
    max: 5000,
    default: 0,
  },
);

export const saturation = {
  C_P: 'IF(altitude = 0, C_0, C_0 * (P - P_v) * (1 - theta_0 * P) / ((1 - P_v) * (1 - theta_0)))',
  C_0: 'EXP(157570.1 / T - 66423080 / T^2 + 12438000000 / T^3 - 862194900000 / T^4 - 139.34411 - IF(salinity = 0, 0, salinity * b))',
  b: '0.017674 - 10.754 / T + 2140.7 / T^2',
  P: '(1 - 0.0000225577 * altitude)^5.25588',
  P_v: '(1 - 0.000537 * salinity) * EXP(18.1973 * (1 - 373.16 / T) + 0.00000031813 * (1 - EXP(26.1205 * (1 - T / 373.16))) - 0.018726 * (1 - EXP(8.03945 * (1 - 373.16 / T))) + 5.02802 * LN(373.16 / T))',
  theta_0: '0.000975 - 0.00001426 * water + 0.00000006436 * water^2',
  T: 'water + 273.15',
} as const;

export const saturationSymbols = {
  C_P: 'oxygen at saturation, mg/L',
  C_0: 'oxygen at saturation at sea level, mg/L',
  P: 'air pressure in atmospheres',
  P_v: 'vapour pressure over the water in atmospheres (Green & Carritt 1967)',
  T: 'water temperature in kelvin',
};

const sources = [bensonKrause, greenCarritt, standardAtmosphere];
const method =
  'Benson & Krause 1984 for water under moist air, at the mean air pressure of the altitude (US Standard Atmosphere).';
const validity =
  'Water 0 to 40 °C, salinity to 40 g/kg, to 5000 m. Weather moves the air pressure, and the result with it, by about 2 %.';

const full = card({
  id: 'OXYGEN.FULL',
  subject,
  summary: 'Oxygen in water that holds as much as the air gives it',
  searchWords: [
    'saturation',
    'dissolved oxygen',
    'DO',
    'solubility',
    'hot water',
    'elevation',
    'altitude',
  ],
  parameters: [oxygenWater, oxygenSalinity, oxygenAltitude],
  result: { kind: 'number', unit: 'mg/L', meaning: 'oxygen at saturation' },
  method,
  formula: saturation,
  symbols: saturationSymbols,
  sources,
  validity,
  examples: [
    { args: [25], result: 8.26, tolerance: 0.006, says: 'Fresh water of 25 °C: EN 25814' },
    { args: [15], result: 10.08, tolerance: 0.006, says: 'The same at 15 °C' },
    {
      args: [20, 0, 1500],
      result: 7.553,
      tolerance: 0.0005,
      says: 'Fresh water of 20 °C on a farm 1500 m up',
    },
  ],
  seeAlso: ['OXYGEN.PERCENT', 'FLOW.OXYGEN', 'OXYGEN.TRANSFER'],
  compute: oxygenSaturation,
});

const percent = card({
  id: 'OXYGEN.PERCENT',
  subject,
  summary: 'Measured oxygen as a share of what the water could hold',
  searchWords: [
    'saturation',
    'dissolved oxygen',
    'DO',
    'supersaturation',
    'fish gasping at the surface',
    'piping',
    'low oxygen',
    'dead fish',
    'algae',
    'green water',
    'power cut',
    'outage',
    'fish dying',
  ],
  parameters: [
    number('oxygen', 'oxygen measured in the water', { unit: 'mg/L', min: 0, max: 60 }),
    oxygenWater,
    oxygenSalinity,
    oxygenAltitude,
  ],
  result: { kind: 'number', unit: 'share', meaning: 'share of saturation' },
  method: `Oxygen over saturation: ${method}`,
  formula: { share: 'oxygen / C_P', ...saturation },
  symbols: saturationSymbols,
  sources,
  validity,
  dangers: ['air'],
  examples: [
    { args: [6, 25], result: 0.726, tolerance: 0.001, says: '6 mg/L in water of 25 °C' },
    { args: [4, 28], result: 0.511, tolerance: 0.001, says: '4 mg/L at 28 °C: time to aerate' },
  ],
  seeAlso: ['OXYGEN.FULL', 'FLOW.OXYGEN'],
  compute: (oxygen, waterValue, salinityValue, altitudeValue) =>
    oxygen / oxygenSaturation(waterValue, salinityValue, altitudeValue),
});

export const oxygenCards: readonly ValueCard[] = [full, percent];
