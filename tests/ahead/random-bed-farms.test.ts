import { describe, expect, it } from 'vitest';
import { planBeds } from '../../src/ahead/bed-plan';
import { seasonOfFarm } from '../../src/ahead/season-of-farm';
import { loadSolver } from '../../src/ahead/solver';
import { randomBedFarm } from './random-bed-farms';
import { heldTwice } from './beds-held-twice';

const FARMS = Number(process.env['BED_FARMS'] ?? 20);
const solve = await loadSolver();

describe('plans of the beds of farms by chance', () => {
  it.each(Array.from({ length: FARMS }, (_, seed) => seed))(
    'farm %i: no bed twice, nothing out of its months, near the bound',
    (seed) => {
      const { season } = seasonOfFarm(randomBedFarm(seed), { weeks: 16 });
      const plan = planBeds(solve, season, { seconds: 20, gap: 0.02 });
      expect(heldTwice(season, plan.plantings)).toEqual([]);
      // Within 2 % of the best possible, or ended by the time with what it had.
      expect(plan.gap).toBeLessThanOrEqual(plan.status === 'optimal' ? 0.02 + 1e-9 : 0.1);
      for (const planting of plan.plantings) {
        const crop = season.crops.find(({ name }) => name === planting.crop);
        const bed = season.beds.find(({ name }) => name === planting.bed);
        expect(crop?.kinds).toContain(bed?.kind);
        const batch = crop?.batches[(planting.plantedOut - season.from) / 7];
        expect(batch).toMatchObject({
          sown: planting.sown,
          firstCut: planting.firstCut,
          cleared: planting.cleared,
        });
        expect(planting.sown).toBeGreaterThanOrEqual(season.from);
        expect(Number.isInteger(planting.plants)).toBe(true);
      }
      for (const outlook of plan.outlook) {
        expect(outlook.short > 1e-6).toBe(outlook.why !== undefined);
        expect(outlook.weeks.every(({ supply }) => Number.isFinite(supply))).toBe(true);
      }
    },
  );
});
