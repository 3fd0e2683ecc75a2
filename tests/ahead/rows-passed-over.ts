import type { PlannedBatch } from '../../src/ahead/season';
import { cropOf } from '../../src/ahead/own-tables';
import { batchPlantedOn } from '../../src/ahead/crop-season';
import { usual } from '../../src/core/tables/crops';
import type { Farm } from '../../src/plan/farm';

/**
 * Plantings of a plan that stand in a bed together with a row that has it alone, or with more rows than it has room
 * for: counted here from the rows themselves, day by day, in plants.
 */
export function rowsPassedOver(farm: Farm, plantings: readonly PlannedBatch[]): string[] {
  const means = farm.months.map(({ high, low }) => ((high ?? NaN) + (low ?? NaN)) / 2);
  const faults: string[] = [];
  for (const bed of farm.beds) {
    const area = bed.length * bed.width;
    const rows = farm.plantings.flatMap((row) => {
      const { planned, planted } = row;
      if (row.bed?.trim().toLowerCase() !== bed.name.toLowerCase() || planted === undefined)
        return [];
      if (planned !== undefined && planned !== 'planned') return [];
      const crop = cropOf(farm, row.crop);
      const batch = batchPlantedOn(crop, planted, means);
      const to = row.cleared ?? ('why' in batch ? Infinity : batch.cleared);
      const needs =
        row.plants === undefined ? 1 : row.plants / (usual(crop, 'plants_per_m2') * area);
      return [{ from: planted, to, needs, name: row.crop }];
    });
    for (const one of plantings.filter((planting) => planting.bed === bed.name)) {
      for (let day = one.plantedOut; day < one.cleared; day++) {
        const there = rows.filter(({ from, to }) => from <= day && day < to);
        if (there.length === 0) continue;
        const needs = there.reduce((sum, row) => sum + Math.min(1, row.needs), 0);
        if (there.length === 1 && rows.length === 1) {
          faults.push(`${bed.name}: ${one.crop} beside ${there[0]?.name}, which has it alone`);
          break;
        }
        if (needs + one.area / area > 1 + 1e-6) {
          faults.push(
            `${bed.name}: ${one.crop} beside ${there.map(({ name }) => name).join(', ')}`,
          );
          break;
        }
      }
    }
  }
  return faults;
}
