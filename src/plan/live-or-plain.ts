import type { SpillCard, ValueCard } from '../functions/card';
import { findCard, NAMESPACE } from '../functions/card-list';
import { plainFormula, plainSpillFormula } from '../functions/plain';
import { noteCall } from './basis';
import { Formula, madeElsewhere, part, type Part } from './formula-parts';

export type FormulaMode = 'live' | 'plain';

function knownCard(id: string): ValueCard | SpillCard {
  const card = findCard(id);
  if (!card) throw new Error(`The plan uses GILL.${id}, which is not in the catalogue`);
  return card;
}

const textsOf = (args: readonly (Part | undefined)[]): (string | undefined)[] =>
  args.map((arg) => (arg === undefined ? undefined : part(arg).text));

/** A call as it is typed; left-out arguments at the end are not written. */
function liveCall(id: string, args: readonly (Part | undefined)[]): Formula {
  const given = textsOf(args).map((text) => text ?? '');
  while (given.at(-1) === '') given.pop();
  return new Formula(`${NAMESPACE}.${id}(${given.join(',')})`);
}

/** Makes the formula of one function call, live or with the spreadsheet's own functions only. */
export type Gill = (id: string, ...args: (Part | undefined)[]) => Formula;

/** The plain twin of a call, whatever the plan's mode: for cells that must follow edits of the tables. */
export function plainCall(id: string, ...args: (Part | undefined)[]): Formula {
  const card = knownCard(id);
  if (card.columns) throw new Error(`GILL.${id} spills; use plainSpillFormula`);
  const texts = textsOf(args);
  const text = plainFormula(card, texts);
  noteCall(text, card, texts);
  return madeElsewhere(text);
}

export const gillFor =
  (mode: FormulaMode): Gill =>
  (id, ...args) => {
    knownCard(id);
    return mode === 'live' ? liveCall(id, args) : plainCall(id, ...args);
  };

/** The plain formulas of a spilling call, cell by cell. */
export function plainSpillCell(
  id: string,
  args: readonly Part[],
  row: number,
  column: number,
  address: (row: number, column: number) => string,
): Formula {
  const card = knownCard(id);
  if (!card.columns) throw new Error(`GILL.${id} gives one value`);
  const text = plainSpillFormula(card, textsOf(args), row, column, address);
  noteCall(text, card, textsOf(args));
  return madeElsewhere(text);
}
