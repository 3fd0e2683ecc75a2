import { describe, expect, it } from 'vitest';
import { nameKey } from '../../src/core/nearest-name';
import { feedWeights, type FishFact, fishFacts, species } from '../../src/core/tables/species';

const facts = Object.keys(fishFacts) as FishFact[];

/** What no farmed fish of the table lies outside of. */
const plausible: Readonly<Record<FishFact, readonly [number, number]>> = {
  vital_low: [0, 20],
  feed_low: [2, 22],
  best_low: [12, 30],
  best_high: [14, 32],
  feed_high: [18, 37],
  vital_high: [20, 40],
  density_backyard: [10, 25],
  density_aerated: [30, 150],
  protein: [0.25, 0.5],
  fcr: [0.9, 2],
  tgc: [0.4, 2],
  harvest_weight: [200, 1500],
  oxygen_least: [3, 7],
  oxygen_critical: [1.5, 5],
  tan_most: [0.3, 2],
  unionised_most: [0.01, 0.05],
  nitrite_most: [0.1, 1],
  carbon_dioxide_most: [10, 20],
  handling_low: [2, 20],
  handling_high: [18, 35],
};

describe('the species table', () => {
  it('has at least the ten species that growers ask for', () => {
    expect(species.map((fish) => fish.name)).toEqual(
      expect.arrayContaining([
        'Nile tilapia',
        'Mozambique tilapia',
        'common carp',
        'channel catfish',
        'African catfish',
        'rainbow trout',
        'barramundi',
        'largemouth bass',
        'hybrid striped bass',
        'jade perch',
      ]),
    );
  });

  it('has no name for two species', () => {
    const all = species.flatMap((fish) => [fish.name, ...fish.aliases].map(nameKey));
    expect(new Set(all).size).toBe(all.length);
  });

  it.each(species.map((fish) => [fish.name, fish] as const))(
    '%s: limits in order, figures plausible, each with a source',
    (_, species) => {
      const order = (
        ['vital_low', 'feed_low', 'best_low', 'best_high', 'feed_high', 'vital_high'] as const
      ).map((fact) => species.facts[fact][0]);
      expect([...order].sort((a, b) => a - b)).toEqual(order);
      expect(species.facts.feed_low[0]).toBeLessThan(species.facts.best_low[0]);
      expect(species.facts.best_high[0]).toBeLessThan(species.facts.feed_high[0]);
      expect(species.facts.density_backyard[0]).toBeLessThan(species.facts.density_aerated[0]);
      expect(species.facts.oxygen_critical[0]).toBeLessThan(species.facts.oxygen_least[0]);
      expect(species.facts.handling_low[0]).toBeGreaterThanOrEqual(species.facts.vital_low[0]);
      expect(species.facts.handling_high[0]).toBeLessThan(species.facts.vital_high[0]);
      // In its best water a fish can be handled.
      expect(species.facts.handling_low[0]).toBeLessThan(species.facts.best_low[0]);
      expect(species.facts.handling_high[0]).toBeGreaterThan(species.facts.best_high[0]);
      for (const fact of facts) {
        const [value, source] = species.facts[fact];
        const [least, most] = plausible[fact];
        expect(value, fact).toBeGreaterThanOrEqual(least);
        expect(value, fact).toBeLessThanOrEqual(most);
        expect(source.text.length, fact).toBeGreaterThan(10);
        expect(['read', 'memory', 'common practice', 'derived'], fact).toContain(source.evidence);
      }
    },
  );

  it.each(species.map((fish) => [fish.name, fish] as const))(
    '%s: a feed rate for each weight, falling, while the feed itself rises',
    (_, { feedRates }) => {
      expect(feedRates).toHaveLength(feedWeights.length);
      for (let i = 1; i < feedRates.length; i++) {
        expect(feedRates[i]).toBeLessThan(feedRates[i - 1] as number);
        expect((feedRates[i] as number) * (feedWeights[i] as number)).toBeGreaterThan(
          (feedRates[i - 1] as number) * (feedWeights[i - 1] as number),
        );
      }
    },
  );

  it('carries no more fish than oxygen allows: L / 0.24 kg/m3 for 500 g tilapia (short-course notes after Timmons & Ebeling, read)', () => {
    const length = Math.cbrt((100 * 500) / 2.1);
    expect(species[0]?.facts.density_aerated[0]).toBeLessThan(length / 0.24);
  });

  it('stays within published usual ranges: trout coefficient 1.3 to 2.0 (extension page, read), tilapia conversion 1.7 (UVI, read)', () => {
    const of = (name: string, fact: FishFact): number =>
      species.find((fish) => fish.name === name)?.facts[fact][0] ?? NaN;
    expect(of('rainbow trout', 'tgc')).toBeGreaterThanOrEqual(1.3);
    expect(of('rainbow trout', 'tgc')).toBeLessThanOrEqual(2);
    expect(of('Nile tilapia', 'fcr')).toBe(1.7);
  });
});
