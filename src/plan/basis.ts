import type { Card } from '../functions/card';
import { cards, findCard } from '../functions/card-list';
import type { Formula as CardFormula } from '../functions/formula';
import type { Formula } from './formula-parts';

/**
 * Which function a formula text of a plan says with the spreadsheet's own functions. Noted only while
 * somebody asks for it: a plan itself keeps no record.
 */

export interface Basis {
  readonly text: string;
  readonly card: Card;
  /** The arguments as they were given, where the text is the whole function; a step of it has none. */
  readonly args?: readonly string[];
}

let noted: Map<string, Basis> | undefined;

/** Does `work` and gives, beside what it makes, the functions behind the formula texts made meanwhile. */
export function keepingBasis<T>(work: () => T): { made: T; basis: readonly Basis[] } {
  const before = noted;
  const own = new Map<string, Basis>();
  noted = own;
  try {
    return { made: work(), basis: [...own.values()] };
  } finally {
    noted = before;
  }
}

/** Notes that a text is a function written out. */
export function noteCall(text: string, card: Card, args: readonly (string | undefined)[]): void {
  if (!noted) return;
  const given = args.map((arg) => arg ?? '');
  while (given.at(-1) === '') given.pop();
  noted.set(text, { text, card, args: given });
}

/** Notes that a text is a step of a card's formula. */
export function noteStep(text: string, formula: CardFormula): void {
  if (!noted || noted.has(text)) return;
  const card = cards.find((candidate) => candidate.formula === formula);
  if (card) noted.set(text, { text, card });
}

/** A formula whose figures rest on what a function rests on, without being a step of it. */
export function restingOn(id: string, formula: Formula): Formula {
  const card = findCard(id);
  if (!card) throw new Error(`The plan names GILL.${id}, which is not in the catalogue`);
  if (noted && !noted.has(formula.text)) noted.set(formula.text, { text: formula.text, card });
  return formula;
}
