import { GillError } from '../core/errors';
import type { Card, SpillAddress, SpillCard, ValueCard } from './card';
import { formulaText } from './formula-text';
import { NUMBER_LITERAL, quoted, TEXT_LITERAL } from './literals';
import type { Parameter } from './parameter';

export { PLAIN_NO_ANSWER, quoted } from './literals';

/** A formula text of one argument: a reference, a literal, or any expression; undefined where left out. */
export type ArgumentText = string | undefined;

/** A reference or name, with or without a sheet: needs no brackets around it. */
const SIMPLE_REFERENCE =
  /^(?:(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\d_.]*)!)?\$?[\p{L}_][\p{L}\d_.]*(?:\$?\d+)?$/u;

interface Prepared {
  readonly text: string;
  /** Known now, so that it was checked now and needs no check in the sheet. */
  readonly literal: boolean;
}

/** Reads a literal through the parameter, so that "78 degF" becomes 25.5555 and a bad literal its sentence. */
function preparedLiteral(parameter: Parameter, value: number | string): Prepared {
  const read = parameter.read(value);
  if (parameter.kind === 'choice') return { text: quoted(String(read)), literal: true };
  if (parameter.kind === 'name') {
    return { text: typeof read === 'number' ? String(read) : quoted(String(value)), literal: true };
  }
  if (Array.isArray(read) && read.length > 1)
    return { text: `{${read.map(String).join(';')}}`, literal: true };
  return { text: String(Array.isArray(read) ? read[0] : read), literal: true };
}

function prepared(parameter: Parameter, given: ArgumentText): Prepared | undefined {
  const text = given?.trim() ?? '';
  if (text === '') {
    if (!parameter.optional) {
      throw new GillError('#VALUE!', `${parameter.name} is missing; it takes ${parameter.takes}`);
    }
    return parameter.fallback === undefined
      ? undefined
      : preparedLiteral(parameter, parameter.fallback);
  }
  if (NUMBER_LITERAL.test(text)) {
    const value = text.endsWith('%') ? Number(text.slice(0, -1)) / 100 : Number(text);
    if (value === 0 && parameter.zeroIsMissing) return prepared(parameter, undefined);
    return preparedLiteral(parameter, value);
  }
  if (TEXT_LITERAL.test(text)) {
    const value = text.slice(1, -1).replaceAll('""', '"');
    if (value === '') return prepared(parameter, undefined);
    return preparedLiteral(parameter, value);
  }
  const wrapped = SIMPLE_REFERENCE.test(text) ? text : `(${text})`;
  if (parameter.optional && parameter.fallback !== undefined) {
    const fallback = preparedLiteral(parameter, parameter.fallback).text;
    const blank = parameter.zeroIsMissing
      ? `IF(${wrapped}="",TRUE,IF(ISNUMBER(${wrapped}),${wrapped}=0,FALSE))`
      : `${wrapped}=""`;
    return { text: `IF(${blank},${fallback},${wrapped})`, literal: false };
  }
  // A 0 that can be no value counts as left out; the card decides what stands for it.
  if (parameter.optional && parameter.zeroIsMissing) {
    return { text: `IF(${wrapped}=0,"",${wrapped})`, literal: false };
  }
  return { text: wrapped, literal: false };
}

interface Arguments {
  readonly texts: Readonly<Record<string, string | undefined>>;
  /** Puts the checks of the arguments around an expression. */
  readonly guarded: (expression: string) => string;
}

function preparedArguments(card: Card, args: readonly ArgumentText[]): Arguments {
  const texts: Record<string, string | undefined> = {};
  const guards: { condition: string; sentence: string }[] = [];
  const required: { text: string; zeroIsMissing: boolean }[] = [];
  let emptyPossible = true;
  card.parameters.forEach((parameter, i) => {
    const argument = prepared(parameter, args[i]);
    texts[parameter.name] = argument?.text;
    if (!parameter.optional && parameter.kind !== 'series') {
      if (argument && !argument.literal) {
        required.push({ text: argument.text, zeroIsMissing: parameter.zeroIsMissing });
      } else emptyPossible = false;
    }
    if (argument && !argument.literal && parameter.plainGuard) {
      const condition = parameter.plainGuard(argument.text);
      // A left-out optional cell stays left out: the card decides what stands for it.
      const optionalCell = parameter.optional && parameter.fallback === undefined;
      guards.push({
        condition: optionalCell ? `IF(${argument.text}="",TRUE,${condition})` : condition,
        sentence: `${parameter.name} must be ${parameter.takes}`,
      });
    }
  });
  const guarded = (expression: string): string => {
    let formula = expression;
    for (const { condition, sentence } of [...guards].reverse()) {
      // VALUE of a sentence is #VALUE! everywhere, and the reader of the formula finds the sentence.
      formula = `IF(${condition},${formula},VALUE(${quoted(sentence.replaceAll('"', '').slice(0, 200))}))`;
    }
    if (emptyPossible && required.length > 0) {
      formula = `IF(${plainEmptyRow(required)},"",${formula})`;
    }
    return formula;
  };
  return { texts, guarded };
}

/** Condition for a row in which nothing is there yet, the same as for the live cards (see call.ts). */
function plainEmptyRow(required: readonly { text: string; zeroIsMissing: boolean }[]): string {
  const both = (conditions: string[]): string =>
    conditions.length === 1 ? (conditions[0] as string) : `AND(${conditions.join(',')})`;
  const blanks = required.map(({ text }) => `${text}=""`);
  // A 0 that may be a value leaves the row empty only beside an argument that is surely missing.
  const missing = required.map(({ text }) => `OR(${text}="",${text}=0)`);
  if (required.some(({ zeroIsMissing }) => zeroIsMissing)) return both(missing);
  return required.length === 1 ? both(blanks) : both([...missing, `OR(${blanks.join(',')})`]);
}

function expressionWith(
  { id, parameters, formula, plain }: ValueCard,
  texts: Arguments['texts'],
): string {
  if (plain) return plain(texts);
  if (typeof formula === 'object')
    return formulaText({ parameters, formula }, { arguments: texts });
  throw new Error(`GILL.${id} has no formula`);
}

/**
 * The formula (without "=") that gives a card's value with the spreadsheet's own functions only.
 * Arguments are formula texts. Throws a GillError where a literal argument is wrong.
 */
export function plainFormula(card: ValueCard, args: readonly ArgumentText[]): string {
  const { texts, guarded } = preparedArguments(card, args);
  return guarded(expressionWith(card, texts));
}

/** The same for one cell of a spilling card (row and column from 0). */
export function plainSpillFormula(
  card: SpillCard,
  args: readonly ArgumentText[],
  row: number,
  column: number,
  address: SpillAddress,
): string {
  const { texts, guarded } = preparedArguments(card, args);
  return guarded(card.plainCell(texts, row, column, address));
}

/** One formula where an optional argument is given, another where it is left out or its cell is blank. */
export const ifGiven = (given: string | undefined, then: string, otherwise: string): string =>
  given === undefined
    ? otherwise
    : NUMBER_LITERAL.test(given) || TEXT_LITERAL.test(given)
      ? then
      : `IF(${given}="",${otherwise},${then})`;

/**
 * What an argument that takes a name or a number stands for: `figure` where it is a name, `number` where
 * it is a number (left out: the number itself).
 */
export const numberOrFigure = (text: string, figure: string, number = text): string =>
  Number.isFinite(Number(text))
    ? number
    : text.startsWith('"')
      ? figure
      : `IF(ISNUMBER(${text}),${number},${figure})`;
