/** What the fish of a tank get a day, in ordinary formulas, so that the grower's own figures on the Species sheet count. */
import { feedRateCard } from '../../functions/feed-cards';
import { cardStep } from '../card-step';
import { call, type Formula } from '../formula-parts';
import { named, nth } from '../names';

/** What of a tank growth and feed in it hang on. */
export type FedParameters = Readonly<
  Record<'line' | 'coefficient' | 'feedLow' | 'feedHigh' | 'bestLow' | 'bestHigh', Formula>
>;

const factColumns: Readonly<Record<string, keyof FedParameters>> = {
  tgc: 'coefficient',
  best_low: 'bestLow',
  best_high: 'bestHigh',
  feed_low: 'feedLow',
  feed_high: 'feedHigh',
};

/** What the tank's column says of its species; the heads of the feed table are those of all. */
export const factsOf =
  (p: FedParameters) =>
  (fact: string): Formula | undefined => {
    const id = factColumns[fact];
    return id && p[id];
  };

/** Place of the last weight of the feed table up to `weight` that has another behind it. */
export function feedStep(weight: Formula): Formula {
  const feedWeights = named('Fish_feed_weights');
  const held = cardStep(feedRateCard, 'held', { arguments: { weight } });
  // At a weight of the table itself the last digits of a division must not choose the place.
  const place = call('MATCH', call('ROUND', held, 6), feedWeights, 1);
  return call('MIN', place, call('COUNT', feedWeights).minus(1));
}

/**
 * The feed rate of a weight for the species on a line, in water that leaves them an appetite; the place in the feed
 * table, which the card looks for, stands in a cell.
 */
export function feedRate(
  weight: Formula,
  step: Formula,
  line: Formula,
  appetite: Formula,
): Formula {
  const places = { arguments: { weight } };
  const head = (place: Formula): Formula => nth('Fish_feed_weights', 1, place);
  const rate = (place: Formula): Formula => nth('Fish_feed_rates', line, place);
  const after = step.plus(1);
  const slope = rate(after).minus(rate(step));
  const beyond = cardStep(feedRateCard, 'held', places).minus(head(step));
  const byTable = rate(step).plus(slope.times(beyond).over(head(after).minus(head(step))));
  return cardStep(feedRateCard, 'rate', {
    ...places,
    steps: { by_table: byTable, slowed: appetite },
  });
}
