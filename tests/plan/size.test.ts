import { describe, expect, it } from 'vitest';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';

const farmOf = (tanks: number, beds: number): unknown => ({
  ...demoFarm,
  tanks: Array.from({ length: tanks }, (_, i) => ({
    name: `T${i + 1}`,
    volume: 4000,
    species: 'Nile tilapia',
    fish: 200,
    weight: 100 + i,
  })),
  beds: Array.from({ length: beds }, (_, i) => ({
    name: `B${i + 1}`,
    kind: 'raft',
    length: 6,
    width: 1.2,
    crop: 'lettuce',
    plants: 140,
  })),
});

describe.each(['live', 'plain'] as const)('the size of a farm, %s', (formulas) => {
  it.each([
    [1, 1],
    [200, 1000],
  ])('%i tanks and %i beds fit', (tanks, beds) => {
    const model = planWorkbook(readFarm(farmOf(tanks, beds)), { formulas });
    const table = (name: string) =>
      model.sheets.find((sheet) => sheet.name === name)?.tables[0]?.area.rows ?? 0;
    expect(table('Tanks')).toBeGreaterThan(tanks);
    expect(table('Beds')).toBeGreaterThan(beds);
    // Excel takes at most 8192 characters in a formula.
    const lengths = model.sheets.flatMap((sheet) =>
      sheet.rows.flatMap((row) => row.map((cell) => cell?.formula?.length ?? 0)),
    );
    expect(lengths.filter((length) => length > 8192)).toEqual([]);
  });

  it.each([
    [201, 1],
    [1, 1001],
  ])('%i tanks and %i beds are refused', (tanks, beds) => {
    expect(() => readFarm(farmOf(tanks, beds))).toThrow(/must have 0 to (200|1000) rows/);
  });
});
