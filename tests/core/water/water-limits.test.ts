import { describe, expect, it } from 'vitest';
import { type Species, species } from '../../../src/core/tables/species';
import {
  type Limited,
  limitsOf,
  strictestOf,
  usualLimits,
  type WaterLimits,
} from '../../../src/core/water-limits';

const named = (name: string): Species =>
  species.find((candidate) => candidate.name === name) as Species;
const limited = Object.keys(strictestOf) as Limited[];
/** What may be in the water at most, and what must be in it at least. */
const [atMost, atLeast] = [
  limited.filter((fact) => fact.endsWith('_most')),
  limited.filter((fact) => !fact.endsWith('_most')),
];

describe('limits of a water that several species share', () => {
  it('are those of the species where there is one', () => {
    for (const kind of species) {
      const own = limitsOf([kind]) as WaterLimits;
      for (const fact of limited)
        expect(own[fact], `${kind.name} ${fact}`).toBe(kind.facts[fact][0]);
    }
  });

  it('are what the most tender bears of each: trout beside tilapia', () => {
    // US EPA 1976, Quality Criteria for Water: 0.02 mg/L of un-ionised ammonia, 0.016 as N, for trout waters (from
    // memory); the table is stricter still, and tilapia bear more.
    const shared = limitsOf([named('Nile tilapia'), named('rainbow trout')]) as WaterLimits;
    expect(shared.unionised_most).toBeLessThanOrEqual(0.016);
    expect(shared).toEqual(limitsOf([named('rainbow trout')]));
  });

  it('are never laxer than those of a species in it, and always those of one', () => {
    for (const kind of species)
      for (const other of species) {
        const shared = limitsOf([kind, other]) as WaterLimits;
        for (const fact of limited) {
          const own = [kind, other].map(({ facts }) => facts[fact][0]);
          expect(own).toContain(shared[fact]);
          for (const figure of own) {
            if (atMost.includes(fact)) expect(shared[fact]).toBeLessThanOrEqual(figure);
            else expect(shared[fact]).toBeGreaterThanOrEqual(figure);
          }
        }
        expect(limitsOf([other, kind])).toEqual(shared);
      }
    expect([...atMost, ...atLeast].sort()).toEqual([...limited].sort());
    expect(atLeast).toEqual(['oxygen_least', 'oxygen_critical']);
  });

  it('are none where no species is named, and then the usual ones of warm water serve', () => {
    expect(limitsOf([])).toBeUndefined();
    // Somerville et al. 2014, FAO Technical Paper 589: un-ionised ammonia and nitrite-N harm from 0.05 and 1 mg/L;
    // oxygen above 5 mg/L suits fish, plants and bacteria.
    expect(usualLimits).toMatchObject({ unionised_most: 0.05, nitrite_most: 1, oxygen_least: 5 });
    const tilapia = limitsOf([named('Nile tilapia')]) as WaterLimits;
    for (const fact of atMost) expect(usualLimits[fact]).toBeLessThanOrEqual(tilapia[fact]);
    for (const fact of atLeast) expect(usualLimits[fact]).toBeGreaterThanOrEqual(tilapia[fact]);
  });

  it('put the danger of oxygen below what is wanted', () => {
    for (const limits of [usualLimits, ...species.map((kind) => limitsOf([kind]) as WaterLimits)])
      expect(limits.oxygen_critical).toBeLessThan(limits.oxygen_least);
  });
});
