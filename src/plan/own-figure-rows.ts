/**
 * A farm's own figures as its file and the sheet Own figures hold them: what the registers came to on a day,
 * written down, and the grower's switch between the table's figure, the own one and the one between both. What
 * counts then stands where the figures of the tables stand, so that all that computes finds it there.
 */
import { evenSurvival, type RearingStage, timesThrough } from '../core/rearing-stages';
import { type Crop, type CropFact, range, usual } from '../core/tables/crops';
import type { Species } from '../core/tables/species';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import type { OwnFigures } from './own-figures';
import { type Figures, presetValue } from './presets';
import { LB, unitsPerPlant } from './units-per-plant';
import type { WrongField } from './wrong-field';

/** Batches below which an own figure is not taken over without the grower's word: common practice, no source. */
export const FEWEST_BATCHES = 5;

export const figureWords = {
  tgc: 'Growth coefficient',
  feed_conversion: 'Feed for a kg of growth',
  survival: 'Share of a lot that is sold',
  fry_survival: 'Fry that live (0.2 to 1 g)',
  fingerling_survival: 'Fingerlings that live (1 to 50 g)',
  growout_survival: 'Fish that live through grow-out (50 to 500 g)',
  weight_spread: 'Spread of the weights in a tank',
  emerge_days: 'Days from sowing to emergence',
  transplant_days: 'Days from sowing to planting out',
  bed_days: 'Days from planting out to the first cut',
  harvest_days: 'Days from the first cut to clearing',
  germination: 'Share of the seed that comes up',
  nursery_losses: 'Seedlings lost before planting out',
  plants_per_seed: 'Plants from a seed',
  bed_losses: 'Plants lost in the bed',
  units_per_plant: 'Sold from a plant',
  units_per_m2: 'Sold from a square metre of bed',
  price: 'Price',
  alkalinity_per_feed: 'Alkalinity used for a kg of feed',
  water_a_day: 'Fresh water added a day',
} as const;
export type OwnFigureName = keyof typeof figureWords;
export type FigureWords = (typeof figureWords)[OwnFigureName];

export const ownFigureNames = Object.keys(figureWords) as OwnFigureName[];

/** Words as files and sheets have them, in the order of the sheet. */
export const allFigureWords = Object.values(figureWords) as [FigureWords, ...FigureWords[]];

export const figureNameOf = (words: FigureWords): OwnFigureName =>
  ownFigureNames[allFigureWords.indexOf(words)] as OwnFigureName;

/** What a switch may say: the table's figure, the farm's own, or the one between both. */
export const figureUses = ['table', 'own', 'blend'] as const;
export type FigureUse = (typeof figureUses)[number];

export interface OwnFigureRow {
  readonly figure: FigureWords;
  /** A species or a crop; left out: the farm as a whole. */
  readonly of?: string | undefined;
  /** Batches of this season or month alone; left out: of the whole year. */
  readonly part?: string | undefined;
  readonly batches: number;
  readonly mean: number;
  /** How much of the own mean stands in the figure between both, 0 to 1; left out: there is no such figure. */
  readonly weight?: number | undefined;
  readonly use?: FigureUse | undefined;
  /** The grower's word that few batches are enough. */
  readonly few?: 'yes' | undefined;
}

type MarketUnit = 'piece' | 'bunch' | 'kg' | 'lb';
interface Market {
  readonly crop: string;
  readonly unit: MarketUnit;
  readonly price?: number | undefined;
  readonly perPlant?: number | undefined;
  readonly germination?: number | undefined;
  readonly losses?: number | undefined;
}

/** What of a farm file own figures are set against, and act on. */
export interface Switched {
  readonly ownFigures: readonly OwnFigureRow[];
  readonly figures?: Figures | undefined;
  readonly crops?: OwnFigures | undefined;
  readonly species?: OwnFigures | undefined;
  readonly stock: {
    readonly survival?: number | undefined;
    /** g */
    readonly startWeight?: number | undefined;
    readonly harvestWeight?: number | undefined;
  };
  readonly markets: readonly Market[];
}

