import { beforeAll, describe, expect, it } from 'vitest';
import { planFish } from '../../src/ahead/fish-plan';
import { loadSolver, type Solver } from '../../src/ahead/solver';
import { howMany } from '../tools/how-many';
import { planFaults } from './plan-faults';
import { randomFarm, randomFarmWithRows } from './random-farms';

/** `npm run soak:fish` takes 200, larger and longer. */
const FARMS = howMany(6, 20);

let solve: Solver;
beforeAll(async () => {
  solve = await loadSolver();
});

describe('plans of random farms', () => {
  it.each(Array.from({ length: FARMS }, (_, at) => at + 1))(
    'farm %i: no limit exceeded, no fish lost, within 5 % of the bound or with the reason',
    (seed) => {
      const wanted = randomFarm(seed, { tanks: 3, weeks: 12 });
      const plan = planFish(wanted, solve, { seconds: 2, gap: 0.05 });
      expect(planFaults(wanted, plan)).toEqual([]);
    },
  );

  it.each(Array.from({ length: FARMS }, (_, at) => at + 1))(
    'farm %i with rows typed for later: they are kept as typed, and nothing interferes with them',
    (seed) => {
      const { wanted } = randomFarmWithRows(seed, { tanks: 4, weeks: 12 });
      const plan = planFish(wanted, solve, { seconds: 2, gap: 0.05 });
      expect(planFaults(wanted, plan)).toEqual([]);
    },
  );
});
