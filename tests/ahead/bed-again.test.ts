import { describe, expect, it } from 'vitest';
import { bedChangesBetween, planBedsAgain } from '../../src/ahead/bed-again';
import { planBeds } from '../../src/ahead/bed-plan';
import type { Batch, PlannedBatch, Season, SeasonCrop } from '../../src/ahead/season';
import { loadSolver } from '../../src/ahead/solver';
import { heldTwice } from './beds-held-twice';
import { bed, crop, MONDAY, season, weekly } from './small-seasons';

const solve = await loadSolver();
const WEEKS = 14;
const LATER = 2;
const names = ['A', 'B', 'C', 'D', 'E', 'F'];

/** Six beds of 2 m2 and two crops; seen again two weeks later, when the first batches stand in their beds. */
function farmFrom(
  weeks: number,
  crops: readonly SeasonCrop[],
  freeFrom = new Map<string, number>(),
) {
  const beds = names.map((name) =>
    bed(name, { area: 2, freeFrom: Math.max(MONDAY + 7 * weeks, freeFrom.get(name) ?? 0) }),
  );
  return season(WEEKS, beds, crops, { from: MONDAY + 7 * weeks });
}
/** Its batches two weeks later; none that would have been sown before. */
const later = (of: SeasonCrop): SeasonCrop => ({
  ...of,
  batches: of.batches.map((batch, week) => {
    const by = 7 * LATER;
    const { sown, plantedOut, firstCut, cleared } = batch as Batch;
    if (week < of.nurseryWeeks) return { why: 'would have been sown before' };
    return {
      sown: sown + by,
      plantedOut: plantedOut + by,
      firstCut: firstCut + by,
      cleared: cleared + by,
    };
  }),
});
const lettuce = crop('lettuce', WEEKS, 4, { wanted: weekly(WEEKS, 18) });
const basil = crop('basil', WEEKS, 6, { wanted: weekly(WEEKS, 6), price: 2 });
const crops = [lettuce, basil];

const first = planBeds(solve, farmFrom(0, crops), { gap: 0.01 });
const today = MONDAY + 7 * LATER;
const done = first.plantings.filter(({ plantedOut }) => plantedOut < today);
const ahead = first.plantings.filter(({ plantedOut }) => plantedOut >= today);
const sown = ahead.filter((planting) => planting.sown < today);
const freeFrom = new Map<string, number>();
for (const { bed: name, cleared } of done) {
  freeFrom.set(name, Math.max(cleared, freeFrom.get(name) ?? 0));
}

const plantsOf = (plantings: readonly PlannedBatch[], of: PlannedBatch): number =>
  plantings
    .filter(({ crop, plantedOut }) => crop === of.crop && plantedOut === of.plantedOut)
    .reduce((sum, { plants }) => sum + plants, 0);

/** Plans again, and looks that what is sown is kept and that more of the plan stays than by planning anew. */
function again(of: Season, earlier: readonly PlannedBatch[]): readonly string[] {
  const { plan, changes } = planBedsAgain(solve, of, earlier, { gap: 0.01 });
  expect(heldTwice(of, plan.plantings)).toEqual([]);
  for (const planting of earlier.filter((one) => one.sown < today)) {
    expect(plantsOf(plan.plantings, planting)).toBeGreaterThanOrEqual(plantsOf(earlier, planting));
  }
  const anew = planBeds(solve, of, { gap: 0.01 }).plantings;
  const end = of.from + 7 * of.weeks;
  const open = earlier.filter(({ plantedOut }) => plantedOut < end);
  // Of the plants that were planned by crop and week, the share that still is.
  const weeks = new Map(open.map((one) => [`${one.crop} ${one.plantedOut}`, one]));
  const stay = (plantings: readonly PlannedBatch[]): number => {
    const before = [...weeks.values()].map((one) => [
      plantsOf(open, one),
      plantsOf(plantings, one),
    ]);
    const kept = before.reduce((sum, [was = 0, now = 0]) => sum + Math.min(was, now), 0);
    return kept / before.reduce((sum, [was = 0]) => sum + was, 0);
  };
  expect(stay(plan.plantings)).toBeGreaterThan(stay(anew));
  expect(stay(plan.plantings)).toBeGreaterThan(0.75);
  return changes;
}

describe('planning the beds again', () => {
  it('starts from a plan with some work done, some sown and some still to do', () => {
    expect(done.length).toBeGreaterThan(2);
    expect(sown.length).toBeGreaterThan(0);
    expect(ahead.length).toBeGreaterThan(sown.length + 4);
  });

  it('keeps what is sown and finds room for more after a new customer', () => {
    const more = { ...later(basil), wanted: weekly(WEEKS, 9) };
    const changes = again(farmFrom(LATER, [later(lettuce), more], freeFrom), ahead);
    expect(changes.some((text) => /^new: \d+ basil into /.test(text))).toBe(true);
  });

  it('keeps the rest after a tray is lost', () => {
    const [lost] = sown;
    again(
      farmFrom(LATER, crops.map(later), freeFrom),
      ahead.filter((one) => one !== lost),
    );
  });

  it('replans after a bad month in which everything takes a week longer', () => {
    const slow = <B extends Batch>(batch: B): B =>
      batch.plantedOut < today + 28
        ? { ...batch, firstCut: batch.firstCut + 7, cleared: batch.cleared + 7 }
        : batch;
    const slowed = crops.map(later).map((of) => ({
      ...of,
      batches: of.batches.map((batch) => ('why' in batch ? batch : slow(batch))),
    }));
    again(farmFrom(LATER, slowed, freeFrom), ahead.map(slow));
  });

  it('lists what is new, gone or changed, day by day', () => {
    const planting = (over: Partial<PlannedBatch>): PlannedBatch => ({
      crop: 'lettuce',
      bed: 'A',
      plants: 20,
      area: 2,
      sown: MONDAY - 14,
      plantedOut: MONDAY,
      firstCut: MONDAY + 28,
      cleared: MONDAY + 35,
      ...over,
    });
    expect(
      bedChangesBetween(
        [planting({}), planting({ bed: 'B', plantedOut: MONDAY + 7 })],
        [planting({ plants: 10 }), planting({ bed: 'C', plantedOut: MONDAY + 14 })],
      ),
    ).toEqual([
      '10 lettuce into A on 2026-04-13, not 20',
      'no longer: 20 lettuce into B on 2026-04-20',
      'new: 20 lettuce into C on 2026-04-27',
    ]);
  });
});
