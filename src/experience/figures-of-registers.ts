/**
 * A farm's own figures from its registers, each beside the table's: how many batches, their mean, in which
 * range it lies, and the figure between both.
 */
import type { Interval } from '../core/certainty';
import { type FishLog, fishLog } from '../core/fish-log';
import { calendarDate } from '../core/serial-date';
import type { Crop } from '../core/tables/crops';
import type { Species } from '../core/tables/species';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import { asTyped, type Farm } from '../plan/farm';
import {
  type OfStage,
  type OwnFigureName,
  stageOfFigure,
  tableFigure,
  type TableFigure,
  unitOf,
} from '../plan/own-figure-rows';
import { shownIn, toShown } from '../plan/quantities';
import { fishRowsOf, placeKey } from '../plan/registers-of-farm';
import { type CropFigure, cropRecords, type Quarter, quarterOf, quarters } from './crop-records';
import { type ConversionRecord, conversionRecords } from './feed-records';
import { growthRecords } from './growth-records';
import { type BatchMean, meanInterval, meanOf } from './mean-of-batches';
import { type Blend, blended } from './weighed-against-table';
import { survivalByStage } from './survival-records';
import { waterOfDays } from './water-of-days';
import { alkalinityPerFeed, type WaterRecord, waterUsed } from './water-records';

/** How sure an own figure's interval is. */
export const SURE = 0.9;

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
  neighboursShare = false,
): OwnRecord => {
  const values = found.map(({ value }) => value);
  const mean = meanOf(values);
  return {
    ...head,
    ...mean,
    interval: meanInterval(values, head.unit === 'share' ? 'share' : 'amount', neighboursShare),
    table,
    blend: table === undefined ? { own: 1, figure: mean.mean } : blended(table, mean),
    values: [...found].sort((a, b) => a.day - b.day),
  };
};

function grouped<T, K>(list: readonly T[], key: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of list) groups.set(key(item), [...(groups.get(key(item)) ?? []), item]);
  return groups;
}

const unitOfFigure = (farm: Farm, crop: Crop, figure: CropFigure): string => {
  const sold = unitOf(farm.markets, crop.name);
  switch (figure) {
    case 'germination':
    case 'nursery_losses':
    case 'plants_per_seed':
    case 'bed_losses':
      return 'share';
    case 'units_per_plant':
      return sold;
    case 'units_per_m2':
      return `${sold}/m²`;
    case 'price':
      return `${farm.currency} a ${sold}`;
    default:
      return 'day';
  }
};

/** Times that follow each other in a tank are one batch: what a weighing errs by is taken from one and given to the next. */
function fedBatches(records: readonly ConversionRecord[]): readonly {
  readonly species: Species;
  readonly to: number;
  readonly value: number;
}[] {
  const batches: { species: Species; tank: string; to: number; feed: number; gain: number }[] = [];
  for (const { species, tank, from, to, feed, gain } of records) {
    const before = batches.find(
      (batch) => batch.to === from && placeKey(batch.tank) === placeKey(tank),
    );
    if (before === undefined) batches.push({ species, tank, to, feed, gain });
    else {
      before.feed += feed;
      before.gain += gain;
      before.to = to;
    }
  }
  return batches.map(({ species, to, feed, gain }) => ({ species, to, value: feed / gain }));
}

/** What the water of the whole farm took. */
function waterFigures(farm: Farm, log: FishLog): OwnRecord[] {
  const { waterTests: rows, asOf, units } = farm;
  const figure = (
    name: 'alkalinity_per_feed' | 'water_a_day',
    unit: string,
    found: readonly WaterRecord[],
  ): OwnRecord[] =>
    found.length === 0
      ? []
      : [
          record(
            { of: '', figure: name, unit },
            found.map(({ to, value }) => ({ day: to, value })),
            undefined,
            // Each begins with the test that the one before ended with.
            name === 'alkalinity_per_feed',
          ),
        ];
  const held = new Map<number, readonly string[]>();
  const tanksWithFish = (day: number): readonly string[] => {
    const known = held.get(day);
    if (known) return known;
    const states = log.stateOn(day);
    const names = farm.tanks.flatMap(({ name }, i) => ((states[i]?.fish ?? 0) > 0 ? [name] : []));
    held.set(day, names);
    return names;
  };
  const { total } = farm.water;
  return [
    ...figure(
      'alkalinity_per_feed',
      'g as CaCO3',
      total === undefined || farm.feedLog.length === 0
        ? []
        : alkalinityPerFeed({ rows, feedings: farm.feedLog, tanksWithFish, volume: total, asOf }),
    ),
    ...figure(
      'water_a_day',
      shownIn('volume', units).unit,
      waterUsed(rows, asOf).map((used) => ({
        ...used,
        value: toShown(used.value, 'volume', units),
      })),
    ),
  ];
}

