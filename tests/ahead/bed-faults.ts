import type { BedPlan } from '../../src/ahead/bed-plan';
import type { Season } from '../../src/ahead/season';
import { heldTwice } from './beds-held-twice';

/**
 * What is wrong with a plan of the beds, in sentences: a bed held twice, a crop in a bed or a week that is not
 * for it, parts of plants, a shortage without a reason, a gap without one.
 */
export function bedFaults(season: Season, plan: BedPlan, gap: number): string[] {
  const faults: string[] = [...heldTwice(season, plan.plantings)];
  if (plan.gap > gap + 1e-9 && plan.status === 'optimal') faults.push(`gap ${plan.gap}`);
  if (plan.objective < plan.bound - 1e-6 * Math.abs(plan.bound)) {
    faults.push(`better than its bound: ${plan.objective}, ${plan.bound}`);
  }
  for (const planting of plan.plantings) {
    const say = (what: string): number =>
      faults.push(`${planting.crop} in ${planting.bed} on ${planting.plantedOut}: ${what}`);
    const crop = season.crops.find(({ name }) => name === planting.crop);
    const bed = season.beds.find(({ name }) => name === planting.bed);
    if (!crop || !bed) {
      say('unknown');
      continue;
    }
    if (!crop.kinds.includes(bed.kind)) say(`stands in ${bed.kind}`);
    if (crop.tall && !bed.tall) say('shades its neighbours');
    const batch = crop.batches[(planting.plantedOut - season.from) / 7];
    if (batch === undefined || 'why' in batch) say('out of its months');
    else if (
      batch.sown !== planting.sown ||
      batch.firstCut !== planting.firstCut ||
      batch.cleared !== planting.cleared
    ) {
      say('has dates of its own');
    }
    if (planting.sown < season.from) say('sown before today');
    if (!Number.isInteger(planting.plants) || planting.plants < 1) say(`${planting.plants} plants`);
    if (planting.plants > bed.area * crop.density + 1e-6) say('more plants than have room');
  }
  for (const { crop, short, why, weeks } of plan.outlook) {
    if (short > 1e-6 !== (why !== undefined)) faults.push(`${crop} is ${short} short: ${why}`);
    if (!weeks.every(({ supply }) => Number.isFinite(supply))) faults.push(`${crop}: no number`);
  }
  return faults;
}
