import { GillError } from '../../core/errors';
import { isoText } from '../../core/serial-date';
import type { Outcome, SpillColumn } from '../../functions/card';

export type Result = Outcome | Outcome[][];

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
