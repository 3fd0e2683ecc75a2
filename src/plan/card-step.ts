import type { Formula as CardFormula } from '../functions/formula';
import { formulaText, type WithFormula } from '../functions/formula-text';
import { type Formula, madeElsewhere, part, type Part } from './formula-parts';

/** What stands in the plan for the names of a card's formula; `N` are its parameters. */
export interface StepPlaces<N extends string> {
  readonly arguments?: { readonly [K in N]?: Part };
  /** Steps that the plan has in cells of its own. */
  readonly steps?: Readonly<Record<string, Part>>;
  /** A figure of the table's row; left out where it is the whole table's. */
  readonly fact?: (fact: string) => Formula | undefined;
}

/** A step of a card's formula, with cells of the plan for its names: the plan says no arithmetic twice. */
export function cardStep<N extends string, F extends CardFormula>(
  card: WithFormula<N, F>,
  step: keyof F & string,
  { arguments: args = {}, steps = {}, fact }: StepPlaces<N>,
): Formula {
  const texts = (parts: Readonly<Record<string, Part | undefined>>): Record<string, string> =>
    Object.fromEntries(
      Object.entries(parts).flatMap(([name, given]) =>
        given === undefined ? [] : [[name, part(given).text]],
      ),
    );
  const text = formulaText(
    card,
    {
      arguments: texts(args) as { readonly [K in N]?: string },
      steps: texts(steps),
      ...(fact && { facts: (_, name) => fact(name)?.text }),
    },
    step,
  );
  return madeElsewhere(text);
}
