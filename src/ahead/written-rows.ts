/** A plan of the weeks to come as rows of the farm's registers, each marked as planned and as the planner's. */
import { isoText, isoWeekText } from '../core/serial-date';
import type { Farm, FishLogEntry, PlantingEntry } from '../plan/farm';
import { toShown } from '../plan/quantities';
import { seedsFor } from './bed-report';
import type { PlannedRow } from './fish-moves';
import { sealedFishRow, sealedPlanting } from './planner-rows';
import type { PlannedBatch } from './season';

export interface WrittenRows {
  readonly fishLog: readonly FishLogEntry[];
  readonly plantings: readonly PlantingEntry[];
}

const NAME_LENGTH = 40;

function fishEntry({ date, kind, tank, toTank, fish, weight, lot }: PlannedRow): FishLogEntry {
  const row = {
    date,
    kind,
    tank,
    fish,
    ...(weight !== undefined && { weight }),
    ...(toTank !== undefined && { toTank }),
    ...(lot !== undefined && { lot }),
  };
  const { kind: what, ...sealed } = sealedFishRow(row);
  return { ...sealed, what, planned: 'planned' };
}

function plantingEntry(farm: Farm, batch: PlannedBatch): PlantingEntry {
  const { crop, bed, plants, sown, plantedOut } = batch;
  const entry: PlantingEntry = {
    batch: `${crop} ${isoWeekText(sown)}`.slice(0, NAME_LENGTH).trim(),
    crop,
    seeds: seedsFor(farm, crop, plants),
    sown,
    bed,
    plants,
    planted: plantedOut,
    planned: 'planned',
  };
  return sealedPlanting(entry);
}

/** When the bed is cut and cleared is left out: sheets and planner reckon it from the rows. */
export const writtenRows = (
  farm: Farm,
  fish: readonly PlannedRow[] = [],
  beds: readonly PlannedBatch[] = [],
): WrittenRows => ({
  fishLog: fish.map(fishEntry),
  plantings: beds.map((batch) => plantingEntry(farm, batch)),
});

/** A row as a farm file has it: days as text, figures in the farm's units. */
export function inFarmFile(
  { units }: Pick<Farm, 'units'>,
  row: FishLogEntry | PlantingEntry,
): Record<string, unknown> {
  const days = new Set(['date', 'sown', 'planted', 'up', 'firstCut', 'cleared']);
  return Object.fromEntries(
    Object.entries(row).flatMap(([field, value]: [string, unknown]) => {
      if (value === undefined) return [];
      if (typeof value !== 'number') return [[field, value]];
      if (days.has(field)) return [[field, isoText(value)]];
      return [[field, field === 'weight' ? toShown(value, 'fishWeight', units) : value]];
    }),
  );
}
