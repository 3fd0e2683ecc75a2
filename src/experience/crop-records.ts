/** What a farm's own batches of crops did: days of each stage, plants from a seed, yield of a plant, price. */
import { calendarDate } from '../core/serial-date';
import type { Crop } from '../core/tables/crops';
import type { HarvestEntry, MarketEntry, PlantingEntry } from '../plan/farm';
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
  'plants_per_seed',
  'units_per_plant',
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
  /** The crop that a name means; undefined for fish. */
  readonly cropOf: (name: string) => Crop | undefined;
}

/** Of one unit in which a crop is sold, how many of another are as much. */
const inUnits = (crop: Crop, unit: MarketEntry['unit'], of: MarketEntry['unit']): number =>
  unit === of ? 1 : unitsPerPlant(crop, { unit: of }) / unitsPerPlant(crop, { unit });

/** The unit in which a crop goes to market: its first row of Sowing; kg where it has none. */
export const unitOf = (markets: readonly MarketEntry[], crop: string): MarketEntry['unit'] =>
  markets.find((market) => market.crop === crop)?.unit ?? 'kg';

export function cropRecords({ plantings, harvests, markets, cropOf }: CropRegisters): CropRecord[] {
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
    const { sown, up, planted, firstCut, cleared, seeds, plants } = batch.row;
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
    found.push({ crop: name, figure: 'units_per_plant', value: units / plants, day: from, at });
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
