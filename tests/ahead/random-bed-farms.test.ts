import { describe, expect, it } from 'vitest';
import { planBeds } from '../../src/ahead/bed-plan';
import { seasonOfFarm } from '../../src/ahead/season-of-farm';
import { loadSolver } from '../../src/ahead/solver';
import { howMany } from '../tools/how-many';
import { bedFaults } from './bed-faults';
import { randomBedFarm } from './random-bed-farms';
import { rowsPassedOver } from './rows-passed-over';

/** `npm run soak:beds` takes 200, larger and longer. */
const FARMS = howMany(6, 20);
const solve = await loadSolver();

describe('bed plans of random farms', () => {
  it.each(Array.from({ length: FARMS }, (_, seed) => seed))(
    'farm %i: no bed used twice, no crop out of its months, close to the bound or with the reason',
    (seed) => {
      const { season } = seasonOfFarm(randomBedFarm(seed, { beds: 6, crops: 3 }), { weeks: 10 });
      const plan = planBeds(solve, season, { seconds: 3, gap: 0.02 });
      expect(bedFaults(season, plan, 0.02)).toEqual([]);
    },
  );

  it.each(Array.from({ length: FARMS }, (_, seed) => seed))(
    'farm %i with rows in its Plantings: none of them loses its place',
    (seed) => {
      const farm = randomBedFarm(seed, { beds: 6, crops: 3, rows: true });
      const { season } = seasonOfFarm(farm, { weeks: 10, nursery: 2000 });
      const plan = planBeds(solve, season, { seconds: 3, gap: 0.02 });
      expect(bedFaults(season, plan, 0.02)).toEqual([]);
      expect(rowsPassedOver(farm, plan.plantings)).toEqual([]);
    },
  );
});
