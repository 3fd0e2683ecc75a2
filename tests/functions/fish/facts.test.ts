import { describe, expect, it } from 'vitest';
import { fishFacts, type FishFact, species } from '../../../src/core/tables/species';
import { ask, askRows } from './ask';

describe('FACT.FISH', () => {
  it('gives every figure of every species, and where it comes from', () => {
    for (const { name, facts } of species) {
      for (const fact of Object.keys(fishFacts) as FishFact[]) {
        const [value, source] = facts[fact];
        expect(ask('FACT.FISH', name, fact), `${name} ${fact}`).toBe(value);
        expect(ask('FACT.FISH', name, fishFacts[fact].label), `${name} ${fact}`).toBe(value);
        const words = ask('FACT.FISH', name, `${fact} source`);
        const firm = source.evidence === 'read' || source.evidence === 'derived';
        expect(words, `${name} ${fact}`).toEqual(
          firm ? expect.stringContaining(source.text) : 'usual practice, check with your supplier',
        );
      }
    }
  });

  it('suggests the nearest fact or species for an unknown one', () => {
    expect(ask('FACT.FISH', 'trout', 'protien')).toMatchObject({
      code: '#N/A',
      message: expect.stringContaining('"protein"') as string,
    });
    expect(ask('FACT.FISH', 'barramundy', 'protein')).toMatchObject({
      code: '#N/A',
      message: expect.stringContaining('"barramundi"') as string,
    });
  });
});

describe('FACT.SPECIES', () => {
  it('lists every species once', () => {
    expect(askRows('FACT.SPECIES')).toEqual(species.map((fish) => [fish.name]));
  });
});
