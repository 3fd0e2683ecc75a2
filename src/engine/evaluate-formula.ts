import { Model, helpers, tokenize } from '@odoo/o-spreadsheet';
import { GillError } from '../core/errors';
import { engineFormula } from './engine-formula';
import { gillError } from './engine-errors';
import { registerFunctions } from './engine-functions';
import { quietly } from './quietly';

/** One cell of an answer. */
export interface Answer {
  /** Empty text for a blank. */
  readonly value: number | string | boolean | GillError;
  /** A serial that is shown as a date. */
  readonly isDate: boolean;
}

/** A cell as the engine holds it. */
export interface EngineCell {
  readonly value: number | string | boolean | null;
  readonly format?: string | undefined;
  readonly message?: string | undefined;
}

export const valueOf = ({ value, message }: EngineCell): Answer['value'] =>
  typeof value === 'string' && helpers.isEvaluationError(value)
    ? gillError(value, message)
    : (value ?? '');

const answerOf = (cell: EngineCell): Answer => ({
  value: valueOf(cell),
  isDate: typeof cell.value === 'number' && helpers.isDateTimeFormat(cell.format ?? ''),
});

/** A cell or range in the formula, which has no sheet to look at. */
const referenceIn = (formula: string): string | undefined =>
  tokenize(formula).find(({ type }) => type === 'REFERENCE')?.value;

let scratch: Model | undefined;

/** Computes one formula (with or without "=") that stands in no sheet: rows of cells. */
export function evaluate(formula: string): readonly (readonly Answer[])[] {
  registerFunctions();
  scratch ??= quietly(() => new Model({}));
  const { getters } = scratch;
  const text = `=${engineFormula(formula.trim().replace(/^=/, ''))}`;
  const reference = referenceIn(text);
  if (reference !== undefined) {
    const sentence = `${reference} is a cell of a sheet, and this formula stands in none; write its value instead`;
    return [[{ value: new GillError('#REF!', sentence), isDate: false }]];
  }
  const result = quietly(() => getters.evaluateFormulaResult(getters.getActiveSheetId(), text));
  if (!Array.isArray(result)) return [[answerOf(result)]];
  const rows = result[0]?.length ?? 0;
  return Array.from({ length: rows }, (_, r) =>
    result.map((column) => answerOf(column[r] as EngineCell)),
  );
}
