import { callCard } from '../../functions/call';
import { findCard } from '../../functions/card-list';
import type { Argument } from '../../functions/parameter';
import { type QuantityId, shownIn, toShown, type UnitSystem } from '../../plan/quantities';
import { numberText } from '../functions/answer';
import { unitWord } from '../../functions/unit-word';

/** The number that a GILL function gives; undefined where it gives an error, a text or nothing. */
export function gill(id: string, ...args: readonly Argument[]): number | undefined {
  const card = findCard(id);
  if (!card) throw new Error(`GILL.${id} is not in the catalogue`);
  const outcome = callCard(card, args);
  return typeof outcome === 'number' ? outcome : undefined;
}

/** A metric figure as the grower reads it: "1,240 L" or "328 gal". */
export function figureText(value: number, id: QuantityId, system: UnitSystem): string {
  const { unit } = shownIn(id, system);
  const shown = toShown(value, id, system);
  return `${numberText(Number(shown.toPrecision(3)))}${unit ? ` ${unitWord(unit)}` : ''}`;
}
