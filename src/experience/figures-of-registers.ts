/**
 * A farm's own figures from its registers, each beside the table's: how many batches, their mean, in which
 * range it lies, and the figure between both.
 */
import type { Interval } from '../core/certainty';
import { fishLog } from '../core/fish-log';
import { calendarDate } from '../core/serial-date';
import { type Crop, type CropFact, range, usual } from '../core/tables/crops';
import type { Species } from '../core/tables/species';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import type { Farm } from '../plan/farm';
import { fishRowsOf } from '../plan/registers-of-farm';
import { unitsPerPlant } from '../plan/units-per-plant';
import {
  type CropFigure,
  cropRecords,
  type Quarter,
  quarterOf,
  quarters,
  unitOf,
} from './crop-records';
import { growthRecords } from './growth-records';
import { type BatchMean, meanInterval, meanOf } from './mean-of-batches';
import { type Blend, blended, type TableFigure } from './weighed-against-table';
import { waterOfDays } from './water-of-days';

/** How sure an own figure's interval is. */
export const SURE = 0.9;

/** Batches below which an own figure is not taken over without the grower's word: common practice, no source. */
export const FEWEST_BATCHES = 5;

export const figureWords = {
  tgc: 'Growth coefficient',
  survival: 'Share of a lot that is sold',
  emerge_days: 'Days from sowing to emergence',
  transplant_days: 'Days from sowing to planting out',
  bed_days: 'Days from planting out to the first cut',
  harvest_days: 'Days from the first cut to clearing',
  plants_per_seed: 'Plants from a seed',
  units_per_plant: 'Sold from a plant',
  price: 'Price',
} as const;
export type OwnFigureName = keyof typeof figureWords;

export interface OwnRecord extends BatchMean {
  /** A species or a crop; empty for the farm as a whole. */
  readonly of: string;
  readonly figure: OwnFigureName;
  /** Unit of the figure: day, share, the unit that is sold, or money for it. */
  readonly unit: string;
  /** Batches of these months alone; left out: of the whole year. */
  readonly planted?: Quarter;
  /** Month of the year, 1 to 12, for prices. */
  readonly month?: number;
  /** Between which the true mean lies with the certainty SURE; undefined for one batch. */
  readonly interval: Interval | undefined;
  /** What the plan takes without records: the table, or what is typed for it. */
  readonly table: TableFigure | undefined;
  /** Between the table's figure and the own one; the own one where there is no table. */
  readonly blend: Blend;
  /** The values, in the order of their days. */
  readonly values: readonly { readonly day: number; readonly value: number }[];
}

interface Found {
  readonly day: number;
  readonly value: number;
}

const record = (
  head: Pick<OwnRecord, 'of' | 'figure' | 'unit' | 'planted' | 'month'>,
  found: readonly Found[],
  table: TableFigure | undefined,
): OwnRecord => {
  const mean = meanOf(found.map(({ value }) => value));
  return {
    ...head,
    ...mean,
    interval: meanInterval(mean, SURE),
    table,
    blend: table === undefined ? { own: 1, figure: mean.mean } : blended(table, mean),
    values: [...found].sort((a, b) => a.day - b.day),
  };
};

function grouped<T, K>(list: readonly T[], key: (one: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const one of list) groups.set(key(one), [...(groups.get(key(one)) ?? []), one]);
  return groups;
}

/** What the table, or the market's row, says of a figure. */
function tableOf(farm: Farm, crop: Crop, figure: CropFigure): TableFigure | undefined {
  const market = farm.markets.find((one) => one.crop === crop.name);
  const fact = (name: CropFact): TableFigure | undefined => {
    const figure = usual(crop, name);
    return figure === undefined ? undefined : { usual: figure, range: range(crop, name) };
  };
  switch (figure) {
    case 'plants_per_seed': {
      const kept = 1 - (market?.losses ?? 0);
      const up = fact('germination');
      if (market?.germination !== undefined) return { usual: market.germination * kept };
      return (
        up && {
          usual: up.usual * kept,
          range: up.range && [up.range[0] * kept, up.range[1] * kept],
        }
      );
    }
    case 'units_per_plant': {
      const unit = unitOf(farm.markets, crop.name);
      const units = unitsPerPlant(crop, { unit });
      const kg = fact('kg_per_plant');
      const share = kg === undefined ? 1 : units / kg.usual;
      return { usual: units, range: kg?.range && [kg.range[0] * share, kg.range[1] * share] };
    }
    case 'price':
      return market?.price === undefined ? undefined : { usual: market.price };
    default:
      return fact(figure);
  }
}

