import { GillError } from '../../core/errors';
import { isoText } from '../../core/serial-date';
import type { Outcome, SpillColumn } from '../../functions/card';
import { numberText } from '../../plan/shown-figure';

export type Result = Outcome | Outcome[][];

/** One outcome as the cell would show it. */
export function outcomeText(outcome: Outcome, kind: SpillColumn['kind']): string {
  if (outcome instanceof GillError) return outcome.code;
  if (typeof outcome === 'string') return outcome;
  return kind === 'date' ? isoText(outcome) : numberText(outcome);
}