export interface TableFigure {
  readonly usual: number;
  /** Between which farms lie; undefined where the table has one figure alone. */
  readonly range?: readonly [low: number, high: number] | undefined;
}

const cropNamed = (name: string | undefined): Crop | undefined =>
  name === undefined ? undefined : cropTable.book.find(name);
const speciesNamed = (name: string | undefined): Species | undefined =>
  name === undefined ? undefined : speciesTable.book.find(name);

/** The row of Sowing that speaks of a crop: its first. */
export const marketOf = <M extends Pick<Market, 'crop'>>(
  markets: readonly M[],
  crop: string,
): M | undefined => markets.find((market) => market.crop === crop);

/** The unit in which a crop goes to market: its first row of Sowing; kg where it has none. */
export const unitOf = (markets: readonly Pick<Market, 'crop' | 'unit'>[], crop: string) =>
  marketOf(markets, crop)?.unit ?? 'kg';

/** Share of the seedlings of a crop that never reach the market, as Sowing has it. */
export const lossesOf = (
  { markets, figures }: Pick<Switched, 'markets' | 'figures'>,
  crop: string,
): number =>
  marketOf(markets, crop)?.losses ??
  (presetValue('Sowing_losses', figures) as number | undefined) ??
  0;

/** What the tables, or what is typed on Stock plan and Sowing, say of a figure. */
export function tableFigure(
  farm: Pick<Switched, 'markets' | 'figures' | 'stock'>,
  figure: OwnFigureName,
  of: string | undefined,
): TableFigure | undefined {
  if (figure === 'survival') {
    const { survival } = farm.stock;
    return survival === undefined ? undefined : { usual: survival };
  }
  if (isOfStage(figure)) {
    const { survival, startWeight = NaN, harvestWeight = NaN } = farm.stock;
    return survival === undefined || !(harvestWeight > startWeight)
      ? undefined
      : { usual: evenSurvival(stageOfFigure[figure], survival, startWeight, harvestWeight) };
  }
  if (isOfFish(figure)) {
    const kind = speciesNamed(of);
    return kind && { usual: kind.facts[fishFactOf[figure]][0] };
  }
  const crop = cropNamed(of);
  if (crop === undefined) return undefined;
  const fact = (name: CropFact): TableFigure | undefined => {
    const figure = usual(crop, name);
    return figure === undefined ? undefined : { usual: figure, range: range(crop, name) };
  };
  const scaled = (share: number, table = fact('germination')): TableFigure | undefined =>
    table && {
      usual: table.usual * share,
      range: table.range && [table.range[0] * share, table.range[1] * share],
    };
  switch (figure) {
    case 'weight_spread':
    case 'nursery_losses':
    case 'bed_losses':
    case 'alkalinity_per_feed':
    case 'water_a_day':
      return undefined;
    case 'units_per_m2': {
      const plant = tableFigure(farm, 'units_per_plant', of);
      return plant && scaled(usual(crop, 'plants_per_m2'), plant);
    }
    case 'plants_per_seed':
      return scaled(1 - lossesOf(farm, crop.name));
    case 'units_per_plant': {
      const kg = fact('kg_per_plant');
      return (
        kg && scaled(unitsPerPlant(crop, { unit: unitOf(farm.markets, crop.name) }) / kg.usual, kg)
      );
    }
    case 'price': {
      const price = marketOf(farm.markets, crop.name)?.price;
      return price === undefined ? undefined : { usual: price };
    }
    default:
      return fact(figure);
  }
}

/**
 * The share of a lot that lives to be sold, as the stages that are switched have it; the others stay as what is typed
 * for the whole of it, spread evenly over the growth.
 */
function survivalOfStages(farm: Switched): number | undefined {
  const { survival, startWeight = NaN, harvestWeight = NaN } = farm.stock;
  let counts = survival;
  for (const row of farm.ownFigures) {
    const figure = figureNameOf(row.figure);
    if (!isOfStage(figure)) continue;
    const value = switchedValue(farm, row);
    const table = tableFigure(farm, figure, undefined);
    if (counts === undefined || value === undefined || table === undefined) continue;
    const times = timesThrough(stageOfFigure[figure], startWeight, harvestWeight);
    counts *= (Math.min(1, value) / table.usual) ** times;
  }
  return counts;
}

