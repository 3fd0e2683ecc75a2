import { addFunction, helpers, type AddFunctionDescription } from '@odoo/o-spreadsheet';
import { GillError } from '../core/errors';
import { callCard } from '../functions/call';
import type { Card, Outcome } from '../functions/card';
import { cards, NAMESPACE } from '../functions/card-list';
import { parameterLine } from '../functions/metadata';
import type { Argument, Cell } from '../functions/parameter';
import { gillError } from './engine-errors';
import { addOrdinaryFunctions } from './ordinary-functions';
import { applyPatches } from './patches/apply-patches';

/** How the engine shows a date that a function returns. */
export const DATE_FORMAT = 'yyyy-mm-dd';

type EngineArgument = Parameters<AddFunctionDescription['compute']>[number];
interface EngineValue {
  value: number | string | boolean | null;
  format?: string;
  message?: string;
}

const isColumns = (argument: EngineArgument): argument is EngineValue[][] =>
  Array.isArray(argument);

function cellOf(given: EngineValue | undefined): Cell {
  const value = given?.value;
  return typeof value === 'string' && helpers.isEvaluationError(value)
    ? gillError(value, given?.message)
    : value;
}

/** The engine hands ranges over column by column. */
function argumentOf(given: EngineArgument): Argument {
  if (!isColumns(given)) return cellOf(given);
  const rows = given[0]?.length ?? 0;
  return Array.from({ length: rows }, (_, r) => given.map((column) => cellOf(column[r])));
}

function engineValue(outcome: Outcome, isDate: boolean): EngineValue {
  if (outcome instanceof GillError) return { value: outcome.code, message: outcome.message };
  return isDate && typeof outcome === 'number'
    ? { value: outcome, format: DATE_FORMAT }
    : { value: outcome };
}

function computeOf(card: Card): AddFunctionDescription['compute'] {
  const isDate = (column: number): boolean =>
    (card.columns ? card.columns[column]?.kind : card.result.kind) === 'date';
  return (...given) => {
    const answer = callCard(card, given.map(argumentOf));
    if (!Array.isArray(answer)) return engineValue(answer, isDate(0));
    const columns = answer[0]?.length ?? 0;
    return Array.from({ length: columns }, (_, c) =>
      answer.map((row) => engineValue(row[c] as Outcome, isDate(c))),
    );
  };
}

const descriptionOf = (card: Card): AddFunctionDescription => ({
  description: `${card.summary}.`,
  category: NAMESPACE,
  args: card.parameters.map((parameter) => ({
    name: parameter.name,
    description: parameterLine(parameter),
    // Errors and ranges reach the card, which answers for them with a sentence.
    type: ['ANY', 'RANGE'],
    acceptErrors: true,
    acceptMatrix: true,
    optional: parameter.optional,
    ...(parameter.names && {
      proposalValues: parameter.names().map((value) => ({ value, label: value })),
    }),
  })),
  compute: computeOf(card),
});

let registered = false;

/** Makes every card a function of the engine; once, however often it is called. */
export function registerFunctions(): void {
  if (registered) return;
  registered = true;
  applyPatches();
  addOrdinaryFunctions();
  for (const card of cards) addFunction(`${NAMESPACE}.${card.id}`, descriptionOf(card));
}
