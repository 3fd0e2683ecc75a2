import { describe, expect, it } from 'vitest';
import { fishEvents, fishLog } from '../../src/core/fish-log';
import type { Species } from '../../src/core/tables/species';
import { computedValues } from '../../src/engine/engine';
import { speciesTable } from '../../src/functions/species-table';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { fishRowsOf } from '../../src/plan/registers-of-farm';
import { isoText, serialFromIsoText } from '../../src/core/serial-date';
import { oneOf, randomNumbers } from '../soak/random';

const tanks = [
  { name: 'North', volume: 7800, species: 'Nile tilapia' },
  { name: 'South', volume: 7800, species: 'Nile tilapia' },
  { name: 'East', volume: 12_000, species: 'rainbow trout' },
  { name: 'West', volume: 5000, species: 'Nile tilapia' },
];
const asOf = '2026-04-13';

/** Rows as they come, in any order, many of them impossible. */
function anyLog(seed: number, count: number): unknown[] {
  const random = randomNumbers(seed);
  const whole = (low: number, high: number): number =>
    low + Math.floor(random() * (high - low + 1));
  const pick = <T>(list: readonly T[]): T => oneOf(random, list);
  const last = serialFromIsoText(asOf) as number;
  return Array.from({ length: count }, (_, i) => {
    const what = i < 12 ? 'stocked' : pick([...fishEvents, 'moved', 'sold', 'stocked'] as const);
    const spare = random();
    const mark = random();
    return {
      date: isoText(i < 8 ? last - 1600 + i : last - whole(-40, 1500)),
      tank: pick(['North', 'South', 'East', 'West', ' north ', 'Nowhere']),
      what,
      ...(spare < 0.93 && { fish: what === 'stocked' ? whole(200, 900) : whole(0, 260) }),
      ...((what === 'stocked' || what === 'weighed' || spare < 0.4) && {
        weight: what === 'stocked' ? whole(5, 60) : whole(20, 700),
      }),
      ...(spare < 0.97 && { toTank: pick(['North', 'South', 'East', 'West']) }),
      ...(spare < 0.15 && { lot: pick(['A', 'B', 'hatchery 7']) }),
      ...(mark < 0.1 && { planned: pick(['planned', 'otherwise', 'not done']) }),
    };
  });
}

describe('tanks hold on the day of the plan what the core reads from the same log', () => {
  it.each([
    [1, 60, 'plain'],
    [2, 110, 'live'],
    [3, 40, 'plain'],
  ] as const)('log %i of %i rows, %s', (seed, count, formulas) => {
    const farm = readFarm({ ...demoFarm, asOf, tanks, fishLog: anyLog(seed, count) });
    const at = computedValues(planWorkbook(farm, { formulas }));
    const log = fishLog(fishRowsOf(farm.fishLog), {
      tanks: farm.tanks.map(({ name, species }) => ({
        name,
        species: speciesTable.book.find(species) as Species,
      })),
      water: farm.months.map(({ water }) => water ?? NaN),
      asOf: farm.asOf,
    });
    const states = log.stateOn(farm.asOf);
    expect(states.some(({ fish }) => fish > 0)).toBe(true);
    states.forEach(({ fish, weight, since, lot }, k) => {
      const row = [3, 4, 5, 14].map((column) => at('Tanks', 5 + k, column));
      expect(row[0]).toBe(fish);
      if (fish === 0) expect(row.slice(1)).toEqual(['', '', '']);
      else {
        expect(row[1]).toBeCloseTo(weight, 7);
        expect(row.slice(2)).toEqual([since ?? '', lot]);
      }
    });
    // A row of the log that cannot be is named beside it, and no other.
    const named = farm.fishLog.map((_, i) => at('Fish log', 5 + i, 10) !== '');
    const isAhead = ({ date, planned }: (typeof farm.fishLog)[number]): boolean =>
      planned === 'planned' || date > farm.asOf;
    const wrong = log.rows.map(({ status }) => status === 'impossible' || status === 'waiting');
    farm.fishLog.forEach((row, i) => {
      if (!isAhead(row) || log.rows[i]?.status === 'waiting')
        expect([i, named[i], at('Fish log', 5 + i, 10)]).toEqual([
          i,
          wrong[i],
          at('Fish log', 5 + i, 10),
        ]);
      else if (named[i]) expect(wrong[i]).toBe(true);
    });
  });
});
