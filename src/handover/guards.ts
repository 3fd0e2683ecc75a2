import { tokenize } from '@borgar/fx';

/** A condition around a place in a formula, which decides whether it is looked at. */
export interface Guard {
  readonly condition: string;
  /** Whether it must hold, or must not. */
  readonly holds: boolean;
}

interface Frame {
  readonly name: string;
  argument: number;
  readonly from: number;
  /** End of the first argument. */
  firstEnd?: number;
}

/**
 * The conditions around the place of a formula at which `start` stands, the outermost first. What catches an
 * error is none: it has to see it.
 */
export function guardsAround(formula: string, start: number): Guard[] {
  const frames: Frame[] = [];
  let read = 0;
  let before = '';
  for (const { type, value } of tokenize(formula, { mergeRefs: true })) {
    if (read >= start) break;
    const end = read + value.length;
    if (value === '(' || value === '{') {
      frames.push({ name: value === '(' ? before.toUpperCase() : '', argument: 0, from: end });
    } else if (value === ')' || value === '}') {
      frames.pop();
    } else if (value === ',') {
      const frame = frames.at(-1);
      if (frame) {
        frame.firstEnd ??= read;
        frame.argument += 1;
      }
    }
    before = type === 'func' ? value : '';
    read = end;
  }
  return frames.flatMap(({ name, argument, from, firstEnd }) =>
    name === 'IF' && argument > 0
      ? [{ condition: formula.slice(from, firstEnd), holds: argument === 1 }]
      : [],
  );
}

/** A formula that shows nothing wherever it would not be looked at behind its guards. */
export const guarded = (formula: string, guards: readonly Guard[]): string =>
  guards.reduceRight(
    (text, { condition, holds }) =>
      holds ? `IF(${condition},${text},"")` : `IF(${condition},"",${text})`,
    formula,
  );
