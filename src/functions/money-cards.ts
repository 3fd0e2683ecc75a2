import { bedWeekIncome, breakEvenPrice } from '../core/money';
import { card, type ValueCard } from './card';
import { number } from './parameter';

const perPlant = number(
  'yield',
  'what one plant gives over its whole time in the bed: kg, or pieces where the price is for one piece',
  { unit: 'kg', above: 0, max: 10000 },
);

const bedWeek = card({
  id: 'MONEY.BEDWEEK',
  subject: 'Money',
  summary:
    'Income for each week in bed, to compare crops and spacings that compete for the same beds',
  searchWords: ['profit', 'income', 'revenue', 'which crop pays', 'compare crops', 'price'],
  parameters: [
    number('plants', 'plants in the bed', { unit: 'plants', above: 0, max: 10000000 }),
    perPlant,
    number('price', 'price for one kg (or one piece)', {
      unit: 'money',
      above: 0,
      max: 1000000000,
    }),
    number('weeks', 'weeks the bed is taken, from planting to clearing', {
      unit: 'week',
      above: 0,
      max: 520,
    }),
    number('area', 'area of the bed', {
      unit: 'm2',
      above: 0,
      max: 1000000,
      optional: true,
      defaultText: 'the income is for the whole bed',
    }),
  ],
  result: {
    kind: 'number',
    unit: 'money',
    meaning: 'income a week, for each m² where the area is given, otherwise for the bed',
  },
  method:
    'Plants times yield times price, divided by the weeks in bed and by the area. Income, not profit: labour, seed and packaging still come off.',
  formula: { income: 'plants * yield * price / weeks / IF(area = "", 1, area)' },
  sources: [
    {
      author: 'Bailey & Ferrarezi',
      year: 2017,
      title:
        'Valuation of vegetable crops in the UVI aquaponic system, Aquaculture Reports 7:77-82',
      where: 'value by area and time',
      evidence: 'read',
    },
    {
      author: 'Chung',
      year: 1985,
      title: 'Australian Journal of Experimental Agriculture 25:959-962',
      where: 'broccoli: 2.8, 8.3 and 16.7 plants/m² gave 12, 23 and 16 t/ha',
      evidence: 'read',
    },
  ],
  validity:
    'Yield and price in the same unit, for what is sold. Give every crop its area or none, so that like is compared with like.',
  examples: [
    {
      args: [30, 0.1, 8, 3, 1],
      result: 8,
      says: '30 leafy plants of 100 g on a square metre, three weeks, 8 a kg: 8 a week',
    },
    {
      args: [6, 0.43, 3, 12],
      result: 0.645,
      says: 'Six broccoli with large heads (0.43 kg, Chung 1985) at 3 a kg: 0.65 a week for the bed',
    },
    {
      args: [16, 0.1, 9, 12],
      result: 1.2,
      says: 'Sixteen slender stems (0.10 kg) at three times the price: 1.20, nearly twice as much',
    },
    {
      args: [16, 0.1, 4.8375, 12],
      result: 0.645,
      says: 'The stems draw level at 1.61 times the price of heads: below that large heads win',
    },
  ],
  seeAlso: ['MONEY.BREAKEVEN', 'BED.AREA', 'FACT.CROP'],
  compute: bedWeekIncome,
});

const breakEven = card({
  id: 'MONEY.BREAKEVEN',
  subject: 'Money',
  summary: 'Price at which a crop just covers its cost',
  searchWords: ['cost', 'cover costs', 'lowest price', 'profit', 'break even price'],
  parameters: [
    number('cost', 'cost of the crop', { unit: 'money', above: 0, max: 1000000000000 }),
    number('yield', 'what can be sold of it for that cost: kg, or pieces', {
      unit: 'kg',
      above: 0,
      max: 1000000000,
    }),
  ],
  result: { kind: 'number', unit: 'money', meaning: 'price for one kg (or piece)' },
  method: 'Cost divided by what is sold, both for the same area and time.',
  formula: { price: 'cost / yield' },
  sources: [
    {
      author: 'Jovicich, VanSickle, Cantliffe & Stoffella',
      year: 2005,
      title: 'Greenhouse-grown colored peppers, HortTechnology 15:355-369',
      where: '41.09 $/m² over 13 kg/m² gives 3.16 $/kg',
      evidence: 'read',
    },
  ],
  validity:
    'As good as the list of costs: feed, fingerlings, seed, energy, packaging, transport, repairs, interest and all labour, your own too. With the price in place of the yield it gives the yield that covers the cost.',
  examples: [
    {
      args: [41.09, 13],
      result: 3.16,
      tolerance: 0.005,
      says: 'Greenhouse pepper in Florida, per square metre (Jovicich et al. 2005)',
    },
    {
      args: [1200, '400 lb'],
      result: 6.6139,
      tolerance: 0.0001,
      says: '1200 for a crop of 400 lb: 6.61 a kilogram',
    },
  ],
  seeAlso: ['MONEY.BEDWEEK'],
  compute: breakEvenPrice,
});

export const moneyCards: readonly ValueCard[] = [bedWeek, breakEven];
