import type { Formula as CardFormula } from '../functions/formula';
import { repeatedStep } from '../functions/formula-template';
import type { WithFormula } from '../functions/formula-text';
import { noteStep } from './basis';
import { type Formula, madeElsewhere, part, type Part } from './formula-parts';

/** What stands in the plan for the names of a card's formula; `N` are its parameters. */
export interface StepPlaces<N extends string> {
  readonly arguments?: { readonly [K in N]?: Part };
  /** Steps that the plan has in cells of its own. */
  readonly steps?: Readonly<Record<string, Part>>;
  /** A figure of the table's row; left out where it is the whole table's. */
  readonly fact?: (fact: string) => Formula | undefined;
}

const textOf = (given: Part | undefined): string | undefined =>
  given === undefined ? undefined : part(given).text;

/** A step of a card's formula, with cells of the plan for its names: the plan says no arithmetic twice. */
export function cardStep<N extends string, F extends CardFormula>(
  card: WithFormula<N, F>,
  step: keyof F & string,
  { arguments: args = {}, steps = {}, fact }: StepPlaces<N>,
): Formula {
  const { text, whole } = repeatedStep(card, step, {
    argument: (name) => textOf((args as Readonly<Record<string, Part | undefined>>)[name]),
    step: (name) => textOf(steps[name]),
    fact: (_, name) => textOf(fact?.(name)),
  });
  noteStep(text, card.formula);
  return madeElsewhere(text, whole);
}
