import {
  baseDose,
  checkBeforeBase,
  CHLORIDE_PER_NITRITE_N,
  dechlorDose,
  HARMFUL_UNIONISED,
  ironDose,
  MAX_PH,
  MAX_PH_FOR_BASE,
  OLD_TEST,
  saltDose,
  THIOSULPHATE_PER_CHLORINE,
} from '../core/dosing';
import { type BaseName, bases, gramsPerAlkalinity } from '../core/tables/bases';
import { IRON_SHARE } from '../core/tables/nutrient-salts';
import { gramsPerChloride, type SaltName, salts } from '../core/tables/salts';
import { card, type Source, type ValueCard } from './card';
import { waterVolume as volume } from './common-parameters';
import { choiceBy } from './formula';
import { choice, number } from './parameter';
import { spellingsOf } from './plain-words';
import { nitriteExtension, stoichiometry, uviPractice } from './water-sources';

const subject = 'Dosing';

const baseWords = spellingsOf<BaseName>(bases);
const saltWords = spellingsOf<SaltName>(salts);
const baseNames = Object.keys(bases) as BaseName[];
const saltNames = Object.keys(salts) as SaltName[];

const factors = <W extends string>(names: readonly W[], of: (name: W) => number) =>
  Object.fromEntries(names.map((name) => [name, of(name)]));

const base = card({
  id: 'DOSE.BASE',
  subject,
  summary: 'Base that lifts alkalinity, and with it pH',
  searchWords: [
    'buffer',
    'lime',
    'potash',
    'raise pH',
    'KH',
    'carbonate hardness',
    'pH crash',
    'pH falls',
    'low pH',
    'pH too low',
    'calcium',
    'potassium',
    'blossom end rot',
  ],
  parameters: [
    volume,
    number('from', 'alkalinity now', { unit: 'mg/L as CaCO3', min: 0, max: 2000 }),
    number('to', 'alkalinity wanted', { unit: 'mg/L as CaCO3', above: 0, max: 2000 }),
    choice('base', 'what is added', baseWords, {
      default: 'potassium bicarbonate',
      defaultText: 'potassium bicarbonate, the mildest',
    }),
    number('ph', 'pH of the water now', {
      unit: 'pH',
      above: 0,
      max: 14,
      optional: true,
      defaultText: 'pH is not looked at',
    }),
    number('tan', 'total ammonia nitrogen now, looked at together with ph', {
      unit: 'mg/L',
      min: 0,
      max: 1000,
      optional: true,
      defaultText: 'ammonia is not looked at',
    }),
    number('water', 'water temperature', {
      unit: 'degC',
      above: 0,
      max: 50,
      default: 28,
    }),
    number('age', 'days since the tests', {
      unit: 'day',
      min: 0,
      max: 10000,
      default: 0,
      defaultText: '0, tested today',
    }),
    number('harmful', 'un-ionised ammonia nitrogen from which these fish are harmed', {
      unit: 'mg/L',
      above: 0,
      max: 1000,
      default: HARMFUL_UNIONISED,
      defaultText: '0.05, for warm-water fish; trout 0.0125 (FACT.FISH)',
    }),
  ],
  result: { kind: 'number', unit: 'g', meaning: 'pure base' },
  method:
    'Rise times volume times the grams of base for a gram of alkalinity as CaCO3: potassium bicarbonate 2.00, potassium carbonate 1.38, potassium hydroxide 1.12, calcium hydroxide 0.74, calcium carbonate 1.00, sodium bicarbonate 1.68. Where pH, ammonia or the age of the test are given, there is no answer for water above pH 7.6, for tests older than 14 days, and where the pH that can follow (by the ratio of the alkalinities, up to 8.3) would leave as much of the ammonia un-ionised as harms the fish.',
  formula: {
    grams: `IF(to < from, VALUE("to must be at least from; dosing cannot lower it"), IF(age > ${OLD_TEST}, NO_ANSWER(), IF(ph = "", dose, IF(ph > ${MAX_PH_FOR_BASE}, NO_ANSWER(), IF(tan = "", dose, IF(unionised >= harmful, NO_ANSWER(), dose))))))`,
    dose: '(to - from) * volume / 1000 * factor',
    factor: choiceBy('base', factors(baseNames, gramsPerAlkalinity)),
    unionised: 'tan / (1 + 10^(pKa - ph_after))',
    pKa: '0.09018 + 2729.92 / (water + 273.15)',
    ph_after: `MIN(${MAX_PH}, ph + IF(from > 0, LOG10(to / from), 9))`,
  },
  symbols: {
    factor: 'grams of the base for a gram of alkalinity, as above',
    unionised: 'ammonia that would be un-ionised, mg/L',
    pKa: 'of ammonium in fresh water',
    ph_after: 'pH that can follow',
  },
  sources: [stoichiometry, uviPractice],
  validity:
    'For the pure substance: divide by the purity on the bag (0.9 for 90 %). Calcium carbonate stops dissolving usefully near pH 7.4. Potassium and calcium bases by turns feed the plants evenly.',
  caution: 'Spread a large rise over several days. Sodium builds up and harms plants.',
  dangers: ['base', 'steps'],
  examples: [
    {
      args: [7800, 40, 60],
      result: 312.09,
      tolerance: 0.05,
      says: '7800 L from 40 to 60 mg/L with potassium bicarbonate',
    },
    {
      args: [7800, 40, 60, 'calcium hydroxide'],
      result: 115.48,
      tolerance: 0.02,
      says: 'The same with hydrated lime: little over a third of the weight, and caustic',
    },
    {
      args: [7800, 40, 60, null, 6.6, 0.8, 27, 2],
      result: 312.1,
      tolerance: 0.05,
      says: 'Tested two days ago, pH 6.6 and 0.8 mg/L of ammonia: the rise harms no gill',
    },
  ],
  seeAlso: ['LOAD.ALKALINITY', 'CARBON.DIOXIDE', 'AMMONIA.UNIONISED'],
  compute: (litres, from, to, what, acidity, ammonia, degrees, days, harmful) => {
    const grams = baseDose(litres, from, to, what);
    checkBeforeBase({ ph: acidity, tan: ammonia, water: degrees, age: days, harmful }, from, to);
    return grams;
  },
});