const unitOfFigure = (farm: Farm, crop: Crop, figure: CropFigure): string => {
  const sold = unitOf(farm.markets, crop.name);
  switch (figure) {
    case 'plants_per_seed':
      return 'share';
    case 'units_per_plant':
      return sold;
    case 'price':
      return `${farm.currency} a ${sold}`;
    default:
      return 'day';
  }
};

function fishRecords(farm: Farm): OwnRecord[] {
  const rows = fishRowsOf(farm.fishLog);
  const kinds = new Map(
    farm.tanks.map(({ name, species }) => [
      name.trim().toLowerCase(),
      speciesTable.book.find(species) as Species,
    ]),
  );
  const months = farm.months.map(({ water }) => water ?? NaN);
  const log = fishLog(rows, {
    tanks: farm.tanks.map(({ name, volume, species }) => ({
      name,
      volume,
      species: speciesTable.book.find(species) as Species,
    })),
    water: months,
    asOf: farm.asOf,
  });
  const growth = growthRecords({
    rows,
    outcomes: log.rows,
    speciesIn: (tank) => kinds.get(tank.trim().toLowerCase()),
    water: waterOfDays(farm.waterTests, months),
  }).filter(({ coefficient }) => Number.isFinite(coefficient));
  const grown = [...grouped(growth, ({ species }) => species)].map(([species, found]) =>
    record(
      { of: species.name, figure: 'tgc', unit: '' },
      found.map(({ to, coefficient }) => ({ day: to, value: coefficient })),
      { usual: species.facts.tgc[0] },
    ),
  );
  // A lot of which fish are left says nothing yet of how many will be sold.
  const finished = log.lots.filter(
    ({ alive, stocked, sold }) => alive < 0.5 && stocked > 0 && sold > 0,
  );
  const table = farm.stock.survival === undefined ? undefined : { usual: farm.stock.survival };
  return finished.length === 0
    ? grown
    : [
        ...grown,
        record(
          { of: '', figure: 'survival', unit: 'share' },
          finished.map(({ sold, stocked }, at) => ({ day: at, value: sold / stocked })),
          table,
        ),
      ];
}

/** Every own figure that the registers support, fish first, then crops; seasons behind the whole year. */
export function ownRecords(farm: Farm): OwnRecord[] {
  const cropOf = (name: string): Crop | undefined => cropTable.book.find(name);
  const found = cropRecords({ ...farm, cropOf });
  const crops = [...grouped(found, ({ crop }) => crop)].flatMap(([name, records]) => {
    const crop = cropOf(name) as Crop;
    return [...grouped(records, ({ figure }) => figure)].flatMap(([figure, values]) => {
      const head = { of: crop.name, figure, unit: unitOfFigure(farm, crop, figure) };
      const table = tableOf(farm, crop, figure);
      const whole = record(head, values, table);
      if (figure === 'bed_days') {
        const parts = grouped(values, ({ day }) => quarterOf(day));
        return [
          whole,
          ...quarters.flatMap((planted) => {
            const part = parts.get(planted);
            return part === undefined || parts.size === 1
              ? []
              : [record({ ...head, planted }, part, table)];
          }),
        ];
      }
      if (figure === 'price') {
        const parts = [...grouped(values, ({ day }) => calendarDate(day).month)].sort(
          ([a], [b]) => a - b,
        );
        return [
          whole,
          ...(parts.length === 1
            ? []
            : parts.map(([month, part]) => record({ ...head, month }, part, table))),
        ];
      }
      return [whole];
    });
  });
  return [...fishRecords(farm), ...crops];
}
