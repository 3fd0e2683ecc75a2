import { pickingDays } from '../core/sowing';
import { type Crop, usual } from '../core/tables/crops';
import type { Farm } from '../plan/farm';
import { cropOf } from './own-tables';
import { seasonableBatch } from './crop-season';
import { type PlannedBatch, restAfter, roomIn, type Season } from './season';
import { unitsPerPlant } from '../plan/units-per-plant';
import { airMeans } from './needed';

export interface FixedCadence {
  readonly plantings: readonly PlannedBatch[];
  /** Batches that the months do not allow; they take their beds and give nothing. */
  readonly outOfSeason: number;
  /** Plants that were sown and found no bed. */
  readonly plantsWithoutBed: number;
}

/**
 * What comes of sowing each crop of the market every so many days, as the Sowing sheet has it, and of
 * planting each batch into the first beds that are free: what a plan of the season is compared with.
 */
export function fixedCadence(farm: Farm, season: Season): FixedCadence {
  const means = airMeans(farm);
  const end = season.from + 7 * season.weeks;
  const freeFrom = new Map(season.beds.map((bed) => [bed.name, bed.freeFrom]));
  const batches: { crop: Crop; plantedOut: number; plants: number }[] = [];
  for (const row of farm.markets) {
    const { every, firstHarvest } = row;
    // Without a rhythm nothing is sown.
    if (every === undefined || firstHarvest === undefined) continue;
    const crop = cropOf(farm, row.crop);
    const nursery = crop.start === 'in place' ? 0 : usual(crop, 'transplant_days');
    const toCut = usual(crop, 'transplant_days') + usual(crop, 'bed_days');
    const plants = Math.ceil(((row.perWeek / unitsPerPlant(crop, row)) * every) / 7 - 1e-6);
    let sown = firstHarvest - toCut;
    while (sown < season.from) sown += every;
    for (; sown + nursery < end; sown += every) {
      batches.push({ crop, plantedOut: sown + nursery, plants });
    }
  }
  batches.sort((a, b) => a.plantedOut - b.plantedOut);

  let outOfSeason = 0;
  let plantsWithoutBed = 0;
  const plantings = batches.flatMap(({ crop, plantedOut, plants }) => {
    const kinds = season.crops.find(({ name }) => name === crop.name)?.kinds ?? [];
    const density = usual(crop, 'plants_per_m2');
    const batch = seasonableBatch(crop, plantedOut, means);
    if ('why' in batch) outOfSeason++;
    const keptUntil =
      'why' in batch ? plantedOut + usual(crop, 'bed_days') + pickingDays(crop) : batch.cleared;
    const made: PlannedBatch[] = [];
    let left = plants;
    for (const bed of season.beds) {
      const room = Math.floor(bed.area * density);
      if (left <= 0) break;
      if (room === 0 || !kinds.includes(bed.kind)) continue;
      if ((freeFrom.get(bed.name) ?? 0) > plantedOut) continue;
      const until = keptUntil + restAfter(season, crop.name);
      if (roomIn(bed, plantedOut, until) < 1) continue;
      freeFrom.set(bed.name, until);
      const here = Math.min(room, left);
      left -= here;
      if ('why' in batch) continue;
      made.push({ ...batch, crop: crop.name, bed: bed.name, plants: here, area: bed.area });
    }
    plantsWithoutBed += Math.max(0, left);
    return made;
  });
  return { plantings, outOfSeason, plantsWithoutBed };
}