const salt = card({
  id: 'DOSE.SALT',
  subject,
  summary: 'Salt whose chloride keeps nitrite out of the fish',
  searchWords: [
    'nitrite',
    'brown blood',
    'chloride',
    'NO2',
    'brown gills',
    'nitrite spike',
    'fish dying',
  ],
  parameters: [
    volume,
    number('nitrite', 'nitrite, as nitrogen (NO2-N)', { unit: 'mg/L', min: 0, max: 200 }),
    number('chloride', 'chloride now in the water', { unit: 'mg/L', min: 0, max: 20000 }),
    number('ratio', 'chloride for each weight of nitrite nitrogen', {
      above: 0,
      max: 200,
      default: CHLORIDE_PER_NITRITE_N,
      defaultText: '33, which is the usual 10 to 1 on the nitrite ion',
    }),
    choice('salt', 'what is added', saltWords, {
      default: 'calcium chloride',
      defaultText: 'calcium chloride, free of water, which plants bear',
    }),
  ],
  result: { kind: 'number', unit: 'g', meaning: 'pure salt' },
  method:
    'Chloride wanted is the ratio times nitrite nitrogen; what is missing is brought by the salt: sodium chloride 1.65 g a g of chloride, calcium chloride 1.57 (dihydrate 2.07), potassium chloride 2.10. The usual 10:1 on the nitrite ion is 33:1 on nitrite-N.',
  formula: {
    grams: 'MAX(0, ratio * nitrite - chloride) * volume / 1000 * factor',
    factor: choiceBy('salt', factors(saltNames, gramsPerChloride)),
  },
  symbols: { factor: 'grams of the salt for a gram of chloride, as above' },
  sources: [nitriteExtension, stoichiometry],
  validity:
    'The ratio was found for channel catfish; it slows the uptake of nitrite and does not remove it. A test kit that shows the nitrite ion (NO2) needs its reading divided by 3.28 first. Pond salt is sodium chloride, flakes of calcium chloride are mostly the dihydrate.',
  caution:
    'Sodium harms plants and stays in a closed system: use calcium or potassium chloride where vegetables grow. Dissolve it first. Find out why nitrite rose, and feed less.',
  dangers: ['steps', 'medicines'],
  examples: [
    {
      args: [1000, 0.9134, 10, 32.845, 'sodium chloride'],
      result: 33,
      tolerance: 0.2,
      says: 'Nitrite ion 3 mg/L (0.913 as N) against 10 mg/L chloride: 33 g of salt a m³, SRAC 462',
    },
    {
      args: [7800, 0.5, 10],
      result: 79.36,
      tolerance: 0.02,
      says: '7800 L with 0.5 mg/L nitrite-N, calcium chloride',
    },
    { args: [7800, 0.2, 30], result: 0, says: 'Chloride enough already' },
  ],
  seeAlso: ['AMMONIA.UNIONISED', 'LOAD.TAN'],
  compute: saltDose,
});

