import { describe, expect, it } from 'vitest';
import { feedRate } from '../../../src/core/feeding';
import type { FishRow } from '../../../src/core/fish-log';
import { type TankTurns, tankYear } from '../../../src/core/fish-turns';
import { type Species, species } from '../../../src/core/tables/species';

const tilapia = species.find(({ name }) => name === 'Nile tilapia') as Species;
/** 13 April 2026 */
const TODAY = 46125;
const turns: TankTurns = {
  sellAt: 700,
  head: 400,
  startWeight: 50,
  first: 0,
  handled: [18.3, 34],
};
const stocked: FishRow = { date: TODAY, kind: 'stocked', tank: 'North', fish: 500, weight: 600 };

const yearOf = (
  rows: readonly FishRow[],
  change: Partial<TankTurns> = {},
  water = 27,
  dailySurvival?: number,
) =>
  tankYear(
    rows,
    {
      tanks: [{ name: 'North', species: tilapia, volume: 5000 }],
      water: Array.from({ length: 12 }, () => water),
      asOf: TODAY,
      ...(dailySurvival !== undefined && { dailySurvival }),
    },
    [{ ...turns, ...change }],
    52,
  );

describe('a tank whose planned rows are done', () => {
  it('is sold in the week in which its fish reach the selling weight, and restocked in the next', () => {
    const year = yearOf([stocked]);
    const sold = year.findIndex((one) => one.soldInTurn);
    expect(year[sold - 1]?.weight).toBeLessThan(700);
    expect(year[sold]?.weight).toBeGreaterThanOrEqual(700);
    expect(year[sold + 1]).toMatchObject({ fish: 400, weight: 50 });
    // One batch more grows within the year: no fish are ever more than a week's growth beyond that weight.
    expect(year.filter((one) => one.soldInTurn)).toHaveLength(2);
    expect(Math.max(...year.map((one) => one.weight))).toBeLessThan(800);
  });

  it('follows its rows as long as one is still to come', () => {
    const sale = { date: TODAY + 70, kind: 'sold', tank: 'North', planned: true };
    const year = yearOf([stocked, sale]);
    expect(year[9]?.weight).toBeGreaterThan(900);
    expect(year.slice(0, 10).some((one) => one.soldInTurn)).toBe(false);
    expect(year[10]).toMatchObject({ fish: 0, feed: 0 });
    expect(year[11]).toMatchObject({ fish: 400, weight: 50 });
  });

  it('sells in its turn what a planned sale leaves', () => {
    const sale = { date: TODAY + 7, kind: 'sold', tank: 'North', fish: 200, planned: true };
    const year = yearOf([stocked, sale]);
    const sold = year.findIndex((one) => one.soldInTurn);
    expect(sold).toBeGreaterThan(0);
    expect(year[sold]?.fish).toBe(300);
    expect(year[sold + 1]?.fish).toBe(400);
  });

  it('waits in water in which fish are not handled', () => {
    const year = yearOf([{ ...stocked, weight: 720 }], {}, 18);
    expect(year.every((one) => one.fish === 500 && !one.soldInTurn)).toBe(true);
  });

  it('stays empty where nothing is to be stocked, and until its first week', () => {
    expect(yearOf([]).findIndex((one) => one.fish > 0)).toBe(0);
    expect(yearOf([], { first: 6 }).findIndex((one) => one.fish > 0)).toBe(6);
    for (const week of yearOf([], { head: 0 }))
      expect(week).toMatchObject({ fish: 0, weight: 0, density: 0, feed: 0 });
  });

  it('grows a batch in its turn with every day of the week, and keeps all of its fish', () => {
    const [stocking, next] = yearOf([]);
    // Iwama & Tautz 1981: the cube root of the weight rises with temperature times days, seven of them a week.
    const risen = (tilapia.facts.tgc[0] / 1000) * 27 * 7;
    expect(stocking).toMatchObject({ fish: 400, weight: 50 });
    expect(next?.weight).toBeCloseTo((Math.cbrt(50) + risen) ** 3, 6);
    expect(next?.fish).toBe(400);
    const { weight = NaN } = next ?? {};
    expect(next?.feed).toBeCloseTo(400 * weight * feedRate(tilapia, weight, 27), 9);
  });

  it('loses of a batch in its turn what dies on every day of the week', () => {
    expect(yearOf([], {}, 27, 0.999)[1]?.fish).toBe(Math.round(400 * 0.999 ** 7));
  });

  it('sells nothing where no selling weight is stated, nor in water warmer than fish are handled in', () => {
    expect(yearOf([stocked], { sellAt: undefined }).some((week) => week.soldInTurn)).toBe(false);
    expect(yearOf([{ ...stocked, weight: 720 }], { handled: [18, 26] })[0]?.soldInTurn).toBe(false);
    expect(yearOf([{ ...stocked, weight: 700 }], { handled: [27, 27] })[0]?.soldInTurn).toBe(true);
  });

  it('has no fish, weight or feed in a tank that waits to be restocked', () => {
    const sale: FishRow = { date: TODAY + 7, kind: 'sold', tank: 'North' };
    const year = yearOf([stocked, { ...sale, planned: true }], { first: 20 });
    for (const week of year.slice(1, 20))
      expect(week).toMatchObject({ fish: 0, weight: 0, density: 0, feed: 0 });
  });
});
