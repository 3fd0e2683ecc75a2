import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { species } from '../../../src/core/tables/species';
import { ask, askNumber, askRotation, askRows } from './ask';

describe('STOCK.LIMIT', () => {
  it('takes 20 kg/m3 where no density is given, and the aerated level for a species', () => {
    expect(ask('STOCK.LIMIT', 1000, 500)).toBe(40);
    for (const { name, facts } of species) {
      expect(ask('STOCK.LIMIT', 1000, 500, name), name).toBe(
        ask('STOCK.LIMIT', 1000, 500, facts.density_aerated[0]),
      );
    }
  });

  it('rounds down to whole fish, but not over the traces of arithmetic', () => {
    expect(ask('STOCK.LIMIT', 999.99, 500)).toBe(39);
    expect(ask('STOCK.LIMIT', 7800, 468, 60)).toBe(1000);
    // 0.7 * 30 / 0.3 is 69.99999999999999 or 70 by the order of the work
    expect(ask('STOCK.LIMIT', 0.7, 0.3, 30)).toBe(70);
  });

  it('never lets more in than the density allows, nor leaves room for one more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 1e5, noNaN: true }),
        fc.double({ min: 5, max: 3000, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        (volume, weight, density) => {
          const fish = askNumber('STOCK.LIMIT', volume, weight, density);
          const full = (fish * weight) / volume;
          return full <= density * (1 + 1e-5) && ((fish + 1) * weight) / volume > density;
        },
      ),
    );
  });

  it('says what a density may be', () => {
    expect(ask('STOCK.LIMIT', 1000, 500, -5)).toMatchObject({
      message: expect.stringContaining('density must be') as string,
    });
    expect(ask('STOCK.LIMIT', 1000, 500, 'goldfin')).toMatchObject({ code: '#N/A' });
  });
});

describe('STOCK.START', () => {
  it('rounds up to whole fish, but not over the traces of arithmetic', () => {
    expect(ask('STOCK.START', 608, 0.95)).toBe(640);
    expect(ask('STOCK.START', 571, 0.95)).toBe(602);
    expect(ask('STOCK.START', 640, 1)).toBe(640);
    expect(ask('STOCK.START', 0, 0.95)).toBe(0);
  });

  it('leaves the wanted harvest, and one fish fewer would not', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 100000 }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (harvest, survival) => {
          const stocked = askNumber('STOCK.START', harvest, survival);
          return stocked * survival >= harvest - 1e-5 && (stocked - 1) * survival < harvest;
        },
      ),
    );
  });

  it('refuses a survival that was typed as a percentage, or none', () => {
    expect(ask('STOCK.START', 570, 95)).toMatchObject({ code: '#VALUE!' });
    expect(ask('STOCK.START', 570, 0)).toMatchObject({
      message: expect.stringContaining('survival is missing') as string,
    });
  });
});

describe('STOCK.FORECAST', () => {
  const waters = [28, 26, 22, 17, 31, 24];

  it('equals GROWTH.WEIGHT and FEED.DAY repeated week by week', () => {
    const rows = askRows(
      'STOCK.FORECAST',
      640,
      50,
      6,
      waters.map((water) => [water]),
      'tilapia',
      0.9,
      7800,
      1.2,
    ) as number[][];
    let weight = 50;
    rows.forEach((row, week) => {
      const water = waters[Math.min(week, 5)];
      const fish = 640 * 0.9 ** (week / 6);
      expect(row[0]).toBe(week);
      expect(row[1]).toBeCloseTo(fish, 9);
      expect(row[2]).toBeCloseTo(weight, 9);
      expect(row[3]).toBeCloseTo((fish * weight) / 1000, 9);
      expect(row[4]).toBeCloseTo(askNumber('STOCK.DENSITY', fish, weight, 7800), 9);
      expect(row[5]).toBeCloseTo(
        askNumber('FEED.DAY', fish, weight, 'tilapia', water, null, 1.2),
        9,
      );
      weight = askNumber('GROWTH.WEIGHT', weight, 7, water, 'tilapia', 1.2);
    });
    expect(rows).toHaveLength(7);
    expect(rows[4]?.[2]).toBe(rows[3]?.[2]); // 17 degC: no growth in the fourth week
  });

  it('takes one temperature for all weeks, or a row of them, or more than it needs', () => {
    const one = askRows('STOCK.FORECAST', 640, 50, 3, 25);
    expect(askRows('STOCK.FORECAST', 640, 50, 3, [[25, 25, 25]])).toEqual(one);
    expect(askRows('STOCK.FORECAST', 640, 50, 3, [[25], [25], [25], [12]])).toEqual(one);
  });

  it('loses no fish and shows no density where neither is given', () => {
    const rows = askRows('STOCK.FORECAST', 640, 50, 3, 25);
    expect(rows.map((row) => row[1])).toEqual([640, 640, 640, 640]);
    expect(rows.map((row) => row[4])).toEqual(['', '', '', '']);
  });

  it('says where weekly temperatures are too few, blank or no row', () => {
    expect(ask('STOCK.FORECAST', 640, 50, 6, [[25], [26]])).toMatchObject({
      code: '#VALUE!',
      message: 'water has 2 values for 6 weeks; give one temperature, or one for each week',
    });
    expect(ask('STOCK.FORECAST', 640, 50, 2, [[25], [null]])).toMatchObject({
      message: expect.stringContaining('value 2 of 2 is blank') as string,
    });
    expect(
      ask('STOCK.FORECAST', 640, 50, 2, [
        [25, 25],
        [25, 25],
      ]),
    ).toMatchObject({
      message: expect.stringContaining('one row or one column') as string,
    });
  });

  it('takes whole weeks, up to ten years', () => {
    expect(ask('STOCK.FORECAST', 640, 50, 2.5, 25)).toMatchObject({ code: '#VALUE!' });
    expect(ask('STOCK.FORECAST', 640, 50, 521, 25)).toMatchObject({ code: '#VALUE!' });
    expect(ask('STOCK.FORECAST', null, null, null, null)).toBe('');
  });
});

