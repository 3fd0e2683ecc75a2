import { describe, expect, it } from 'vitest';
import { bedClasses } from '../../src/ahead/bed-classes';
import { planBeds, suppliedUnits } from '../../src/ahead/bed-plan';
import type { PlannedBatch, Season } from '../../src/ahead/season';
import { seasonValues } from '../../src/ahead/season-value';
import { loadSolver } from '../../src/ahead/solver';
import { heldTwice } from './beds-held-twice';
import { bed, crop, MONDAY, season, weekly } from './small-seasons';

const solve = await loadSolver();

/** What a plan costs by the rules of the model, reckoned from its plantings alone. */
function costOf(of: Season, plantings: readonly PlannedBatch[]): number {
  const values = seasonValues(of);
  let cost = 0;
  suppliedUnits(of, plantings).forEach((weeks, c) => {
    weeks.forEach((supply, week) => {
      const wanted = of.crops[c]?.wanted[week] ?? 0;
      const value = values.unit[c] ?? 0;
      cost -= value * Math.min(wanted, supply);
      cost += value * values.surplusShare * Math.max(0, supply - wanted);
    });
  });
  for (const { name, area } of of.beds) {
    for (let week = 0; week < of.horizon; week++) {
      const monday = of.from + 7 * week;
      const there = plantings.some(
        (planting) =>
          planting.bed === name && planting.plantedOut <= monday && monday < planting.cleared,
      );
      if (!there) cost += values.emptyArea * area;
    }
  }
  return cost;
}

/** The least cost of all ways to fill the beds, by trying each. */
function leastByTrying(of: Season): number {
  let least = Infinity;
  const fill = (bedIndex: number, week: number, so: readonly PlannedBatch[]): void => {
    const place = of.beds[bedIndex];
    if (!place) {
      least = Math.min(least, costOf(of, so));
      return;
    }
    if (week >= of.horizon) {
      fill(bedIndex + 1, 0, so);
      return;
    }
    fill(bedIndex, week + 1, so);
    for (const each of of.crops) {
      const batch = each.batches[week];
      if (batch === undefined || 'why' in batch) continue;
      const planted = {
        ...batch,
        crop: each.name,
        bed: place.name,
        plants: Math.floor(place.area * each.density),
        area: place.area,
      };
      fill(bedIndex, (batch.cleared - of.from) / 7, [...so, planted]);
    }
  };
  fill(0, 0, []);
  return least;
}

/** Beds too small to be parted, so that places are whole beds. */
const smallBeds = (weeks: number, wanted: number): Season =>
  season(
    weeks,
    [bed('A', { area: 0.9 }), bed('B', { area: 0.9 })],
    [
      crop('lettuce', weeks, 2, { density: 112, wanted: weekly(weeks, wanted) }),
      crop('basil', weeks, 3, { density: 60, price: 3, wanted: weekly(weeks, 20) }),
    ],
  );
const dozen = (more: (i: number) => object = () => ({})) =>
  Array.from({ length: 12 }, (_, i) => bed(`R${i}`, more(i)));

describe('the plan of the beds', () => {
  it.each([60, 100, 150])(
    'is as good as the best of all possible fillings (%i wanted)',
    (wanted) => {
      const small = smallBeds(6, wanted);
      const plan = planBeds(solve, small, { gap: 0 });
      expect(plan.status).toBe('optimal');
      expect(plan.objective).toBeCloseTo(leastByTrying(small), 6);
      expect(costOf(small, plan.plantings)).toBeCloseTo(plan.objective, 6);
      expect(heldTwice(small, plan.plantings)).toEqual([]);
    },
  );

  it('plants nothing in a bed before what stands in it is cleared and the rest is over', () => {
    const of = season(
      6,
      [bed('A', { area: 0.9, freeFrom: MONDAY + 16 })],
      [crop('lettuce', 6, 2, { density: 112 })],
      { restDays: 2 },
    );
    const { plantings } = planBeds(solve, of, { gap: 0 });
    expect(plantings.map(({ plantedOut }) => plantedOut)).toEqual([MONDAY + 21]);
    expect(heldTwice(of, plantings)).toEqual([]);
  });

  it('keeps a crop out of unsuitable beds and out of weeks without a batch, and says why', () => {
    const never = Array.from({ length: 8 }, () => ({
      why: 'too cold for lettuce: planted out on a day',
      season: 'too cold for lettuce',
    }));
    const of = season(
      8,
      [bed('R', { area: 0.9 }), bed('G', { area: 0.9, kind: 'gravel' })],
      [
        crop('basil', 8, 2, { density: 112, kinds: ['gravel'] }),
        crop('lettuce', 8, 2, { density: 112, batches: never }),
      ],
    );
    const plan = planBeds(solve, of, { gap: 0 });
    expect(new Set(plan.plantings.map((planting) => planting.bed))).toEqual(new Set(['G']));
    expect(plan.outlook.find((outlook) => outlook.crop === 'lettuce')).toMatchObject({
      short: 800,
      why: expect.stringContaining('too cold for lettuce'),
    });
  });

  it('raises no more seedlings than the nursery holds', () => {
    const of = season(8, dozen(), [crop('lettuce', 8, 4)], { nursery: 250 });
    const { plantings } = planBeds(solve, of, { gap: 0 });
    for (let week = 0; week < 8; week++) {
      const monday = MONDAY + 7 * week;
      const seedlings = plantings
        .filter(({ plantedOut }) => monday >= plantedOut - 14 && monday < plantedOut)
        .reduce((sum, { plants }) => sum + plants, 0);
      expect(seedlings).toBeLessThanOrEqual(250);
    }
    expect(plantings.length).toBeGreaterThan(4);
  });

  it('plants more where more feed is given', () => {
    const planted = (feed: number): number => {
      const few = crop('lettuce', 10, 4, { wanted: weekly(10, 30) });
      const of = season(10, dozen(), [few], { feed: weekly(10, feed) });
      return planBeds(solve, of, { gap: 0 }).plantings.length;
    };
    expect(planted(6000)).toBeGreaterThan(planted(500));
  });

  it('rotates plant families through a bed where that is asked for', () => {
    const many = { wanted: weekly(8, 600) };
    const of = season(
      8,
      dozen((i) => ({ family: i % 2 ? 'lettuce' : 'basil' })),
      [crop('lettuce', 8, 4, many), crop('basil', 8, 4, many)],
      { rotate: true },
    );
    const { plantings } = planBeds(solve, of, { gap: 0 });
    const first = plantings.filter(({ plantedOut }) => plantedOut === MONDAY);
    expect(first.length).toBeGreaterThan(4);
    const before = (name: string) => of.beds.find((place) => place.name === name)?.family;
    expect(first.filter((planting) => planting.crop === before(planting.bed))).toEqual([]);
  });

  it('counts beds in quarters, a few beds in smaller parts, and never in parts below half a m2', () => {
    const places = (beds: ReturnType<typeof dozen>) =>
      bedClasses(season(4, beds, [])).map(({ placesPerBed }) => placesPerBed);
    expect(places([bed('A'), bed('B')])).toEqual([6]);
    expect(places(dozen())).toEqual([4]);
    expect(places(dozen(() => ({ area: 1.6 })))).toEqual([3]);
    expect(places(dozen(() => ({ area: 0.4 })))).toEqual([1]);
  });
});
