/** What a farm's own batches of crops did: days of each stage, plants from a seed, yield of a plant, price. */
import { calendarDate } from '../core/serial-date';
import type { Crop } from '../core/tables/crops';
import type { BedEntry, HarvestEntry, MarketEntry, PlantingEntry } from '../plan/farm';
import { unitOf } from '../plan/own-figure-rows';
import { placeKey } from '../plan/registers-of-farm';
import { unitsPerPlant } from '../plan/units-per-plant';

/** Quarters in which seasons turn, by the month of planting out; the same words hold on both halves of the earth. */
export const quarters = [
  'December to February',
  'March to May',
  'June to August',
  'September to November',
] as const;
export type Quarter = (typeof quarters)[number];

export const quarterOf = (day: number): Quarter =>
  quarters[Math.floor((calendarDate(day).month % 12) / 3)] as Quarter;

export const cropFigures = [
  'emerge_days',
  'transplant_days',
  'bed_days',
  'harvest_days',
  'germination',
  'nursery_losses',
  'plants_per_seed',
  'bed_losses',
  'units_per_plant',
  'units_per_m2',
  'price',
] as const;
export type CropFigure = (typeof cropFigures)[number];

export interface CropRecord {
  readonly crop: string;
  readonly figure: CropFigure;
  readonly value: number;
  /** Day by which the record counts to a season. */
  readonly day: number;
  /** Place among the plantings or, for prices, the harvests. */
  readonly at: number;
}

export interface CropRegisters {
  readonly plantings: readonly PlantingEntry[];
  readonly harvests: readonly HarvestEntry[];
  readonly markets: readonly MarketEntry[];
  /** What is sold of a square metre is told of beds that are listed. */
  readonly beds?: readonly Pick<BedEntry, 'name' | 'length' | 'width'>[];
  /** The crop that a name means; undefined for fish. */
  readonly cropOf: (name: string) => Crop | undefined;
}

/** What tells a crop of which each plant is one piece, by the weights of the crop table. */
const ONE_PIECE = 0.01;

/** Of one unit in which a crop is sold, how many of another are as much. */
const inUnits = (crop: Crop, unit: MarketEntry['unit'], of: MarketEntry['unit']): number =>
  unit === of ? 1 : unitsPerPlant(crop, { unit: of }) / unitsPerPlant(crop, { unit });

export function cropRecords({
  plantings,
  harvests,
  markets,
  beds = [],
  cropOf,
}: CropRegisters): CropRecord[] {
  const found: CropRecord[] = [];
  const done = plantings
    .map((row, at) => ({ row, at }))
    .filter(({ row }) => row.planned === undefined);

  const stage = (
    figure: CropFigure,
    { row, at }: (typeof done)[number],
    from: number | undefined,
    to: number | undefined,
  ): void => {
    // Dates out of order are the check's to name.
    if (from === undefined || to === undefined || to <= from) return;
    found.push({ crop: row.crop, figure, value: to - from, day: from, at });
  };
  for (const batch of done) {
    const { sown, up, cameUp, planted, firstCut, cleared, seeds, plants } = batch.row;
    const share = (figure: CropFigure, value: number, day: number | undefined): void => {
      if (day === undefined || !Number.isFinite(value) || value < 0 || value > 1) return;
      found.push({ crop: batch.row.crop, figure, value, day, at: batch.at });
    };
    const day = sown ?? up ?? planted;
    // More than were sown, or more planted than came up, are of another batch or a slip.
    if (cameUp !== undefined && seeds !== undefined) share('germination', cameUp / seeds, day);
    if (cameUp !== undefined && plants !== undefined && planted !== undefined)
      share('nursery_losses', 1 - plants / cameUp, planted);
    stage('emerge_days', batch, sown, up);
    stage('transplant_days', batch, sown, planted);
    stage('bed_days', batch, planted ?? sown, firstCut);
    stage('harvest_days', batch, firstCut, cleared);
    if (seeds !== undefined && seeds > 0 && plants !== undefined && (planted ?? up) !== undefined) {
      found.push({
        crop: batch.row.crop,
        figure: 'plants_per_seed',
        value: plants / seeds,
        day: (sown ?? planted ?? up) as number,
        at: batch.at,
      });
    }
  }

  for (const { row, at } of done) {
    const { bed, planted, sown, cleared, plants, crop: name } = row;
    const crop = cropOf(name);
    const from = planted ?? sown;
    if (crop === undefined || bed === undefined || from === undefined) continue;
    if (cleared === undefined || plants === undefined || plants === 0) continue;
    const shares = done.some(
      (other) =>
        other.at !== at &&
        other.row.crop === name &&
        other.row.bed !== undefined &&
        placeKey(other.row.bed) === placeKey(bed) &&
        (other.row.planted ?? other.row.sown ?? Infinity) <= cleared &&
        (other.row.cleared ?? Infinity) >= from,
    );
    // Which of two batches in one bed a harvest came from, the log does not say.
    if (shares) continue;
    const cut = harvests.filter(
      (harvest) =>
        harvest.crop === name &&
        harvest.bed !== undefined &&
        placeKey(harvest.bed) === placeKey(bed) &&
        harvest.date >= from &&
        harvest.date <= cleared,
    );
    if (cut.length === 0) continue;
    const unit = unitOf(markets, name);
    const units = cut.reduce(
      (sum, { quantity, unit: as }) => sum + quantity * inUnits(crop, as, unit),
      0,
    );
    const of = { crop: name, day: from, at };
    found.push({ ...of, figure: 'units_per_plant', value: units / plants });
    // Where one plant is one piece, what was planted and not sold was lost.
    if (unit === 'piece' && Math.abs(unitsPerPlant(crop, { unit }) - 1) < ONE_PIECE)
      found.push({ ...of, figure: 'bed_losses', value: 1 - units / plants });
    const place = beds.find((candidate) => placeKey(candidate.name) === placeKey(bed));
    const shared = done.some(
      (other) =>
        other.at !== at &&
        other.row.bed !== undefined &&
        placeKey(other.row.bed) === placeKey(bed) &&
        (other.row.planted ?? other.row.sown ?? Infinity) < cleared &&
        (other.row.cleared ?? Infinity) > from,
    );
    if (place !== undefined && !shared)
      found.push({ ...of, figure: 'units_per_m2', value: units / (place.length * place.width) });
  }

  harvests.forEach(({ crop: name, date, price, unit, quantity }, at) => {
    const crop = cropOf(name);
    // A price of 0 is what was given away.
    if (crop === undefined || price <= 0 || quantity <= 0) return;
    const sold = unitOf(markets, name);
    const value = price * inUnits(crop, sold, unit);
    found.push({ crop: name, figure: 'price', value, day: date, at });
  });
  return found;
}
