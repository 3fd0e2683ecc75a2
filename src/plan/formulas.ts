import type { SpillCard, ValueCard } from '../functions/card';
import { findCard, NAMESPACE } from '../functions/list';
import { type ArgumentText, plainFormula, plainSpillFormula } from '../functions/plain';

export type FormulaMode = 'live' | 'plain';

function knownCard(id: string): ValueCard | SpillCard {
  const card = findCard(id);
  if (!card) throw new Error(`The plan uses GILL.${id}, which is not in the catalogue`);
  return card;
}

/** A call as it is typed; left-out arguments at the end are not written. */
function liveCall(id: string, args: readonly ArgumentText[]): string {
  const given = args.map((text) => text ?? '');
  while (given.at(-1) === '') given.pop();
  return `${NAMESPACE}.${id}(${given.join(',')})`;
}

/** Makes the formula of one function call, live or with the spreadsheet's own functions only. */
export type Gill = (id: string, ...args: ArgumentText[]) => string;

/** The plain twin of a call, whatever the plan's mode: for cells that must follow edits of the tables. */
export function plainCall(id: string, ...args: ArgumentText[]): string {
  const card = knownCard(id);
  if (card.columns) throw new Error(`GILL.${id} spills; use plainSpillFormula`);
  return plainFormula(card, args);
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
  args: readonly ArgumentText[],
  row: number,
  column: number,
  address: (row: number, column: number) => string,
): string {
  const card = knownCard(id);
  if (!card.columns) throw new Error(`GILL.${id} gives one value`);
  return plainSpillFormula(card, args, row, column, address);
}
