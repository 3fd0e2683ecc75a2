import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { fittedGrowth } from '../../src/core/growth-fitted';
import { type OwnRecord, ownRecords } from '../../src/experience/figures-of-registers';
import { simulatedFarm, truthOf } from '../tools/simulated-farm';

const FARMS = 200;
type Figure = keyof typeof truthOf;

const found = Array.from({ length: FARMS }, (_, seed) => {
  const { farm, truth } = simulatedFarm(seed + 1, { lots: 6, batches: 12 });
  return { truth, records: ownRecords(farm) };
});
const of = (records: readonly OwnRecord[], figure: Figure): OwnRecord =>
  records.find((one) => one.figure === figure && one.planted === undefined) as OwnRecord;

describe('200 farms of known truth', () => {
  it.each(Object.keys(truthOf) as Figure[])(
    'have their %s found with a bias below 2 percent',
    (figure) => {
      const off = found.map(
        ({ truth, records }) => of(records, figure).mean / truth[truthOf[figure]] - 1,
      );
      const bias = off.reduce((sum, one) => sum + one, 0) / FARMS;
      expect(Math.abs(bias)).toBeLessThan(0.02);
    },
  );

  it('lie within the stated interval as often as it says, 90 percent of them within 3', () => {
    const hits = found.flatMap(({ truth, records }) =>
      (Object.keys(truthOf) as Figure[]).map((figure) => {
        const [low, high] = of(records, figure).interval as readonly [number, number];
        const true_ = truth[truthOf[figure]];
        return low <= true_ && true_ <= high;
      }),
    );
    const share = hits.filter(Boolean).length / hits.length;
    expect(hits).toHaveLength(Object.keys(truthOf).length * FARMS);
    expect(Math.abs(share - 0.9)).toBeLessThan(0.03);
  });

  it('have as many batches as were logged, and blends between the table and what was found', () => {
    for (const { records } of found) {
      expect(of(records, 'tgc').batches).toBe(6);
      expect(of(records, 'bed_days').batches).toBe(12);
      for (const { table, mean, blend } of records) {
        if (table === undefined) continue;
        const [low, high] = [Math.min(table.usual, mean), Math.max(table.usual, mean)];
        expect(blend.figure).toBeGreaterThanOrEqual(low - 1e-9);
        expect(blend.figure).toBeLessThanOrEqual(high + 1e-9);
        expect(blend.own).toBeGreaterThan(0);
        expect(blend.own).toBeLessThan(1);
      }
    }
  });
});

describe('the fitted growth', () => {
  it('is the slope of a general library', () => {
    const weighings = [20, 61, 130, 262, 410].map((weight, i) => ({
      day: 30 * i,
      weight,
      temperature: 27,
    }));
    const { m } = linearRegression(
      weighings.map(({ day, weight }) => [27 * day, Math.cbrt(weight)]),
    );
    expect(fittedGrowth(weighings).coefficient).toBeCloseTo(1000 * m, 9);
  });
});