const chelate: Source = {
  author: 'Usage of the trade',
  year: '',
  title: 'iron in chelates: DTPA about 0.10 to 0.11, EDDHA about 0.06',
  evidence: 'memory',
};

const iron = card({
  id: 'DOSE.IRON',
  subject,
  summary: 'Iron chelate that lifts iron for the plants',
  searchWords: [
    'Fe',
    'DTPA',
    'EDDHA',
    'yellow leaves',
    'chlorosis',
    'pale leaves',
    'interveinal chlorosis',
  ],
  parameters: [
    volume,
    number('from', 'iron now in the water', { unit: 'mg/L', min: 0, max: 50 }),
    number('to', 'iron wanted', { unit: 'mg/L', above: 0, max: 50 }),
    number('iron_share', 'iron in the chelate, as on the packet', {
      unit: 'share',
      min: 0.01,
      max: 0.5,
      default: IRON_SHARE,
      defaultText: '0.1, usual for DTPA',
    }),
  ],
  result: { kind: 'number', unit: 'g', meaning: 'chelate' },
  method: 'Rise times volume over the share of iron in the product.',
  formula: {
    chelate:
      'IF(to < from, VALUE("to must be at least from; dosing cannot lower it"), (to - from) * volume / 1000 / iron_share)',
  },
  sources: [uviPractice, chelate],
  validity:
    'The share left out is usual practice: take the one on the packet. DTPA holds iron to about pH 7.5, EDDHA above.',
  caution: 'Keep chelate off skin and eyes; the red of EDDHA in the water is no harm.',
  dangers: ['steps'],
  examples: [
    {
      args: [110000, 0, 2, 0.1],
      result: 2200,
      says: '2 mg/L in the 110 m³ of the UVI system: 220 g of iron in 2.2 kg of chelate',
    },
    { args: [7800, 0.5, 2, 0.06], result: 195, says: '7800 L from 0.5 to 2 mg/L with EDDHA' },
  ],
  seeAlso: ['DOSE.BASE'],
  compute: ironDose,
});

const dechlor: ValueCard = card({
  id: 'DOSE.DECHLOR',
  subject,
  summary: 'Sodium thiosulphate that takes chlorine out of tap water',
  searchWords: [
    'chlorine',
    'chloramine',
    'tap water',
    'thiosulfate',
    'hypo',
    'city water',
    'mains water',
    'water change',
    'dead fish',
    'fish dying',
  ],
  parameters: [
    volume,
    number('chlorine', 'total chlorine in the water', { unit: 'mg/L', min: 0, max: 200 }),
  ],
  result: { kind: 'number', unit: 'g', meaning: 'sodium thiosulphate pentahydrate' },
  method:
    'Two molecules of thiosulphate for each of chlorine: 7.0 g of the crystals (pentahydrate) a g of chlorine, the most that any of its reactions needs.',
  formula: { crystals: `volume * chlorine / 1000 * ${THIOSULPHATE_PER_CHLORINE}` },
  sources: [stoichiometry],
  validity:
    'Crystals of the pentahydrate; the salt free of water needs 0.64 as much. Measure total chlorine, which counts chloramine in, before and after.',
  caution:
    'Where the works add chloramine, taking out the chlorine sets ammonia free (about 0.2 mg/L as N for each mg/L of chlorine): test ammonia and pH too, and ask the works what they add. Keep air in the tank of treated water.',
  dangers: ['chlorine'],
  examples: [
    { args: [1000, 1], result: 7, tolerance: 0.01, says: '1 m³ of tap water with 1 mg/L' },
    { args: [7800, 2], result: 109.2, tolerance: 0.05, says: 'Filling a 7800 L tank, 2 mg/L' },
  ],
  seeAlso: ['AMMONIA.UNIONISED'],
  compute: dechlorDose,
});

export const dosingCards: readonly ValueCard[] = [base, salt, iron, dechlor];
