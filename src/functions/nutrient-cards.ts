import { TAN_PER_PROTEIN, USUAL_PROTEIN } from '../core/load';
import {
  type CropContentName,
  cropContents,
  dissolvedShare,
  nutrientDose,
  nutrientFromFeed,
  nutrientInCrop,
} from '../core/nutrients';
import {
  type Nutrient,
  nutrients,
  nutrientShare,
  type NutrientSaltName,
  nutrientSalts,
  usualSalts,
} from '../core/tables/nutrient-salts';
import { card, type Source, type ValueCard } from './card';
import { FEED_PROTEIN, waterVolume as volume } from './common-parameters';
import { choiceBy } from './formula';
import { choice, number } from './parameter';
import { spellingsOf } from './plain-words';
import { stoichiometry, timmonsEbeling } from './water-sources';

const nutrientWords = spellingsOf<Nutrient>(nutrients);
const cropWords = spellingsOf<CropContentName>(cropContents);
const cropNames = Object.keys(cropContents) as CropContentName[];
const saltWords = { usual: [], ...spellingsOf<NutrientSaltName>(nutrientSalts) } as const;

const nutrient = choice('nutrient', 'nutrient', nutrientWords);
const nutrientNames = Object.keys(nutrients) as Nutrient[];

const strauch: Source = {
  author: 'Strauch et al.',
  year: 2018,
  title: 'Nitrogen and phosphorus in African catfish recirculation, Sustainability 10:1805',
  where:
    '10 to 16 % of the phosphorus fed is in the water; potassium gathers there, iron in solids',
  evidence: 'read',
};
const usage: Source = {
  author: 'Usage of the trade',
  year: '',
  title: 'potassium 4 to 7, calcium 1 to 3, magnesium 0.3 to 1 g dissolved for each kg of feed',
  evidence: 'common practice',
};
const plantAnalysis: Source = {
  author: 'Plant analysis tables',
  year: '',
  title: 'dry matter and nutrients of lettuce, basil, herbs, tomato and cucumber',
  where: 'middles of the ranges',
  evidence: 'memory',
};

const fromFeed = card({
  id: 'NUTRIENT.FEED',
  subject: 'Waste and oxygen load',
  summary: "Nutrient for plants that a day's feed leaves dissolved in the water",
  searchWords: ['potassium', 'calcium', 'phosphorus', 'magnesium', 'iron', 'nutrient balance'],
  parameters: [
    number('feed', 'feed given a day', { unit: 'g/day', min: 0, max: 1e9 }),
    nutrient,
    number('protein', 'protein in the feed, as on the bag; it counts for nitrogen', {
      ...FEED_PROTEIN,
      default: USUAL_PROTEIN,
      defaultText: '0.32, a usual feed for tilapia and carp',
    }),
  ],
  result: { kind: 'number', unit: 'g/day', meaning: 'nutrient, as the element' },
  method:
    'Nitrogen is the ammonia of LOAD.TAN. For each kg of feed 1.5 g of phosphorus, 5.5 of potassium, 2 of calcium and 0.65 of magnesium come into the water, and no iron to speak of: it leaves with the solids.',
  formula: {
    dissolved: 'feed * share',
    share: choiceBy(
      'nutrient',
      Object.fromEntries(
        nutrientNames.map((name) => [
          name,
          name === 'N' ? `protein * ${TAN_PER_PROTEIN}` : dissolvedShare(name, 1),
        ]),
      ),
    ),
  },
  symbols: { share: 'grams of the nutrient for a gram of feed, as above' },
  sources: [timmonsEbeling('nitrogen: 0.092 x protein'), strauch, usage],
  validity:
    'Middles of wide ranges (phosphorus 1.1 to 1.9, potassium 4 to 7, calcium 1 to 3 g a kg), with the solids taken out. Solids that decay in the system give up to 2 g more phosphorus. Water tests decide.',
  examples: [
    { args: [4000, 'K'], result: 22, says: '4 kg of feed a day: 22 g of potassium' },
    {
      args: [4000, 'nitrogen', 0.35],
      result: 128.8,
      tolerance: 1e-9,
      says: 'Nitrogen from a feed of 35 % protein',
    },
  ],
  seeAlso: ['NUTRIENT.CROP', 'DOSE.NUTRIENT', 'LOAD.TAN'],
  compute: nutrientFromFeed,
});

