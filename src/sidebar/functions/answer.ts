import { GillError } from '../../core/errors';
import { isoText } from '../../core/serial-date';
import { callCard } from '../../functions/call';
import type { Card, Outcome, SpillColumn } from '../../functions/card';
import type { Argument } from '../../functions/parameter';
import { UnitsNotLoaded, useUnitConverter } from '../../functions/units';

export type Result = Outcome | Outcome[][];

/** Calls a card; where the units for text are not loaded yet, loads them first. */
export async function answerOf(card: Card, args: readonly Argument[]): Promise<Result> {
  try {
    return callCard(card, args);
  } catch (thrown) {
    if (!(thrown instanceof UnitsNotLoaded)) throw thrown;
    const { mathjsConverter } = await import('../../functions/unit-converter');
    useUnitConverter(mathjsConverter);
    return callCard(card, args);
  }
}

/** Four or five figures that count, never an exponent for everyday sizes. */
export function numberText(value: number): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e9 || size < 1e-4) return value.toExponential(3);
  if (size >= 1000) return value.toLocaleString('en-GB', { maximumFractionDigits: 1 });
  return String(Number(value.toPrecision(4)));
}

/** One outcome as the cell would show it. */
export function outcomeText(outcome: Outcome, kind: SpillColumn['kind']): string {
  if (outcome instanceof GillError) return outcome.code;
  if (typeof outcome === 'string') return outcome;
  return kind === 'date' ? isoText(outcome) : numberText(outcome);
}
