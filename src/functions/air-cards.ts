import { dewPoint, MIN_DEW_POINT, moisture, vapourDeficit } from '../core/air';
import { card, type Source, type ValueCard } from './card';
import { airTemperature, humidity } from './climate-parameters';
import { fao56 } from './shared-sources';

/** Formula of the saturation vapour pressure in kPa over a temperature that is called so (FAO-56 equation 11). */
export const saturationFormula = <const A extends string>(air: A) =>
  `0.6108 * EXP(17.27 * ${air} / (${air} + 237.3))` as const;
const saturation = { e_s: saturationFormula('air') } as const;
const symbols = { e_s: 'vapour pressure of saturated air, kPa' };

const air = airTemperature('air', 'air temperature');
const moist = humidity('humidity', 'relative humidity');

const curve =
  'Air from -60 to 60 °C. Saturation is that of FAO-56 everywhere; the ASHRAE curve differs by less than 0.12 % from 0 to 60 °C. Below 0 °C humidity is taken over liquid water, as weather services state it.';

const idealGas: Source = {
  author: 'ASHRAE',
  year: 2017,
  title: 'Handbook - Fundamentals, chapter 1 (moist air as an ideal gas)',
  where: 'equations 20 to 26',
  evidence: 'read',
};

const vpd = card({
  id: 'AIR.VPD',
  subject: 'Air',
  summary: 'Vapour pressure deficit of the air: how strongly it draws water out of leaves',
  searchWords: [
    'VPD',
    'dry air',
    'humid',
    'transpiration',
    'mildew',
    'mould',
    'grey mould',
    'botrytis',
    'tip burn',
    'humidity',
    'tipburn',
    'powdery mildew',
    'blossom end rot',
  ],
  parameters: [air, moist],
  result: { kind: 'number', unit: 'kPa', meaning: 'vapour pressure deficit' },
  method: 'Saturation vapour pressure at the air temperature times what is missing to saturation.',
  formula: { VPD: 'e_s * (1 - humidity)', ...saturation },
  symbols,
  sources: [fao56('equation 11; deficit as in example 6')],
  validity: `${curve} It is the deficit of the air: a leaf warmer or colder than the air feels another one.`,
  caution:
    'Grey mould and mildews spread in air that stays near saturation. A day’s mean needs the mean of the deficits, not the deficit of the mean temperature.',
  dangers: ['sprays'],
  examples: [
    {
      args: [25, 0.7],
      result: 0.950333,
      tolerance: 1e-6,
      says: 'A mild day in the tunnel: 0.95 kPa',
    },
    {
      args: [20, '85 %'],
      result: 0.350742,
      tolerance: 1e-6,
      says: 'Evening air at 85 %: 0.35 kPa',
    },
    {
      args: [24.5, 0.5],
      result: 1.5375,
      tolerance: 0.001,
      says: 'Half of the 3.075 kPa that FAO-56 example 3 prints for 24.5 °C',
    },
  ],
  seeAlso: ['AIR.DEWPOINT', 'AIR.MOISTURE', 'VENT.DRYING'],
  compute: vapourDeficit,
});

const dew = card({
  id: 'AIR.DEWPOINT',
  subject: 'Air',
  summary: 'Temperature at or below which film, glass and leaves get wet',
  searchWords: [
    'condensation',
    'dripping',
    'wet leaves',
    'dew',
    'mould',
    'fog',
    'sweating cover',
    'humidity',
  ],
  parameters: [air, moist],
  result: { kind: 'number', unit: 'degC', meaning: 'dew point' },
  method:
    'The temperature at which the vapour in the air would saturate it: the saturation curve solved for temperature.',
  formula: {
    dewpoint: `IF(T_d < ${MIN_DEW_POINT}, NO_ANSWER(), T_d)`,
    T_d: '237.3 * L / (17.27 - L)',
    L: 'LN(humidity) + 17.27 * air / (air + 237.3)',
  },
  sources: [fao56('equation 14, solved for the temperature')],
  validity: `${curve} Where the dew point is below 0 °C frost forms a little sooner than it says. #NUM! where it would lie below ${MIN_DEW_POINT} °C.`,
  dangers: ['sprays'],
  examples: [
    {
      args: [20, 0.85],
      result: 17.4,
      tolerance: 0.05,
      says: 'Air of 20 °C at 85 % wets everything at 17.4 °C or colder',
    },
    {
      args: [25, 0.8],
      result: 21.31,
      tolerance: 0.01,
      says: '25 °C at 80 %: 21.31 °C, as the ASHRAE curve gives too',
    },
    {
      args: ['77 degF', '80 %'],
      result: 21.31,
      tolerance: 0.01,
      says: 'The same with other units',
    },
  ],
  seeAlso: ['AIR.VPD', 'AIR.MOISTURE', 'VENT.DRYING'],
  compute: dewPoint,
});

const water = card({
  id: 'AIR.MOISTURE',
  subject: 'Air',
  summary: 'Water vapour in a cubic metre of air',
  searchWords: ['absolute humidity', 'vapour', 'moisture'],
  parameters: [air, moist],
  result: { kind: 'number', unit: 'g/m3', meaning: 'water vapour in the air' },
  method: 'Vapour pressure as an ideal gas at the air temperature.',
  formula: {
    moisture: '2.16679 * 1000 * e_s * humidity / (air + 273.15)',
    ...saturation,
  },
  symbols,
  sources: [fao56('equation 11'), idealGas],
  validity: curve,
  examples: [
    {
      args: [20, 1],
      result: 17.3,
      tolerance: 0.05,
      says: 'Saturated air of 20 °C holds 17.3 g in each cubic metre',
    },
    {
      args: [10, '100 %'],
      result: 9.4,
      tolerance: 0.05,
      says: 'Ten degrees colder it holds hardly more than half: 9.4 g',
    },
  ],
  seeAlso: ['AIR.DEWPOINT', 'VENT.DRYING'],
  compute: moisture,
});

export const airCards: readonly ValueCard[] = [vpd, dew, water];
