/** Formulas by which the plan reads what counts from the sheet Own figures. */
import type { Farm, OwnFigureEntry } from './farm';
import { lengthOf, openEnds, type RearingStage, rearingStages } from '../core/rearing-stages';
import { any, blankWithout, call, type Formula, joined, part, when } from './formula-parts';
import type { CropColumn } from './names';
import { named, nth } from './names';
import {
  factOf,
  figureNameOf,
  type FigureWords,
  isOfStage,
  type OwnFigureName,
  stageOfFigure,
} from './own-figure-rows';
import { LB } from './units-per-plant';

/** What a row is found by, in a column of its own. */
export const keyOf = (figure: FigureWords, of: string | undefined): string =>
  `${figure}${of ?? ''}`;

type Column = 'Own_counts' | 'Own_source' | 'Own_table';

const at = (column: Column, key: Formula | string): Formula =>
  nth(column, call('MATCH', key, named('Own_key'), 0));

/** Where a figure that counts comes from; nothing where it is the table's. */
export const ownSource = (figure: FigureWords, of: string | undefined): Formula =>
  at('Own_source', keyOf(figure, of));

const rowOf = (farm: Pick<Farm, 'ownFigures'>, figure: FigureWords): OwnFigureEntry | undefined =>
  farm.ownFigures.find((row) => row.figure === figure && row.part === undefined);

/** Share of a lot that is sold: what is typed on Stock plan, unless the switch says otherwise. */
export function survivalThatCounts(farm: Pick<Farm, 'ownFigures'>): Formula {
  const figure = 'Share of a lot that is sold';
  const typed = named('Stock_survival');
  const stages = rearingStages.flatMap((stage) => {
    const row = farm.ownFigures.find(
      (own) => ofStage(figureNameOf(own.figure)) === stage && own.part === undefined,
    );
    return row === undefined ? [] : [againstTable(stage, keyOf(row.figure, undefined))];
  });
  const staged =
    stages.length === 0
      ? blankWithout([typed], typed)
      : when(
          any(typed.isBlank, ...WEIGHTS.map((weight) => weight.isBlank)),
          typed,
          stages.reduce((product, factor) => product.times(factor), typed),
        );
  if (rowOf(farm, figure) === undefined) return staged;
  const key = keyOf(figure, undefined);
  const whole = call('MIN', 1, at('Own_counts', key));
  return stages.length === 0 ? whole : when(at('Own_source', key).isFilled, whole, staged);
}

const WEIGHTS = [named('Stock_start_weight'), named('Stock_harvest_weight')] as const;

const ofStage = (figure: OwnFigureName): RearingStage | undefined =>
  isOfStage(figure) ? stageOfFigure[figure] : undefined;

const root = (weight: Formula): Formula => weight.power(part(1).over(3));

/** By how much the survival of a whole life differs from what is typed, by what counts in a stage. */
function againstTable(stage: RearingStage, key: string): Formula {
  const [low, high] = openEnds(stage);
  const [from, to] = WEIGHTS.map(root) as [Formula, Formula];
  const begin = low === 0 ? from : call('MAX', from, Math.cbrt(low));
  const end = high === Infinity ? to : call('MIN', to, Math.cbrt(high));
  const times = call('MAX', 0, end.minus(begin)).over(lengthOf(stage));
  return call('MIN', 1, at('Own_counts', key)).over(at('Own_table', key)).power(times);
}

/** Share that lives through a stage where the survival of a whole life is spread evenly over the growth. */
export function survivalOfStage(stage: RearingStage): Formula {
  const [from, to] = WEIGHTS;
  const typed = named('Stock_survival');
  return blankWithout(
    [typed, ...WEIGHTS],
    typed.power(part(lengthOf(stage)).over(root(to).minus(root(from)))),
  );
}

/** Price of a crop in a row of Sowing; own prices are of the crop's first row there. */
export function priceThatCounts(
  farm: Pick<Farm, 'ownFigures'>,
  row: { readonly crop: Formula; readonly price: Formula; readonly place: Formula },
): Formula {
  const typed = blankWithout([row.price], row.price);
  if (rowOf(farm, 'Price') === undefined) return typed;
  const place = call('MATCH', joined('Price', row.crop), named('Own_key'), 0);
  const isFirst = call('MATCH', row.crop, named('Sowing_crop'), 0).is(row.place);
  return when(place.isNumber, when(isFirst, nth('Own_counts', place), typed), typed);
}

/** Share of the seedlings of a crop that never reach the market. */
export function lossesThatCount(farm: Pick<Farm, 'markets'>, crop: Formula | string): Formula {
  const name = typeof crop === 'string' ? crop : undefined;
  if (name !== undefined && farm.markets.every((market) => market.crop !== name))
    return named('Sowing_losses');
  const own = nth('Sowing_own_losses', call('MATCH', crop, named('Sowing_crop'), 0));
  return when(own.isBlank, named('Sowing_losses'), own);
}

/** Of a table: which of its figures follow Own figures, each with the formulas for it and for its source. */
export type SwitchedFigures = (
  name: string,
  fact: string,
) => { readonly counts: Formula; readonly source: Formula } | undefined;

export function switchedFigures(farm: Pick<Farm, 'ownFigures' | 'markets'>): SwitchedFigures {
  const rows = new Map<string, OwnFigureEntry[]>();
  for (const row of farm.ownFigures) {
    const fact = factOf(figureNameOf(row.figure));
    const key = `${row.of ?? ''}\n${fact ?? ''}`;
    if (fact !== undefined && row.part === undefined)
      rows.set(key, [...(rows.get(key) ?? []), row]);
  }
  return (name, fact) => {
    const acting = (rows.get(`${name}\n${fact}`) ?? []).map((row) => {
      const key = keyOf(row.figure, row.of);
      return {
        counts: inTable(farm, row, at('Own_counts', key)),
        source: at('Own_source', key),
      };
    });
    // Two figures may act on one: which of them is in use says where it comes from.
    return acting.length === 0
      ? undefined
      : acting.reduce((first, other) => ({
          counts: when(other.source.isFilled, other.counts, first.counts),
          source: when(other.source.isFilled, other.source, first.source),
        }));
  };
}

/** What the Crops or the Species sheet holds where a figure comes to so much. */
function inTable(farm: Pick<Farm, 'markets'>, row: OwnFigureEntry, counts: Formula): Formula {
  const crop = row.of ?? '';
  switch (figureNameOf(row.figure)) {
    case 'plants_per_seed':
      return call('MIN', 1, counts.over(part(1).minus(lossesThatCount(farm, crop))));
    case 'units_per_plant': {
      const unit = farm.markets.find((market) => market.crop === crop)?.unit ?? 'kg';
      if (unit === 'kg') return counts;
      if (unit === 'lb') return counts.times(LB);
      const weight: CropColumn = `${unit}_weight`;
      const line = call('MATCH', crop, named('Crop_name'), 0);
      return counts.times(nth(`Crop_${weight}`, line)).over(1000);
    }
    default:
      return counts;
  }
}
