/**
 * Nutrients that the feed leaves dissolved in the water, and what crops carry off. Feed in g/day, crops in kg,
 * nutrients in g.
 */
import { noAnswer } from './errors';
import { TAN_PER_PROTEIN } from './load';
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
