import { callCard } from '../../functions/call';
import { findCard } from '../../functions/card-list';
import type { Argument } from '../../functions/parameter';

/** The number that a GILL function gives; undefined where it gives an error, a text or nothing. */
export function gill(id: string, ...args: readonly Argument[]): number | undefined {
  const card = findCard(id);
  if (!card) throw new Error(`GILL.${id} is not in the catalogue`);
  const outcome = callCard(card, args);
  return typeof outcome === 'number' ? outcome : undefined;
}
