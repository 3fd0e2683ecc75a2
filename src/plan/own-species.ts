import { feedAgainstTable } from '../core/feeding';
import { type FeedRates, type FishFact, fishFacts, type Species } from '../core/tables/species';
import type { OwnFigures } from './own-figures';

const isFishFact = (fact: string): fact is FishFact => fact in fishFacts;

/**
 * A species with the figures that the grower knows better; where one was cleared, the table's stays. Feed is growth
 * times conversion, so that the table's feed rates go with both as long as no others are typed.
 */
export function withOwnFigures(kind: Species, own: OwnFigures | undefined): Species {
  const given = own?.[kind.name];
  if (given === undefined) return kind;
  const facts = { ...kind.facts };
  for (const [fact, value] of Object.entries(given)) {
    if (isFishFact(fact) && typeof value === 'number') facts[fact] = [value, facts[fact][1]];
  }
  const typed = given['feed_rates'];
  const against = feedAgainstTable(kind, { coefficient: facts.tgc[0], conversion: facts.fcr[0] });
  const rates = Array.isArray(typed) ? typed : kind.feedRates.map((rate) => rate * against);
  return { ...kind, facts, feedRates: rates as unknown as FeedRates };
}