describe('STOCK.ROTATION', () => {
  const wanted = [150, 600, 40, 27, 'tilapia', 0.92, 50] as const;

  it('agrees with the cards that it is made of', () => {
    const plan = askRotation(...wanted, 5);
    expect(plan.days).toBeCloseTo(askNumber('GROWTH.DAYS', 40, 600, 27, 'tilapia'), 9);
    expect(plan.weeks * 5 * 7).toBeCloseTo(plan.days, 9);
    expect(plan.stocked).toBe(ask('STOCK.START', plan.harvested, 0.92));
    expect(plan.batch).toBeCloseTo(plan.harvested * 0.6, 9);
    expect(askNumber('STOCK.DENSITY', plan.harvested, 600, plan.litres)).toBeCloseTo(50, 9);
    const harvestsAMonth = 30.4375 / (plan.weeks * 7);
    expect(plan.batch * harvestsAMonth).toBeGreaterThanOrEqual(150 - 1e-6);
    expect((plan.batch - 0.6) * harvestsAMonth).toBeLessThan(150);
    expect(plan.fingerlings).toBeCloseTo((plan.stocked * 365.25) / (plan.weeks * 7), 6);
  });

  it('carries and feeds what its batches, each forecast alone, carry and eat', () => {
    const tanks = 4;
    const plan = askRotation(...wanted, tanks);
    // One batch through its life in steps of a quarter of the time between harvests.
    const parts = tanks * 64;
    const ages = Array.from({ length: parts + 1 }, (_, i) => i / parts);
    const states = ages.map((age) => {
      const weight = askNumber('GROWTH.WEIGHT', 40, age * plan.days, 27, 'tilapia');
      const fish = plan.stocked * 0.92 ** age;
      return {
        kg: (fish * weight) / 1000,
        feed: askNumber('FEED.DAY', fish, weight, 'tilapia', 27),
      };
    });
    const ends = states.filter((_, i) => i > 0 && i % 64 === 0);
    const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0);
    expect(plan.standing).toBeCloseTo(sum(ends.map((end) => end.kg)), 6);
    expect(plan.peak).toBeCloseTo(sum(ends.map((end) => end.feed)), 6);
    // Simpson with three states against a fine trapezoid: within half a percent.
    const feeds = states.map((state) => state.feed);
    const fine = (sum(feeds) - ((feeds[0] ?? 0) + (feeds.at(-1) ?? 0)) / 2) / 64;
    expect(Math.abs(plan.mean / fine - 1)).toBeLessThan(0.005);
    expect(plan.peak).toBeGreaterThan(plan.mean);
  });

  it('needs smaller tanks and more even feed the more tanks there are', () => {
    const plans = [1, 2, 4, 8, 16].map((tanks) => askRotation(...wanted, tanks));
    plans.slice(1).forEach((plan, i) => {
      const fewer = plans[i] ?? plan;
      expect(plan.litres).toBeLessThan(fewer.litres);
      expect(plan.peak / plan.mean).toBeLessThan(fewer.peak / fewer.mean);
    });
  });

  it('takes 95 % alive, the aerated level of the species and four tanks where they are left out', () => {
    expect(askRotation(150, 600, 40, 15, 'trout')).toEqual(
      askRotation(150, 600, 40, 15, 'trout', 0.95, 40, 4),
    );
    expect(askRotation(150, 600, 40, 15, 'trout', null, 'African catfish').litres).toBeCloseTo(
      askRotation(150, 600, 40, 15, 'trout', null, 100).litres,
      9,
    );
  });

  it('has sentences for fish that shrink, do not grow, or have no whole number of tanks', () => {
    expect(ask('STOCK.ROTATION', 150, 40, 600, 27)).toMatchObject({
      message: 'harvest_weight must be more than start_weight (600 g); got 40',
    });
    expect(ask('STOCK.ROTATION', 150, 600, 40, 15)).toMatchObject({
      code: '#NUM!',
      message: 'Nile tilapia does not grow at 15 °C; it feeds between 17 and 36 °C',
    });
    expect(ask('STOCK.ROTATION', ...wanted, 2.5)).toMatchObject({ code: '#VALUE!' });
  });
});
