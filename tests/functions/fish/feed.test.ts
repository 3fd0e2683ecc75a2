import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GillError } from '../../../src/core/errors';
import { species } from '../../../src/core/tables/species';
import { ask, askNumber, askRows } from './ask';

const names = species.map((fish) => fish.name);
const anyName = fc.constantFrom(...names);
const grams = fc.double({ min: 0.1, max: 5000, noNaN: true });
const degrees = fc.double({ min: 0.1, max: 45, noNaN: true });

describe('FEED.RATE', () => {
  it('reads the table at its weights and half way between them', () => {
    const nile = species[0];
    expect(ask('FEED.RATE', 'Nile tilapia', 100)).toBe(nile?.feedRates[4]);
    expect(ask('FEED.RATE', 'Nile tilapia', 175)).toBeCloseTo((0.034 + 0.025) / 2, 12);
  });

  it('goes with the inverse cube root of the weight below 1 g and above 1000 g, up to 20 % (SRAC 282)', () => {
    const at = (weight: number): number => askNumber('FEED.RATE', 'tilapia', weight);
    expect(at(8000)).toBeCloseTo(at(1000) / 2, 12);
    expect(at(0.5)).toBeCloseTo(at(1) * 2 ** (1 / 3), 12);
    expect(at(0.02)).toBe(0.2);
  });

  it('feeds fish that grow by another coefficient in proportion', () => {
    const usual = askNumber('FEED.RATE', 'tilapia', 235, 22);
    expect(askNumber('FEED.RATE', 'tilapia', 235, 22, 1.43)).toBeCloseTo(1.3 * usual, 12);
    expect(askNumber('FEED.DAY', 640, 235, 'tilapia', 22, null, 1.43)).toBeCloseTo(
      1.3 * 640 * 235 * usual,
      9,
    );
  });

  it('feeds fish of another conversion in proportion, and fry 20 % at most', () => {
    const usual = askNumber('FEED.RATE', 'tilapia', 235, 22);
    expect(askNumber('FEED.RATE', 'tilapia', 235, 22, 1.43, 1.36)).toBeCloseTo(
      1.3 * 0.8 * usual,
      12,
    );
    expect(askNumber('FEED.DAY', 1, 235, 'tilapia', 22, null, null, 1.36)).toBeCloseTo(
      0.8 * 235 * usual,
      9,
    );
    expect(askNumber('FEED.RATE', 'tilapia', 0.5, null, 3)).toBe(0.2);
  });

  it('never rises with weight', () => {
    fc.assert(
      fc.property(anyName, grams, grams, (name, a, b) => {
        const [small, large] = a < b ? [a, b] : [b, a];
        return askNumber('FEED.RATE', name, small) >= askNumber('FEED.RATE', name, large);
      }),
    );
  });

  it('gives heavier fish more feed in all, though a smaller share', () => {
    fc.assert(
      fc.property(anyName, grams, grams, (name, a, b) => {
        const [small, large] = a < b ? [a, b] : [b, a];
        return (
          askNumber('FEED.DAY', 1, small, name) <= askNumber('FEED.DAY', 1, large, name) + 1e-12
        );
      }),
    );
  });

  it('rises up to the best temperatures, is full within them and falls beyond', () => {
    for (const { name, facts } of species) {
      const at = (water: number): number => askNumber('FEED.RATE', name, 100, water);
      const full = askNumber('FEED.RATE', name, 100);
      const steps = (from: number, to: number): number[] =>
        Array.from({ length: 21 }, (_, i) => from + ((to - from) * i) / 20).map(at);
      const rising = steps(facts.feed_low[0], facts.best_low[0]);
      expect(rising[0], name).toBe(0);
      expect(rising.at(-1), name).toBe(full);
      expect(
        [...rising].sort((a, b) => a - b),
        name,
      ).toEqual(rising);
      const best = steps(facts.best_low[0], facts.best_high[0]);
      expect(new Set(best), name).toEqual(new Set([full]));
      const falling = steps(facts.best_high[0], facts.feed_high[0]);
      expect(falling.at(-1), name).toBe(0);
      expect(
        [...falling].sort((a, b) => b - a),
        name,
      ).toEqual(falling);
    }
  });

  it('is nothing beyond the feeding limits, and never negative', () => {
    fc.assert(
      fc.property(anyName, grams, degrees, (name, weight, water) => {
        const rate = askNumber('FEED.RATE', name, weight, water);
        return rate >= 0 && rate <= askNumber('FEED.RATE', name, weight);
      }),
    );
    expect(ask('FEED.RATE', 'Nile tilapia', 100, 12)).toBe(0);
    expect(ask('FEED.RATE', 'Nile tilapia', 100, 36)).toBe(0);
  });

  it('takes 0 as a temperature for a blank or a reading: a sentence', () => {
    expect(ask('FEED.RATE', 'trout', 100, 0)).toMatchObject({
      code: '#VALUE!',
      message: expect.stringContaining('water is 0 or a blank cell') as string,
    });
  });

  it('suggests the nearest species for an unknown one', () => {
    expect(ask('FEED.RATE', 'tilapa', 100)).toMatchObject({
      code: '#N/A',
      message: expect.stringContaining('the nearest name is "tilapia"') as string,
    });
  });

  it('takes weights and temperatures with units', () => {
    expect(ask('FEED.RATE', 'trout', '1 lb', '59 degF')).toBeCloseTo(
      askNumber('FEED.RATE', 'trout', 453.59237, 15),
      12,
    );
  });
});

