import { notKnown } from '../core/errors';
import { type Crop, usual } from '../core/tables/crops';
import { waterUse } from '../core/water-use';
import { card, type Source, type ValueCard } from './card';
import { latitude } from './climate-parameters';
import { cropTable } from './crop-table';
import { date, nameOrNumber, number } from './parameter';
import { fao56 } from './shared-sources';
import { radiationFormula, radiationSymbols } from './sun-cards';

function coefficientOf(crop: Crop): number {
  const found = usual(crop, 'kc_mid');
  if (found === undefined) {
    throw notKnown(
      `No crop coefficient is known for ${crop.name}; give a number instead (1 for a full leaf canopy)`,
    );
  }
  return found;
}

const crop = nameOrNumber('crop', 'crop, or its crop coefficient (Kc)', cropTable.book, {
  above: 0,
  max: 2,
  default: 1,
  defaultText: '1, the reference grass',
  of: coefficientOf,
});

const dayTemperature = { unit: 'degC', min: -60, max: 60 } as const;

const underPlastic: Source = {
  author: 'Fernandez, Bonachela, Orgaz, Thompson, Lopez, Granados, Gallardo & Fereres',
  year: 2010,
  title:
    'Measurement and estimation of plastic greenhouse reference evapotranspiration in a Mediterranean climate, Irrigation Science',
  where:
    'abstract: Hargreaves is recommended for its simplicity; grass took just under 1 mm/day in winter, about 4 in July, a fifth less when whitened',
  evidence: 'read',
};

const use = card({
  id: 'WATER.USE',
  subject: 'Water and heat',
  summary: 'Water that a crop takes up in a day, by the day’s high and low and the season',
  searchWords: [
    'evapotranspiration',
    'irrigation',
    'top up',
    'make-up water',
    'Kc',
    'thirst',
    'evaporation',
    'top off',
    'losing water',
  ],
  parameters: [
    number('area', 'area covered by the crop', { unit: 'm2', above: 0, max: 10000000 }),
    number('high', 'highest air temperature of the day', dayTemperature),
    number('low', 'lowest air temperature of the day', dayTemperature),
    latitude,
    date('date', 'the day'),
    crop,
  ],
  result: { kind: 'number', unit: 'L/day', meaning: 'water the crop takes up' },
  method:
    'Reference evapotranspiration by Hargreaves from the day’s high and low and the sunshine above the air, times the crop coefficient at full leaf, times the area (1 mm on 1 m² is 1 L).',
  formula: {
    use: 'IF(high < low, VALUE("high must not be below low"), area * Kc * ET_0)',
    Kc: 'IF(ISNUMBER(crop), crop, IF(crop.kc_mid = "", NA(), crop.kc_mid))',
    ET_0: '0.0023 * MAX(0, (high + low) / 2 + 17.8) * SQRT(high - low) * 0.408 * Ra',
    ...radiationFormula,
  },
  symbols: {
    Kc: 'crop coefficient',
    ET_0: 'water that grass takes up, mm/day',
    ...radiationSymbols,
  },
  sources: [fao56('equations 21 and 52, Kc mid from table 12'), underPlastic],
  validity:
    'Outdoors, as the mean of a week or more: single days may be well off, and humid or windy places need a local check. Under a cover take the outside high and low and multiply by the share of light the cover lets in, about 0.6 to 0.8 (common practice, no source): the inside high exaggerates. In a mean of less than -17.8 °C it is 0. Young plants take half to two thirds (Kc at planting 0.5 to 0.7, FAO-56 table 12).',
  caution:
    'What the tank loses is more: open water, splash and solids discharge come on top. FAO Technical Paper 589 gives 1 to 3 % of the water volume a day in all; plan the supply for the upper end.',
  dangers: ['chlorine', 'coli'],
  examples: [
    {
      args: [1, 26.6, 14.8, 45.72, '2026-07-15'],
      result: 5.03,
      tolerance: 0.005,
      says: 'Grass at 45.7 N in mid July: 5.0 mm, that is 5 L a square metre',
    },
    {
      args: [100, 26.6, 14.8, 45.72, '2026-07-15', 'tomato'],
      result: 578.8,
      tolerance: 0.05,
      says: 'The same days on 100 m² of tomatoes in full leaf (Kc 1.15)',
    },
    {
      args: ['1000 ft2', '61 degF', '46 degF', '36.8 N', '2026-01-15', 0.9],
      result: 114.38,
      tolerance: 0.005,
      says: 'A mild winter day, Kc given as a number',
    },
  ],
  seeAlso: ['SUN.RADIATION', 'FACT.CROP', 'FLOW.TURNOVER'],
  compute: waterUse,
});

export const waterUseCards: readonly ValueCard[] = [use];
