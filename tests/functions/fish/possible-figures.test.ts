import { describe, expect, it } from 'vitest';
import { GillError } from '../../../src/core/errors';
import { species } from '../../../src/core/tables/species';
import { callCard } from '../../../src/functions/call';
import { findCard } from '../../../src/functions/card-list';
import { readWish } from '../../../src/size/wish';
import { errorOf, numberOf } from '../../tools/card-value';
import { smallestWish } from '../../tools/smallest-wish';

/** Figures that no fish can have are errors with a sentence; those that were published are answers. */

describe('feed conversion', () => {
  /** Best and worst that were published for fish on dry feed. */
  const published = [
    [0.6, 'text on small-scale trout farming (FAO based): 0.6 to 1.1 on modern dry feeds'],
    [0.71, 'African catfish juveniles in recirculation, Fishes 2019, abstract'],
    [0.75, 'tilapia fry in green water, 63 days, table 5 of a Florida pond trial (UFDC)'],
    [5.8, 'largemouth bass at 35 °C, Aquaculture Reports 2021, abstract: 4.0 to 5.8'],
  ] as const;
  it.each(published)('%s is measured and planned with (%s)', (conversion) => {
    expect(numberOf('FEED.CONVERSION', 100 * conversion, 100)).toBeCloseTo(conversion, 9);
    expect(numberOf('FEED.RATE', 'rainbow trout', 20, null, null, conversion)).toBeGreaterThan(0);
  });

  it('no species of the table is outside what can be planned with', () => {
    for (const { name, facts } of species)
      expect(numberOf('FEED.RATE', name, 50, null, facts.tgc[0], facts.fcr[0])).toBeCloseTo(
        numberOf('FEED.RATE', name, 50),
        12,
      );
  });

  // Fish hold about a quarter dry matter, dry feed nine tenths: the bound of 0.5 itself is common practice, no source.
  it('below 0.5, or g beside kg, is an error that says where to look', () => {
    expect(errorOf('FEED.CONVERSION', 34, 80)).toMatch(
      /0\.425 for each; .* at least 0\.5: give both/,
    );
    expect(errorOf('FEED.CONVERSION', 34, 20000)).toMatch(/same unit/);
    expect(errorOf('FEED.CONVERSION', 34000, 20)).toMatch(/same unit/);
    expect(errorOf('FEED.CONVERSION', 0, 20)).toMatch(/all the feed/);
    for (const [id, ...args] of [
      ['FEED.RATE', 'Nile tilapia', 180, null, null],
      ['FEED.DAY', 640, 235, null, null, null, null],
      ['STOCK.FORECAST', 640, 235, 2, 28, null, null, null, null],
      ['GROWTH.CURVE', 50, 28, 14, 28, null, null],
    ] as const)
      expect(errorOf(id, ...args, 0.4)).toMatch(/conversion must be between 0\.5 and 10; got 0\.4/);
  });

  it('is held to the same bounds in a wish', () => {
    const wished = (choices: object): unknown => readWish({ ...smallestWish, choices }, 46000);
    expect(() => wished({ conversion: 0.6, coefficient: 2.2 })).not.toThrow();
    expect(() => wished({ conversion: 0.4 })).toThrow(/conversion must be .*0\.5/);
    expect(() => wished({ coefficient: 9 })).toThrow(/coefficient must be .*5/);
  });
});

describe('growth', () => {
  it('gives no coefficient that no fish has, and takes none', () => {
    // Published: 2.22 (extension page on growth coefficients); Jobling 2003 warns of the scale.
    expect(numberOf('GROWTH.COEFFICIENT', 10, 350, 200, 11)).toBeCloseTo(2.224, 3);
    expect(errorOf('GROWTH.COEFFICIENT', 10, 350, 20, 11)).toMatch(
      /coefficient of 22\.2; no farmed fish/,
    );
    expect(errorOf('GROWTH.COEFFICIENT', 0.01, 350, 90, 11, 'trout')).toMatch(/weights, in g/);
    expect(errorOf('GROWTH.WEIGHT', 10, 200, 11, 'trout', 22.2)).toMatch(/between 0\.1 and 5/);
  });

  it('does not speak of growth that takes longer than any fish is kept', () => {
    expect(errorOf('GROWTH.DAYS', 10, 600, 17.001)).toMatch(
      /hardly grows at 17\.001 °C.*thirty years.*27 and 31/,
    );
    expect(errorOf('STOCK.ROTATION', 100, 600, 50, 17.001)).toMatch(/hardly grows/);
    expect(numberOf('GROWTH.DAYS', 10, 600, 18)).toBeGreaterThan(
      numberOf('GROWTH.DAYS', 10, 600, 20),
    );
  });
});

