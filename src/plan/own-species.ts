import { type FishFact, fishFacts, type Species } from '../core/tables/species';
import type { OwnFigures } from './own-figures';

const isFishFact = (fact: string): fact is FishFact => fact in fishFacts;

/** A species with the figures that the grower knows better; where one was cleared, the table's stays. */
export function withOwnFigures(kind: Species, own: OwnFigures | undefined): Species {
  const given = own?.[kind.name];
  if (given === undefined) return kind;
  const facts = { ...kind.facts };
  let { feedRates } = kind;
  for (const [fact, value] of Object.entries(given)) {
    if (fact === 'feed_rates' && Array.isArray(value))
      feedRates = value as unknown as typeof feedRates;
    if (isFishFact(fact) && typeof value === 'number') facts[fact] = [value, facts[fact][1]];
  }
  return { ...kind, facts, feedRates };
}
