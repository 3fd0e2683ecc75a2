import { describe, expect, it } from 'vitest';
import { fishOfFarm } from '../../src/ahead/fish-farm';
import { cropOf, speciesOf } from '../../src/ahead/own-tables';
import { seasonOfFarm } from '../../src/ahead/season-of-farm';
import { usual } from '../../src/core/tables/crops';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';

const farm = readFarm({
  ...demoFarm,
  crops: { lettuce: { bed_days: 40, rest_days: null, plants_per_m2: 25 } },
  species: { 'Nile tilapia': { tgc: 0.9 } },
});

describe('the planners prefer the grower’s own figures to the tables', () => {
  it('for the crops: days, density, and warmth that follows from the days', () => {
    const table = cropOf({}, 'lettuce');
    const own = cropOf(farm, 'lettuce');
    expect(usual(own, 'bed_days')).toBe(40);
    expect(usual(own, 'rest_days')).toBeUndefined();
    expect(usual(own, 'degree_days') / usual(table, 'degree_days')).toBeCloseTo(
      40 / usual(table, 'bed_days'),
      9,
    );
    const seasons = [readFarm(demoFarm), farm].map((one) =>
      seasonOfFarm(one, { weeks: 20 }).season.crops.find((crop) => crop.name === 'lettuce')!,
    );
    expect(seasons[1]?.density).toBe(25);
    const cut = seasons.map(({ batches }) => {
      const batch = batches[4];
      return batch && 'firstCut' in batch ? batch.firstCut : NaN;
    });
    expect(cut[1]).toBeGreaterThan(cut[0] as number);
  });

  it('for the fish: their growth', () => {
    expect(fishOfFarm(farm, { weeks: 20 }).wanted.coefficient).toBe(0.9);
    expect(speciesOf(farm, 'tilapia').facts.tgc[0]).toBe(0.9);
  });

  it('asks for a needed figure that was cleared', () => {
    const bare = readFarm({ ...demoFarm, crops: { lettuce: { bed_days: null } } });
    expect(() => seasonOfFarm(bare, { weeks: 20 })).toThrow(
      /the Crops sheet has no figure for Transplanting to first cut of lettuce: type one/,
    );
  });
});
