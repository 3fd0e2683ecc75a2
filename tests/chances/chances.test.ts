import { sampleCorrelation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { type Band, chances, quantile, sharedVariance } from '../../src/chances/chances';
import {
  type Input,
  inputs,
  type Spreads,
  spreadsOf,
  statedSpreads,
} from '../../src/chances/spreads';
import { readFarm } from '../../src/plan/farm';
import { sampleFarm } from '../tools/farms';

const farm = sampleFarm('quillwater');
const YEARS = 120;

/** No input differs but one, from year to year. */
const only = (input: Input | undefined, year = 0.1): Spreads =>
  Object.fromEntries(
    inputs.map((one) => [one, { batch: 0, year: one === input ? year : 0, batches: 0 }]),
  ) as unknown as Spreads;

const play = (spreads: Spreads, seed = 5, years = YEARS) =>
  chances({ farm, weeks: 12, years, seed, spreads });

describe('simulations of the weeks to come', () => {
  it('equal the plan where nothing varies', () => {
    const { bands } = play(only(undefined), 1, 100);
    for (const band of Object.values(bands)) {
      expect(band.ninetieth).toBe(band.tenth);
      for (const { share } of band.movers) expect(share).toBe(0);
    }
    expect(bands.fish?.half).toBeGreaterThan(0);
    expect(bands.income?.half).toBeGreaterThan(0);
  });

  it('have the band of a normal distribution where only prices vary, since income is linear in them', () => {
    const sure = play(only(undefined), 1, 100).bands.income?.half as number;
    const { tenth, half, ninetieth } = play(only('price'), 3, 1500).bands.income as {
      tenth: number;
      half: number;
      ninetieth: number;
    };
    // 1.281552: the upper tenth of the normal distribution (Abramowitz & Stegun 1964, table 26.5).
    // Three standard errors of a tenth of 1,500: 3 sqrt(0.1 * 0.9 / 1500) / 1.755, in standard deviations of 0.1.
    const near = 0.0132;
    expect(Math.abs(half / sure - 1)).toBeLessThan(near);
    expect(Math.abs(tenth / sure - 1 + 0.1281552)).toBeLessThan(near);
    expect(Math.abs(ninetieth / sure - 1 - 0.1281552)).toBeLessThan(near);
  });

  it('end at the years of the survival quantiles where only survival varies: quantiles carry over through a monotone function', () => {
    const springs = sampleFarm('aldermoor-springs');
    const file = JSON.parse(springs.file) as { stock: object };
    const asked = { weeks: 16, seed: 2 };
    const sure = (factor: number): number => {
      const survival = (springs.stock.survival as number) * factor;
      const changed = readFarm({ ...file, stock: { ...file.stock, survival } });
      return chances({ ...asked, farm: changed, years: 1, spreads: only(undefined) }).bands.fish
        ?.half as number;
    };
    const [spread, years] = [0.04, 600];
    const spreads = only('survival', spread);
    const { tenth, half, ninetieth } = chances({ ...asked, farm: springs, years, spreads }).bands
      .fish as Band;
    // 1.281552: Abramowitz & Stegun 1964, table 26.5. Three standard errors of a tenth, and whole fish.
    const near = (3 * Math.sqrt((0.1 * 0.9) / years)) / 0.1755;
    [tenth, half, ninetieth].forEach((found, i) => {
      const z = 1.281552 * (i - 1);
      const [low, high] = [sure(1 + spread * (z - near)), sure(1 + spread * (z + near))];
      expect(low).toBeLessThan(high);
      expect(found).toBeGreaterThanOrEqual(low * 0.999);
      expect(found).toBeLessThanOrEqual(high * 1.001);
    });
  });

  it('spread as much as the yield where it alone varies, the market takes all and no fish is sold', () => {
    const file = JSON.parse(farm.file) as { stock: object; markets: object[] };
    const hungry = readFarm({
      ...file,
      stock: { ...file.stock, fishPrice: 0 },
      markets: file.markets.map((market) => ({ ...market, perWeek: 100000 })),
    });
    const asked = { farm: hungry, weeks: 12, seed: 6 };
    const sure = chances({ ...asked, years: 1, spreads: only(undefined) }).bands.income?.half;
    const { tenth, half, ninetieth } = chances({ ...asked, years: 1500, spreads: only('yield') })
      .bands.income as Band;
    [tenth, half, ninetieth].forEach((found, i) => {
      // As for prices.
      expect(Math.abs(found / (sure as number) - 1 - 0.1281552 * (i - 1))).toBeLessThan(0.0132);
    });
  });

  it('spread as the product of two independent shares: its variance (Goodman 1960, JASA 55:708)', () => {
    const file = JSON.parse(farm.file) as object;
    const fishAlone = readFarm({ ...file, plantings: [], markets: [] });
    const spreads = { ...only(undefined), price: { batch: 0.08, year: 0.06, batches: 0 } };
    const asked = { farm: fishAlone, weeks: 12, seed: 4 };
    const sure = chances({ ...asked, years: 1, spreads: only(undefined) }).bands.income?.half;
    const { tenth, ninetieth } = chances({ ...asked, years: 1500, spreads }).bands.income as Band;
    const stated = Math.sqrt((1 + 0.08 ** 2) * (1 + 0.06 ** 2) - 1);
    // The standard error of the distance between both tenths of 1,500 is 4 % of one deviation.
    const found = (ninetieth - tenth) / (2 * 1.281552) / (sure as number);
    expect(Math.abs(found / stated - 1)).toBeLessThan(0.1);
  });

  it('reach week by week what they end with', () => {
    const { courses, bands } = play(statedSpreads);
    for (const result of ['fish', 'weeks', 'income'] as const) {
      for (const line of ['tenth', 'half', 'ninetieth'] as const) {
        const course = courses[result]?.[line] ?? [];
        expect(course).toHaveLength(12);
        expect(course.at(-1)).toBe(bands[result]?.[line]);
        course.slice(1).forEach((now, i) => {
          expect(now).toBeGreaterThanOrEqual(course[i] as number);
        });
      }
    }
  });

  it('compare feed with beds in the weeks for which rows say what most beds hold', () => {
    const whole = chances({ farm, weeks: 52, years: 2, seed: 1, spreads: only(undefined) });
    const weeks = whole.courses.feed?.half.length ?? 0;
    expect(weeks).toBeGreaterThan(4);
    expect(weeks).toBeLessThan(40);
    expect(whole.notes.join(' ')).toMatch(
      new RegExp(`most beds have no row of the Plantings: .* in the ${weeks} weeks before`),
    );
    // Weeks behind the rows change nothing.
    const asFar = chances({ farm, weeks, years: 2, seed: 1, spreads: only(undefined) });
    expect(asFar.bands.feed?.half).toBeCloseTo(whole.bands.feed?.half as number, 9);
    expect(asFar.notes.join(' ')).not.toMatch(/most beds have no row/);
  });

  it('give the same answer for the same seed, and another for another seed', () => {
    const spreads = statedSpreads;
    expect(play(spreads, 9)).toEqual(play(spreads, 9));
    expect(play(spreads, 9).bands.fish?.half).not.toBe(play(spreads, 10).bands.fish?.half);
  });

  it.each([
    ['growth', 'fish'],
    ['survival', 'fish'],
    ['yield', 'weeks'],
    ['price', 'income'],
  ] as const)('say that %s alone moves %s where nothing else varies', (input, result) => {
    const { movers, tenth, ninetieth } = play(only(input)).bands[result] ?? {
      movers: [],
      tenth: 0,
      ninetieth: 0,
    };
    expect(movers[0]?.input).toBe(input);
    expect(movers[0]?.share).toBeGreaterThan(0.3);
    expect(ninetieth).toBeGreaterThan(tenth);
    for (const { share } of movers.slice(1)) expect(share).toBe(0);
  });

  it('sell no more fish where fewer survive, and none faster than they grow', () => {
    const sure = play(only(undefined), 1, 100).bands.fish?.half as number;
    const die = { ...only(undefined), survival: { batch: 0, year: 0.3, batches: 0 } };
    const { half, ninetieth } = play(die).bands.fish as { half: number; ninetieth: number };
    expect(half).toBeLessThan(1.1 * sure);
    // No more fish than there are live however good the year is.
    expect(ninetieth).toBeLessThan(1.25 * sure);
  });

  it('report what no row has planned', () => {
    const file = JSON.parse(farm.file) as {
      fishLog: { planned?: string }[];
      beds: Record<string, unknown>[];
    };
    const bare = readFarm({
      ...file,
      fishLog: file.fishLog.filter(({ planned }) => planned === undefined),
      plantings: [],
      beds: file.beds.map(({ name, kind, length, width }) => ({ name, kind, length, width })),
    });
    const { notes, bands } = chances({
      farm: bare,
      weeks: 8,
      years: 100,
      seed: 1,
      spreads: only(undefined),
    });
    expect(notes.join(' ')).toMatch(
      /No row of the Fish log is planned.*No row of the Plantings is planned.*nothing to hold the feed against/s,
    );
    expect(bands.feed).toBeUndefined();
  });

  it('use the spread of the farm’s own records from five batches on', () => {
    const { growth, yield: harvested } = spreadsOf(farm);
    expect(growth.batches).toBe(6);
    expect(growth.year).toBeCloseTo(growth.batch / Math.sqrt(6), 12);
    expect(harvested).toEqual(statedSpreads.yield);
  });
});

describe('what a band is made of', () => {
  it('are quantiles of type 7: 1 to 5 have 1.4, 3 and 4.6 (Hyndman & Fan 1996, definition 7)', () => {
    expect([0.1, 0.5, 0.9].map((share) => quantile([1, 2, 3, 4, 5], share))).toEqual([
      expect.closeTo(1.4, 12),
      3,
      expect.closeTo(4.6, 12),
    ]);
  });

  it('are squares of the correlation of a general library', () => {
    const [a, b] = [
      [1, 4, 2, 8, 5, 7],
      [2, 3, 1, 9, 9, 4],
    ];
    expect(sharedVariance(a, b)).toBeCloseTo(sampleCorrelation(a, b) ** 2, 12);
  });
});