function fishRecords(farm: Farm): OwnRecord[] {
  const rows = fishRowsOf(farm.fishLog);
  const kinds = new Map(
    farm.tanks.map(({ name, species }) => [
      placeKey(name),
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
  const speciesIn = (tank: string): Species | undefined => kinds.get(placeKey(tank));
  const growth = growthRecords({
    rows,
    outcomes: log.rows,
    speciesIn,
    water: waterOfDays(farm.waterTests, months),
  }).filter(({ coefficient }) => Number.isFinite(coefficient));
  const fed = conversionRecords({
    rows,
    outcomes: log.rows,
    feedings: farm.feedLog.filter(({ date }) => date <= farm.asOf),
    speciesIn,
  });
  const spreads = farm.fishLog.flatMap(({ what, planned, spread, tank, date }, at) => {
    const species = speciesIn(tank);
    return what === 'weighed' &&
      planned === undefined &&
      spread !== undefined &&
      species !== undefined &&
      log.rows[at]?.status === 'done'
      ? [{ species, to: date, value: spread }]
      : [];
  });
  const bySpecies = (
    figure: 'tgc' | 'feed_conversion' | 'weight_spread',
    unit: string,
    all: readonly { readonly species: Species; readonly to: number; readonly value: number }[],
  ): OwnRecord[] =>
    [...grouped(all, ({ species }) => species)].map(([species, found]) =>
      record(
        { of: species.name, figure, unit },
        found.map(({ to, value }) => ({ day: to, value })),
        tableFigure(farm, figure, species.name),
      ),
    );
  const grown = [
    ...bySpecies(
      'tgc',
      '',
      growth.map((growthRecord) => ({ ...growthRecord, value: growthRecord.coefficient })),
    ),
    ...bySpecies('feed_conversion', 'kg', fedBatches(fed)),
    ...bySpecies('weight_spread', 'share', spreads),
    ...waterFigures(farm, log),
  ];
  const lived = grouped(survivalByStage(rows, log.rows), ({ stage }) => stage);
  for (const figure of Object.keys(stageOfFigure) as OfStage[]) {
    const found = lived.get(stageOfFigure[figure]) ?? [];
    if (found.length > 0)
      grown.push(
        record(
          { of: '', figure, unit: 'share' },
          found.map(({ to, share }) => ({ day: to, value: share })),
          tableFigure(farm, figure, undefined),
        ),
      );
  }
  // A lot of which fish are left says nothing yet of how many will be sold.
  const finished = log.lots.filter(
    ({ alive, stocked, sold }) => alive < 0.5 && stocked > 0 && sold > 0,
  );
  return finished.length === 0
    ? grown
    : [
        ...grown,
        record(
          { of: '', figure: 'survival', unit: 'share' },
          finished.map(({ sold, stocked }, at) => ({ day: at, value: sold / stocked })),
          tableFigure(farm, 'survival', undefined),
        ),
      ];
}

/** Every own figure that the registers support, fish first, then crops; seasons behind the whole year. */
export function ownRecords(counted: Farm): OwnRecord[] {
  // Own figures are set against what would count without them.
  const farm = asTyped(counted);
  const cropOf = (name: string): Crop | undefined => cropTable.book.find(name);
  const found = cropRecords({ ...farm, cropOf });
  const crops = [...grouped(found, ({ crop }) => crop)].flatMap(([name, records]) => {
    const crop = cropOf(name) as Crop;
    return [...grouped(records, ({ figure }) => figure)].flatMap(([figure, values]) => {
      const head = { of: crop.name, figure, unit: unitOfFigure(farm, crop, figure) };
      const table = tableFigure(farm, figure, crop.name);
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
