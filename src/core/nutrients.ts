/**
 * Nutrients that the feed leaves dissolved in the water, and what crops carry off. Feed in g/day, crops in kg,
 * nutrients in g.
 */
import { noAnswer } from './errors';
import { TAN_PER_PROTEIN } from './load';
import { GRAMS_PER_EQUIVALENT_CACO3, molarMass } from './molar-mass';
import type { Crop, CropGroup } from './tables/crop';
import {
  type Nutrient,
  nutrientShare,
  type NutrientSaltName,
  usualSalts,
} from './tables/nutrient-salts';

/**
 * g dissolved for each g of feed, without nitrogen: the middle of 1.1 to 1.9 g P, 4 to 7 g K, 1 to 3 g Ca and 0.3
 * to 1 g Mg a kg. Phosphorus from Strauch et al. 2018 (10 to 16 % of the feed's in the water), who found iron in
 * the solids; the others common practice, no source.
 */
const DISSOLVED: Readonly<Record<Exclude<Nutrient, 'N'>, number>> = {
  P: 0.0015,
  K: 0.0055,
  Ca: 0.002,
  Mg: 0.00065,
  Fe: 0,
};

/** g/day of a nutrient that `feed` g/day with `protein` (a fraction) leaves dissolved. */
export const nutrientFromFeed = (feed: number, nutrient: Nutrient, protein: number): number =>
  feed * (nutrient === 'N' ? protein * TAN_PER_PROTEIN : DISSOLVED[nutrient]);

/** The same for each g of feed. */
export const dissolvedShare = (nutrient: Nutrient, protein: number): number =>
  nutrientFromFeed(1, nutrient, protein);

interface CropContent {
  /** g dry in each g fresh */
  readonly dry: number;
  /** mg of nutrient in each g dry */
  readonly content: Readonly<Record<Nutrient, number>>;
  readonly spellings: readonly string[];
}

/** Middles of usual ranges, recalled from plant analysis tables: a second look is due before they decide. */
export const cropContents = {
  lettuce: {
    dry: 0.05,
    content: { N: 45, P: 6.5, K: 75, Ca: 14, Mg: 4, Fe: 0.1 },
    spellings: ['leafy', 'leaf', 'salad', 'chard', 'Swiss chard', 'pak choi', 'kale', 'spinach'],
  },
  basil: {
    dry: 0.09,
    content: { N: 50, P: 7.5, K: 40, Ca: 20, Mg: 5, Fe: 0.1 },
    spellings: [],
  },
  herb: {
    dry: 0.15,
    content: { N: 42.5, P: 6, K: 47.5, Ca: 15, Mg: 3, Fe: 0.1 },
    spellings: ['herbs', 'parsley', 'mint', 'coriander', 'cilantro'],
  },
  tomato: {
    dry: 0.055,
    content: { N: 27.5, P: 4.5, K: 45, Ca: 1.5, Mg: 1.75, Fe: 0.05 },
    spellings: ['tomatoes', 'fruiting', 'pepper', 'peppers', 'aubergine', 'eggplant'],
  },
  cucumber: {
    dry: 0.045,
    content: { N: 35, P: 6.5, K: 47.5, Ca: 4, Mg: 3, Fe: 0.05 },
    spellings: ['cucumbers', 'courgette', 'zucchini'],
  },
} as const satisfies Record<string, CropContent>;

export type CropContentName = keyof typeof cropContents;

/** Crops whose content is a table of its own; the others have that of their group. */
const contentByName: Readonly<Partial<Record<string, CropContentName>>> = {
  basil: 'basil',
  cucumber: 'cucumber',
  courgette: 'cucumber',
};
export const contentByGroup: Readonly<Record<CropGroup, CropContentName>> = {
  leafy: 'lettuce',
  herb: 'herb',
  brassica: 'lettuce',
  root: 'lettuce',
  fruiting: 'tomato',
  flower: 'lettuce',
};
export const contentApart = Object.entries(contentByName) as [string, CropContentName][];

/** What a crop of the table takes up like. */
export const contentNameOf = ({ name, group }: Pick<Crop, 'name' | 'group'>): CropContentName =>
  contentByName[name] ?? contentByGroup[group];

/**
 * What a crop takes up for each part that its harvest carries off: two thirds of the nitrogen of a tomato crop
 * goes into the fruit (Graber & Junge 2009); roots of leafy plants hold a seventh (common practice, no source).
 */
export const TAKEN_UP: Readonly<Record<CropContentName, number>> = {
  lettuce: 1.15,
  basil: 1.15,
  herb: 1.15,
  tomato: 1.5,
  cucumber: 1.5,
};

/** g of alkalinity as CaCO3 whose base brings a gram of potassium or calcium along. */
export const ALKALINITY_PER_POTASSIUM = GRAMS_PER_EQUIVALENT_CACO3 / molarMass('K');
export const ALKALINITY_PER_CALCIUM = GRAMS_PER_EQUIVALENT_CACO3 / (molarMass('Ca') / 2);
/** Equal weights of potassium and calcium hydroxide by turns bring so much of the alkalinity with potassium. */
export const EVEN_TURNS = 0.4;

/**
 * Part of the base that should be potassium's, so that what the crops lack of potassium and of calcium, g, comes
 * along evenly; by turns as usual where they lack neither.
 */
export function potassiumPart(lacksPotassium: number, lacksCalcium: number): number {
  const potassium = lacksPotassium * ALKALINITY_PER_POTASSIUM;
  const calcium = lacksCalcium * ALKALINITY_PER_CALCIUM;
  return potassium + calcium > 0 ? potassium / (potassium + calcium) : EVEN_TURNS;
}

/** g of a nutrient in each kg of what is cut or picked. */
export function contentOf(crop: CropContentName, nutrient: Nutrient): number {
  const { dry, content } = cropContents[crop];
  return dry * content[nutrient];
}

/** g of a nutrient that `harvest` kg carry off. */
export const nutrientInCrop = (
  harvest: number,
  crop: CropContentName,
  nutrient: Nutrient,
): number => harvest * contentOf(crop, nutrient);

/** g of pure salt that lift a nutrient in `volume` L from one concentration to another, mg/L. */
export function nutrientDose(
  volume: number,
  from: number,
  to: number,
  nutrient: Nutrient,
  named: NutrientSaltName | 'usual',
): number {
  if (to < from) {
    throw noAnswer(
      `${nutrient} already stands at ${from}, above the ${to} wanted; dosing cannot lower it, fresh water can`,
    );
  }
  const salt = named === 'usual' ? usualSalts[nutrient] : named;
  const share = nutrientShare(salt, nutrient);
  if (share === 0) throw noAnswer(`${salt} holds no ${nutrient}; choose another salt`);
  return ((to - from) * volume) / 1000 / share;
}