describe('fish in their water', () => {
  it('no tank holds more fish than water', () => {
    expect(errorOf('STOCK.DENSITY', 640, 235, 7.8)).toMatch(/150\.4 kg, more than the 7\.8 L/);
    const card = findCard('STOCK.FORECAST');
    if (!card) throw new Error('no STOCK.FORECAST');
    const [now] = callCard(card, [640, 235, 1, 28, null, null, 7.8]) as unknown[][];
    expect(now?.slice(0, 4)).toEqual([0, 640, 235, 150.4]);
    expect(now?.[4]).toBeInstanceOf(GillError);
  });

  it.each(
    species.map(({ name, facts }) => [name, facts.vital_low[0], facts.vital_high[0]] as const),
  )('%s breathes from %s to %s °C and not beyond', (name, low, high) => {
    for (const water of [low, high])
      expect(numberOf('OXYGEN.FISH', 100, 100, name, water)).toBeGreaterThan(0);
    expect(errorOf('OXYGEN.FISH', 100, 100, name, low - 0.1)).toMatch(/does not live at/);
    expect(errorOf('OXYGEN.FISH', 100, 100, name, high + 0.1)).toMatch(/does not live at/);
  });

  // NRC 2011, Nutrient Requirements of Fish and Shrimp, has 25 to 55 % (memory); pond feeds go lower, larval feeds higher.
  it('takes a feed of 10 to 70 % protein, not a percentage of a percent', () => {
    for (const id of ['LOAD.TAN', 'NUTRIENT.FEED', 'FEED.WANTED'] as const) {
      const args =
        id === 'LOAD.TAN' ? [1000] : id === 'NUTRIENT.FEED' ? [1000, 'N'] : [20, 'leafy', 'gravel'];
      expect(numberOf(id, ...args, 0.1)).toBeGreaterThan(0);
      expect(numberOf(id, ...args, 0.7)).toBeGreaterThan(0);
      expect(errorOf(id, ...args, 0.0032)).toMatch(/protein must be between 0\.1 and 0\.7/);
    }
  });
});

describe('water and air', () => {
  it('no pipe carries water faster than anything drives it', () => {
    expect(numberOf('FLOW.SPEED', 7800, 55)).toBeCloseTo(0.912, 3);
    expect(errorOf('FLOW.SPEED', 7800, 5.5)).toMatch(
      /91\.2 m\/s; 1 to 1\.5 is usual .* wider bore, in mm/,
    );
  });

  it('knows the winters in which farms stand: Oymyakon had -50 °C as the mean of a month', () => {
    expect(numberOf('HEAT.COVER', 240, 4, 12, -50)).toBe(240 * 4 * 62);
    expect(numberOf('HEAT.MONTH', 240, 4, 350, 1, 12, -40, -50, 31)).toBeGreaterThan(0);
  });

  it('evaporating takes what the crops’ own water takes: 1 mm is 2.45 MJ/m² (FAO-56, table 1)', () => {
    expect(numberOf('HEAT.EVAPORATION', 1) * 3.6).toBeCloseTo(2.45, 9);
  });

  it('reads no traces of arithmetic out', () => {
    expect(errorOf('STOCK.ROTATION', 100, 600, 50, 0.1 + 0.2)).toContain('at 0.3 °C');
    expect(errorOf('AMMONIA.SHARE', 14.1 + 0.2, 20)).toMatch(/got 14\.3$/);
  });
});