describe('FEED.DAY', () => {
  it('is fish times weight times rate', () => {
    fc.assert(
      fc.property(anyName, grams, degrees, (name, weight, water) => {
        const day = askNumber('FEED.DAY', 321, weight, name, water);
        const rate = askNumber('FEED.RATE', name, weight, water);
        return Math.abs(day - 321 * weight * rate) <= 1e-9 * Math.max(1, day);
      }),
    );
  });

  it("takes the farm's own rate as it is, whatever the water", () => {
    expect(ask('FEED.DAY', 640, 235, 'trout', 30, 0.02)).toBeCloseTo(3008, 9);
    expect(ask('FEED.DAY', 640, 235, null, null, '2 %')).toBeCloseTo(3008, 9);
  });

  it('refuses a rate that was typed as a percentage', () => {
    expect(ask('FEED.DAY', 640, 235, null, null, 2)).toMatchObject({
      code: '#VALUE!',
      message: expect.stringContaining('rate must be') as string,
    });
  });

  it('feeds an empty tank nothing, and leaves a row without data empty', () => {
    expect(ask('FEED.DAY', 0, 180)).toBe(0);
    expect(ask('FEED.DAY', 0, null)).toBe('');
    expect(ask('FEED.DAY', null, null)).toBe('');
    expect(ask('FEED.DAY', 640, null)).toBeInstanceOf(GillError);
  });

  it('computes a range like its single cells', () => {
    const fish = [640, 'x', 400, null];
    const weight = [180, 20, 0, null];
    const kinds = ['tilapia', 'trout', 'carp', 'carp'];
    const column = (values: (number | string | null)[]) => values.map((value) => [value]);
    const together = ask(
      'FEED.DAY',
      column(fish),
      column(weight),
      column(kinds),
      20,
    ) as unknown[][];
    expect(together.map((row) => row[0])).toEqual(
      fish.map((value, i) => ask('FEED.DAY', value, weight[i], kinds[i], 20)),
    );
  });
});

describe('FEED.CONVERSION', () => {
  it('refuses a group that did not gain', () => {
    expect(ask('FEED.CONVERSION', 10, -2)).toMatchObject({ code: '#VALUE!' });
    expect(ask('FEED.CONVERSION', 10, 0)).toMatchObject({
      message: expect.stringContaining('gain is missing') as string,
    });
  });
});

/** Feed by the table over growth by the coefficient: the conversion that a forecast implies. */
describe('feed and growth of the same table agree', () => {
  it.each(species.map((fish) => [fish.name, fish] as const))(
    '%s: conversion within 15 % of its own figure from 20 to 800 g at best temperature',
    (name, { facts }) => {
      const water = (facts.best_low[0] + facts.best_high[0]) / 2;
      for (const weight of [20, 35, 50, 100, 180, 400, 800]) {
        const gain = askNumber('GROWTH.WEIGHT', weight, 1, water, name) - weight;
        const ratio = askNumber(
          'FEED.CONVERSION',
          askNumber('FEED.DAY', 1, weight, name, water),
          gain,
        );
        expect(Math.abs(ratio / facts.fcr[0] - 1), `${weight} g: ${ratio}`).toBeLessThan(0.15);
      }
    },
  );
});

/**
 * Trials that print weights, days and conversion: with the coefficient and the conversion that they show, the feed of
 * all days over the gain is that conversion.
 */
describe('growth, conversion and feed of published trials belong together', () => {
  it.each([
    // Rakocy, Bailey, Shultz & Thoman 2004, abstract (gain a day from memory); 28 degC assumed.
    ['Nile tilapia', 79.2, 813.8, 168, 28, 1.7],
    ['red tilapia', 58.8, 512.5, 168, 28, 1.8],
    // Trial of channel catfish at 22, 27 and 32 degC: 111.4 g and 252.2 g more in 14 weeks at 27, conversion 1.3.
    ['channel catfish', 111.4, 363.6, 98, 27, 1.3],
  ] as const)('%s from %d to %d g in %d days', (name, from, to, days, water, converts) => {
    const own = askNumber('GROWTH.COEFFICIENT', from, to, days, water, name);
    const rows = askRows('GROWTH.CURVE', from, days, 1, water, name, own, converts) as number[][];
    const feed = rows.slice(0, -1).reduce((sum, row) => sum + (row[2] ?? NaN), 0);
    const last = rows.at(-1)?.[1] ?? NaN;
    expect(last).toBeCloseTo(to, 6);
    expect(Math.abs(feed / (last - from) / converts - 1)).toBeLessThan(0.1);
    const forecast = askRows('STOCK.FORECAST', 1, from, 1, water, name, null, null, own, converts);
    expect(forecast[0]?.[5]).toBeCloseTo(rows[0]?.[2] ?? NaN, 9);
  });
});