/** The figure between the table's and the farm's own. */
export const between = (table: number, mean: number, weight: number): number =>
  table + weight * (mean - table);

const isSwitched = ({ use }: OwnFigureRow): boolean => use === 'own' || use === 'blend';

/** What a row comes to by its switch; undefined where the table's figure stays. */
function switchedValue(farm: Switched, row: OwnFigureRow): number | undefined {
  if (!isSwitched(row)) return undefined;
  const table = tableFigure(farm, figureNameOf(row.figure), row.of);
  return row.use === 'own' || table === undefined || row.weight === undefined
    ? row.mean
    : between(table.usual, row.mean, row.weight);
}

/** Figures of the fish, and the facts of the Species sheet that they are. */
const fishFactOf = { tgc: 'tgc', feed_conversion: 'fcr' } as const;
type OfFish = keyof typeof fishFactOf;

export const isOfFish = (figure: OwnFigureName): figure is OfFish => figure in fishFactOf;

const isOfSpecies = (figure: OwnFigureName): boolean =>
  isOfFish(figure) || figure === 'weight_spread';

/** Figures of the stages of rearing. */
export const stageOfFigure = {
  fry_survival: 'fry',
  fingerling_survival: 'fingerlings',
  growout_survival: 'grow-out',
} as const satisfies Partial<Record<OwnFigureName, RearingStage>>;
export type OfStage = keyof typeof stageOfFigure;

export const isOfStage = (figure: OwnFigureName): figure is OfStage => figure in stageOfFigure;

/** Figures of the farm as a whole. */
const isOfFarm = (figure: OwnFigureName): boolean =>
  isOfStage(figure) || ['survival', 'alkalinity_per_feed', 'water_a_day'].includes(figure);

/** The fact of the Crops or the Species sheet on which a figure acts; undefined for those that act elsewhere. */
export function factOf(figure: OwnFigureName): CropFact | 'tgc' | 'fcr' | undefined {
  if (isOfFish(figure)) return fishFactOf[figure];
  switch (figure) {
    case 'plants_per_seed':
      return 'germination';
    case 'units_per_plant':
      return 'kg_per_plant';
    case 'survival':
    case 'fry_survival':
    case 'fingerling_survival':
    case 'growout_survival':
    case 'price':
    case 'weight_spread':
    case 'nursery_losses':
    case 'bed_losses':
    case 'units_per_m2':
    case 'alkalinity_per_feed':
    case 'water_a_day':
      return undefined;
    default:
      return figure;
  }
}

/** Whether something in the plan computes with the figure, so that a switch says which counts. */
export const acts = (figure: OwnFigureName): boolean =>
  figure === 'survival' || isOfStage(figure) || figure === 'price' || factOf(figure) !== undefined;

/** kg in a unit of a crop, by the weights of the farm's Crops sheet. */
function kilos(crop: Crop, unit: MarketUnit, crops: OwnFigures | undefined): number {
  if (unit === 'kg') return 1;
  if (unit === 'lb') return LB;
  const fact = `${unit}_weight` as const;
  const own = crops?.[crop.name]?.[fact];
  return (typeof own === 'number' ? own : usual(crop, fact)) / 1000;
}

export type Acted = Pick<Switched, 'crops' | 'species' | 'stock' | 'markets'>;

/**
 * What of a farm file own figures change, with what they come to; undefined where none is switched. A figure that
 * somebody typed on Crops or Species counts before them.
 */
