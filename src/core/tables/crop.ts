import type { FactSource } from './evidence';

/**
 * Crops of the beds: times, spacing, climate, seed, yield and feed, each figure with where it comes from.
 * The usual figure is a working value inside the range; where the range is one figure it is that figure.
 * Yields are those of a whole crop, all cuts together, at the usual density, and hold at that density only.
 *
 * Days run from sowing to emergence, from sowing to transplanting, from transplanting to the first cut
 * and from the first cut to the last, so that nothing is counted twice.
 */
export const cropFacts = {
  emerge_days: { label: 'Sowing to emergence', unit: 'day' },
  germination_temp: { label: 'Germination temperature', unit: 'degC' },
  transplant_days: { label: 'Sowing to transplanting', unit: 'day' },
  bed_days: { label: 'Transplanting to first cut', unit: 'day' },
  harvest_days: { label: 'Days of harvest', unit: 'day' },
  cuts: { label: 'Cuts of a crop', unit: '' },
  cut_every: { label: 'Days between cuts', unit: 'day' },
  sow_every: { label: 'Days between sowings', unit: 'day' },
  rest_days: { label: 'Cleaning before the next crop', unit: 'day' },
  plants_per_m2: { label: 'Planting density', unit: 'plants/m2' },
  spacing: { label: 'Spacing', unit: 'cm' },
  height: { label: 'Height when grown', unit: 'cm' },
  ph: { label: 'pH of the water', unit: 'pH' },
  air: { label: 'Air temperature', unit: 'degC' },
  base_temp: { label: 'Base temperature of degree days', unit: 'degC' },
  cap_temp: { label: 'Warmth beyond which growth gains nothing', unit: 'degC' },
  degree_days: { label: 'Transplanting to first cut, degree days', unit: 'degC day' },
  heat_limit: { label: 'Heat that spoils the crop', unit: 'degC' },
  daily_light: { label: 'Light at the crop in a day', unit: 'mol/m2/day' },
  germination: { label: 'Germination', unit: 'share' },
  seeds_per_gram: { label: 'Seeds in a gram', unit: 'seeds/g' },
  kg_per_plant: { label: 'Yield of a plant, one crop', unit: 'kg' },
  kg_per_m2: { label: 'Yield of an area, one crop', unit: 'kg/m2' },
  piece_weight: { label: 'Weight of a piece', unit: 'g' },
  bunch_weight: { label: 'Weight of a bunch', unit: 'g' },
  store_temp: { label: 'Cold store', unit: 'degC' },
  store_days: { label: 'Keeps in the cold store', unit: 'day' },
  feed_ratio: { label: 'Feed rate ratio', unit: 'g/m2/day' },
  kc_mid: { label: 'Crop coefficient, full leaf (Kc mid)', unit: '' },
} as const;

export type CropFact = keyof typeof cropFacts;

/** A usual figure alone, or one between its lowest and highest. */
export type Figure =
  | readonly [usual: number, source: FactSource]
  | readonly [low: number, usual: number, high: number, source: FactSource];

/** Groups by what is harvested, as feed is reckoned; `brassica`: those that form heads. */
export type CropGroup = 'leafy' | 'herb' | 'brassica' | 'root' | 'fruiting' | 'flower';

export interface Crop {
  readonly name: string;
  readonly botanical: string;
  /** Other names in use, British and American. Plurals follow by rule. */
  readonly aliases: readonly string[];
  readonly group: CropGroup;
  /**
   * What a batch starts from. `in place`: sown in the bed and never transplanted, so that the days to
   * transplanting are those to emergence. `plugs` and `cuttings` have no emergence; day 0 is potting up.
   */
  readonly start: 'seed' | 'in place' | 'plugs' | 'cuttings';
  /** Cut `once`, the harvest days being those within which a batch must be cut, or `again` and again over them. */
  readonly cut: 'once' | 'again';
  /** Botanical family: what follows itself hands on its diseases. */
  readonly family: string;
  /** What the customer counts where it is sold by the piece. */
  readonly piece: string;
  /** Kinds of bed that it is usually grown in, the best first; common practice. */
  readonly beds: string;
  readonly light: string;
  readonly note: string;
  /** A fact that nobody has published and practice does not settle is left out. */
  readonly facts: Readonly<
    Partial<Record<StoredFact, Figure>> & Record<Exclude<SureFact, ReckonedFact>, Figure>
  >;
}

/** Facts that follow from others of the same crop, so that they can never disagree with them. */
type ReckonedFact = 'kg_per_m2' | 'degree_days';
type StoredFact = Exclude<CropFact, ReckonedFact>;

/** Facts that every crop has. */
type SureFact =
  | 'transplant_days'
  | 'bed_days'
  | 'harvest_days'
  | 'plants_per_m2'
  | 'air'
  | 'base_temp'
  | 'cap_temp'
  | 'germination'
  | 'feed_ratio'
  | 'kg_per_plant'
  | 'piece_weight'
  | 'bunch_weight'
  | ReckonedFact;

/** Without what binary fractions add: 60 times 0.17 is 10.2. */
const tidy = (value: number): number => Number(value.toPrecision(12));

const middleOf = (figure: Figure): number => (figure.length === 2 ? figure[0] : figure[1]);
const sourceIn = (figure: Figure): FactSource => (figure.length === 2 ? figure[1] : figure[3]);

/** Figures times one number, as firm as the figures are. */
function scaled(figure: Figure, by: number, text: string): Figure {
  const { evidence } = sourceIn(figure);
  const source: FactSource = { text, evidence: evidence === 'read' ? 'derived' : evidence };
  const [low, high] = figure.length === 4 ? [figure[0], figure[2]] : [figure[0], figure[0]];
  return [tidy(low * by), tidy(middleOf(figure) * by), tidy(high * by), source];
}

function areaYield({ facts }: Crop): Figure {
  const density = middleOf(facts.plants_per_m2);
  return scaled(facts.kg_per_plant, density, `yield of a plant at ${density} plants/m²`);
}

/** The usual days at the usual air temperature, as warmth above the base. */
function bedWarmth({ facts }: Crop): Figure {
  const base = middleOf(facts.base_temp);
  const warmth = Math.min(middleOf(facts.air), middleOf(facts.cap_temp)) - base;
  const text = 'usual days at the usual air temperature, above the base temperature';
  const { evidence } = sourceIn(facts.base_temp);
  return [
    tidy(middleOf(facts.bed_days) * warmth),
    { text, evidence: evidence === 'read' ? 'derived' : evidence },
  ];
}

/** A fact with its range and source; undefined where the table has none. */
function figureOf(crop: Crop, fact: CropFact): Figure | undefined {
  if (fact === 'kg_per_m2') return areaYield(crop);
  if (fact === 'degree_days') return bedWarmth(crop);
  return crop.facts[fact];
}

/** The usual figure of a fact; undefined where the table has none. */
export function usual(crop: Crop, fact: SureFact): number;
export function usual(crop: Crop, fact: CropFact): number | undefined;
export function usual(crop: Crop, fact: CropFact): number | undefined {
  const figure = figureOf(crop, fact);
  return figure && middleOf(figure);
}

/** Lowest and highest of a fact; undefined where the table has none or one figure only. */
export function range(crop: Crop, fact: CropFact): readonly [number, number] | undefined {
  const figure = figureOf(crop, fact);
  return figure?.length === 4 ? [figure[0], figure[2]] : undefined;
}

/** Where a fact comes from; undefined where the table has none. */
export function sourceOf(crop: Crop, fact: CropFact): FactSource | undefined {
  const figure = figureOf(crop, fact);
  return figure && sourceIn(figure);
}
