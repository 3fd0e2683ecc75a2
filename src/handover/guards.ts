import { tokenize } from '@borgar/fx';

/** A condition around a place in a formula, which decides whether it is looked at; or what catches its errors. */
export type Guard =
  | {
      readonly condition: string;
      /** Whether it must hold, or must not. */
      readonly holds: boolean;
    }
  | 'catch';

/** Stands in a helper for an error that is caught further out: as an argument it is an error everywhere. */
const NO_ANSWER = '"no answer"';

interface Frame {
  readonly name: string;
  argument: number;
  readonly from: number;
  /** End of the first argument. */
  firstEnd?: number;
}

/**
 * The conditions around the place of a formula at which `start` stands, the outermost first.
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
  return frames.flatMap(({ name, argument, from, firstEnd }): Guard[] => {
    if (name === 'IF' && argument > 0)
      return [{ condition: formula.slice(from, firstEnd), holds: argument === 1 }];
    return name === 'IFERROR' && argument === 0 ? ['catch'] : [];
  });
}

/** A formula that shows nothing wherever it would not be looked at behind its guards, and no error that is caught. */
export const guarded = (formula: string, guards: readonly Guard[]): string =>
  guards.reduceRight((text, guard) => {
    if (guard === 'catch') return `IFERROR(${text},${NO_ANSWER})`;
    const { condition, holds } = guard;
    return holds ? `IF(${condition},${text},"")` : `IF(${condition},"",${text})`;
  }, formula);