const inCrop = card({
  id: 'NUTRIENT.CROP',
  subject: 'Waste and oxygen load',
  summary: 'Nutrient that a harvest carries off',
  searchWords: ['potassium', 'calcium', 'uptake', 'removal', 'nutrient balance'],
  parameters: [
    number('harvest', 'what is cut or picked, fresh', { unit: 'kg', min: 0, max: 1e9 }),
    choice('crop', 'kind of crop', cropWords),
    nutrient,
  ],
  result: { kind: 'number', unit: 'g', meaning: 'nutrient, as the element' },
  method:
    'Harvest times dry matter (lettuce 5 %, basil 9, other herbs 15, tomato 5.5, cucumber 4.5) times the nutrient in it: lettuce 45 mg of nitrogen, 6.5 of phosphorus, 75 of potassium, 14 of calcium and 4 of magnesium in a gram.',
  formula: {
    carried_off: 'harvest * dry * content',
    dry: choiceBy(
      'crop',
      Object.fromEntries(cropNames.map((crop) => [crop, cropContents[crop].dry])),
    ),
    content: choiceBy('crop', Object.fromEntries(cropNames.map((crop) => [crop, crop]))),
    ...Object.fromEntries(
      cropNames.map((crop) => [crop, choiceBy('nutrient', cropContents[crop].content)]),
    ),
  },
  symbols: {
    dry: 'dry matter, a share of the fresh weight',
    content: 'nutrient in the dry matter, mg/g: a table for each kind of crop',
  },
  sources: [plantAnalysis],
  validity:
    'Recalled middles of usual ranges. Roots, stems and leaves that stay on the farm hold as much again: about two thirds of the nitrogen of a tomato crop goes into the fruit (Graber & Junge 2009).',
  examples: [
    {
      args: [0.15, 'lettuce', 'N'],
      result: 0.3375,
      tolerance: 1e-9,
      says: 'A lettuce of 150 g carries a third of a gram of nitrogen',
    },
    {
      args: [100, 'tomato', 'K'],
      result: 247.5,
      tolerance: 1e-9,
      says: '100 kg of tomatoes take a quarter of a kilo of potassium',
    },
  ],
  seeAlso: ['NUTRIENT.FEED', 'DOSE.NUTRIENT'],
  compute: nutrientInCrop,
});

const saltNames = Object.keys(nutrientSalts) as NutrientSaltName[];
/** A salt as the name of a step. */
const stepOf = (salt: string): string => salt.replaceAll(' ', '_');

/** Share of the nutrient in each salt: a step for each, which has no answer for a nutrient that it does not hold. */
const saltSteps = Object.fromEntries(
  saltNames.map((salt) => {
    const shares = nutrientNames.flatMap((name) => {
      const share = nutrientShare(salt, name);
      return share > 0 ? [[name, share] as const] : [];
    });
    const choices = choiceBy('nutrient', Object.fromEntries(shares)).slice(0, -1);
    return [stepOf(salt), `${choices}, VALUE("nutrient must be one that the salt holds"))`];
  }),
);

const dose = card({
  id: 'DOSE.NUTRIENT',
  subject: 'Dosing',
  summary: 'Salt that lifts a nutrient for the plants',
  searchWords: [
    'potassium',
    'calcium',
    'magnesium',
    'phosphorus',
    'Epsom salt',
    'deficiency',
    'yellow leaves',
    'tip burn',
    'fertiliser',
  ],
  parameters: [
    volume,
    number('from', 'nutrient now in the water, as the element', {
      unit: 'mg/L',
      min: 0,
      max: 5000,
    }),
    number('to', 'nutrient wanted', { unit: 'mg/L', above: 0, max: 5000 }),
    nutrient,
    choice('salt', 'what is added', saltWords, {
      default: 'usual',
      defaultText: 'the usual one of the nutrient',
    }),
  ],
  result: { kind: 'number', unit: 'g', meaning: 'pure salt' },
  method:
    'Rise times volume over the share of the nutrient in the salt, by molar masses; iron chelate holds a tenth (DTPA). Usual are potassium sulphate, calcium chloride dihydrate, magnesium sulphate, monopotassium phosphate, calcium nitrate and iron chelate.',
  formula: {
    grams:
      'IF(to < from, VALUE("to must be at least from; dosing cannot lower it"), (to - from) * volume / 1000 / share)',
    share: choiceBy('salt', {
      usual: 'usual',
      ...Object.fromEntries(saltNames.map((salt) => [salt, stepOf(salt)])),
    }),
    usual: choiceBy(
      'nutrient',
      Object.fromEntries(
        nutrientNames.map((name) => [name, nutrientShare(usualSalts[name], name)]),
      ),
    ),
    ...saltSteps,
  },
  symbols: { share: 'share of the nutrient in the salt' },
  sources: [stoichiometry],
  validity:
    'For the pure salt: divide by the purity on the bag. A nitrate test as NO3-N counts for nitrogen. Calcium and phosphate, calcium and sulphate fall out together: not in one bucket. Potassium and calcium come along with the base that holds pH (DOSE.BASE): count those first.',
  caution:
    'Chloride and sulphate stay in a closed system: prefer bases that bring potassium and calcium while pH needs them.',
  dangers: ['steps', 'base'],
  examples: [
    {
      args: [10000, 10, 60, 'K'],
      result: 1114.25,
      tolerance: 0.05,
      says: '10 m³ from 10 to 60 mg/L of potassium with potassium sulphate',
    },
    {
      args: [7800, 8, 15, 'magnesium', 'Epsom salt'],
      result: 553.7,
      tolerance: 0.1,
      says: '7800 L from 8 to 15 mg/L of magnesium',
    },
  ],
  seeAlso: ['NUTRIENT.FEED', 'DOSE.BASE', 'DOSE.IRON'],
  compute: nutrientDose,
});

/** What feed brings and crops take, beside the loads. */
export const nutrientCards: readonly ValueCard[] = [fromFeed, inCrop];
export const nutrientDoseCards: readonly ValueCard[] = [dose];
