import { degreeDays } from '../core/degree-days';
import { card, type ValueCard } from './card';
import { number } from './parameter';

const day = { unit: 'degC', min: -60, max: 60 } as const;

const warmth = card({
  id: 'DEGREE.DAYS',
  subject: 'Sowing and seed',
  summary: 'Warmth of a day that counts for the growth of a crop',
  searchWords: [
    'growing degree days',
    'GDD',
    'thermal time',
    'heat units',
    'bolting',
    'too cold to grow',
  ],
  parameters: [
    number('high', 'highest air temperature of the day', day),
    number('low', 'lowest air temperature of the day', day),
    number('base', 'temperature below which the crop stands still', {
      unit: 'degC',
      min: -10,
      max: 40,
    }),
    number('ceiling', 'temperature above which more heat does no good', {
      unit: 'degC',
      above: 0,
      max: 60,
      optional: true,
      defaultText: 'none, and the plain average is taken',
    }),
  ],
  result: { kind: 'number', unit: 'degC day', meaning: 'degree days of that day' },
  method:
    'Without a ceiling the mean of high and low less the base, at least 0. With one, high and low are first brought between base and ceiling, then averaged. A cold night makes the two differ, so keep to one method.',
  formula: {
    warmth:
      'IF(low > high, NO_ANSWER(), IF(ceiling = "", MAX(0, (high + low) / 2 - base), limited))',
    limited: 'IF(ceiling > base, (high_limited + low_limited) / 2 - base, NO_ANSWER())',
    high_limited: 'MIN(MAX(high, base), ceiling)',
    low_limited: 'MIN(MAX(low, base), ceiling)',
  },
  sources: [
    {
      author: 'McMaster & Wilhelm',
      year: 1997,
      title: 'Growing degree-days: one equation, two interpretations, Agric. For. Meteorol. 87:291',
      where: 'method 1, the plain average',
      evidence: 'memory',
    },
    {
      author: 'Iowa State University',
      year: '',
      title: 'Agronomy 541, lesson 2b',
      where: 'equation 2.1 and its limits of 50 and 86 °F',
      evidence: 'read',
    },
  ],
  validity:
    'Between base and the best temperature. In days shorter than about ten hours leafy crops hardly grow whatever the warmth (common practice, no source).',
  caution:
    'The base temperatures of the crop table are usual practice: check them with your own records.',
  dangers: ['sprays'],
  examples: [
    {
      args: [22, 12, 4, 28],
      result: 13,
      says: 'Lettuce (base 4 °C) on a mild day',
    },
    {
      args: ['90 degF', '40 degF', '50 degF', '86 degF'],
      result: 10,
      tolerance: 1e-9,
      says: 'Both limits at work: 18 °F days, as in Iowa State University’s rules',
    },
    {
      args: ['90 degF', '40 degF', '50 degF'],
      result: 8.333333333,
      tolerance: 1e-8,
      says: 'The same day by the plain average: 15 °F days',
    },
  ],
  seeAlso: ['FACT.CROP', 'SOW.STAGE'],
  compute: degreeDays,
});

export const degreeDayCards: readonly ValueCard[] = [warmth];