export function actedOn<F extends Switched>(farm: F): Pick<F, keyof Acted> | undefined {
  if (!farm.ownFigures.some(isSwitched)) return undefined;
  let { crops, species, stock, markets }: Acted = farm;
  stock = { ...stock, survival: survivalOfStages(farm) };
  const typed = (list: OwnFigures | undefined, name: string, fact: string): boolean =>
    list?.[name]?.[fact] !== undefined;
  for (const row of farm.ownFigures) {
    const value = switchedValue(farm, row);
    if (value === undefined) continue;
    const figure = figureNameOf(row.figure);
    const of = row.of ?? '';
    if (figure === 'survival') stock = { ...stock, survival: Math.min(1, value) };
    else if (isOfStage(figure)) continue;
    else if (figure === 'price') {
      const first = marketOf(markets, of);
      markets = markets.map((market) => (market === first ? { ...market, price: value } : market));
    } else if (isOfFish(figure)) {
      const fact = fishFactOf[figure];
      if (!typed(farm.species, of, fact))
        species = { ...species, [of]: { ...species?.[of], [fact]: value } };
    } else {
      const crop = cropNamed(of);
      const fact = factOf(figure) as CropFact;
      if (crop === undefined || typed(farm.crops, of, fact)) continue;
      const counts =
        figure === 'plants_per_seed'
          ? Math.min(1, value / (1 - lossesOf(farm, of)))
          : figure === 'units_per_plant'
            ? value * kilos(crop, unitOf(markets, of), farm.crops)
            : value;
      crops = { ...crops, [of]: { ...crops?.[of], [fact]: counts } };
    }
  }
  return { crops, species, stock, markets } as Pick<F, keyof Acted>;
}

/** A row's place among the others: nothing that has the same may stand twice. */
export const rowKey = ({
  figure,
  of = '',
  part = '',
}: Pick<OwnFigureRow, 'figure' | 'of' | 'part'>): string =>
  [figure, of, part].join('\n').toLowerCase();

/** What a grower is told whose switch cannot hold. */
export const fewBatches = (batches: number): string =>
  `rests on ${batches} ${batches === 1 ? 'batch' : 'batches'}, and fewer than ${FEWEST_BATCHES} count only with a "yes" beside it that few are enough`;

/** Rows that mean nothing in the tables, stand twice, or whose switch cannot hold. */
export function wrongOwnFigures({ ownFigures }: Pick<Switched, 'ownFigures'>): WrongField[] {
  const taken = new Map<string, number>();
  return ownFigures.flatMap((row, i): WrongField[] => {
    const wrong = (field: string, says: string): WrongField => ({
      path: ['ownFigures', i, field],
      missing: false,
      says,
    });
    const figure = figureNameOf(row.figure);
    const named = isOfFarm(figure)
      ? row.of === undefined
      : isOfSpecies(figure)
        ? speciesNamed(row.of)?.name === row.of && row.of !== undefined
        : cropNamed(row.of)?.name === row.of && row.of !== undefined;
    if (!named) {
      const what = isOfFarm(figure)
        ? 'left blank'
        : `a ${isOfSpecies(figure) ? 'species' : 'crop'} by its name in the table`;
      return [wrong('of', `must be ${what}; got ${JSON.stringify(row.of ?? '')}`)];
    }
    const key = rowKey(row);
    const first = taken.get(key);
    if (first !== undefined)
      return [wrong('figure', `stands there twice: ownFigures[${first}] says the same`)];
    taken.set(key, i);
    if (!isSwitched(row)) return [];
    if (!acts(figure))
      return [
        wrong(
          'use',
          `must be left blank: nothing in the plan computes with this figure; got "${row.use}"`,
        ),
      ];
    const twin =
      figure === 'germination'
        ? figureWords.plants_per_seed
        : isOfStage(figure)
          ? figureWords.survival
          : undefined;
    if (
      ownFigures.some(
        (ownFigure) =>
          ownFigure.figure === twin && ownFigure.of === row.of && isSwitched(ownFigure),
      )
    )
      return [
        wrong(
          'use',
          `must be "table", since "${twin ?? ''}"${row.of === undefined ? '' : ` of ${row.of}`} is in use and holds it already; got "${row.use}"`,
        ),
      ];
    if (row.part !== undefined)
      return [
        wrong(
          'use',
          `must be left blank: the plan has one figure for the whole year; got "${row.use}"`,
        ),
      ];
    if (row.batches < FEWEST_BATCHES && row.few !== 'yes')
      return [
        wrong(
          'use',
          `must be "table", since the figure ${fewBatches(row.batches)}; got "${row.use}"`,
        ),
      ];
    return [];
  });
}
