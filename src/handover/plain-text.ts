import { tokenize } from '@borgar/fx';
import { GillError } from '../core/errors';
import { plainFormula, plainSpillFormula } from '../functions/plain';
import { placeAddress, type Place } from '../plan/addresses';
import type { SnapshotValue } from '../plan/book-snapshot';
import type { Area } from '../plan/workbook-model';
import { argumentFor, NoPlainForm } from './arguments';
import { callsGill, type GillCall, rewriteCalls } from '../functions/gill-calls';
import { type Guard, guarded, guardsAround } from './guards';
import type { Steps } from './steps';
import type { WorkbookParts } from '../ooxml/workbook-parts';

/** Formulas longer than this are not taken by spreadsheets. */
const MAX_FORMULA_LENGTH = 8192;

/** An argument that is wrong as written gives the same error without Gillbed, its sentence in the formula. */
const plainError = ({ code, message }: GillError): string =>
  code === '#N/A' ? 'NA()' : `VALUE("${message.replaceAll('"', "'").slice(0, 200)}")`;

/** Where a formula stands; without it long arguments have no cell of their own to go to. */
export interface FormulaContext {
  readonly sheet: string;
  readonly steps: Steps;
  /** The text that the cell of a reference holds; undefined where it holds none. */
  readonly textAt: (reference: string) => string | undefined;
  /** What a formula text gives as the cells of its sheet stand; undefined where that is not known. */
  readonly valueOf: (text: string) => SnapshotValue | undefined;
}

/** Text with a unit, or a date as text, in a cell: the functions read it, a plain formula cannot. */
function refuseUnitText(call: GillCall, args: readonly string[], context: FormulaContext): void {
  call.card.parameters.forEach((parameter, i) => {
    const reference = args[i] ?? '';
    const text = reference === '' ? undefined : context.textAt(reference);
    if (text === undefined || text === '' || !['number', 'date'].includes(parameter.kind)) return;
    throw new NoPlainForm(
      `${reference} holds the text "${text}"; plain formulas take a bare number in the function's own unit`,
    );
  });
}

function plainCall(
  call: GillCall,
  area: Area,
  at: Place,
  book: WorkbookParts,
  context: FormulaContext | undefined,
  guards: readonly Guard[],
): string {
  const { card, args, given, whole } = call;
  const short = (text: string, was: () => string | undefined): string =>
    context
      ? context.steps.stepFor(text, context.sheet, placeAddress(at), guards, () => {
          const before = was();
          return before === undefined ? undefined : context.valueOf(guarded(before, guards));
        })
      : text;
  const asGiven =
    (text: string | undefined): (() => string | undefined) =>
    () => {
      try {
        return argumentFor(text ?? '', row, column, whole, book);
      } catch (problem) {
        if (problem instanceof NoPlainForm) return undefined;
        throw problem;
      }
    };
  const row = at.row - area.row;
  const column = at.column - area.column;
  if (args.length > card.parameters.length) {
    throw new NoPlainForm(
      `it has ${args.length} arguments, ${card.parameters.length} at most are right`,
    );
  }
  try {
    if (!card.columns) {
      const single = args.map((arg, i) =>
        short(argumentFor(arg, row, column, whole, book), asGiven(given[i])),
      );
      if (context) refuseUnitText(call, single, context);
      const plain = plainFormula(card, single);
      if (whole) return plain;
      // Whatever stands around it has to see an error that is caught further out.
      if (guards.includes('catch') && plain.length <= MAX_FORMULA_LENGTH / 2) return `(${plain})`;
      return short(`(${plain})`, () => call.written);
    }
    if (!whole) throw new NoPlainForm('it fills several cells and stands inside another formula');
    if (column >= card.columns.length) {
      throw new NoPlainForm('it fills more columns than the function has');
    }
    if (context) refuseUnitText(call, args, context);
    return plainSpillFormula(
      card,
      args.map((arg, i) => short(arg, asGiven(given[i]))),
      row,
      column,
      (r, c) => placeAddress({ row: area.row + r, column: area.column + c }),
    );
  } catch (problem) {
    if (problem instanceof GillError) return plainError(problem);
    throw problem;
  }
}

/**
 * The plain form of a formula for one cell of the block it fills (row and column from its first cell).
 * Throws NoPlainForm with the reason where there is none.
 */
export function plainText(
  formula: string,
  area: Area,
  at: Place,
  book: WorkbookParts,
  context?: FormulaContext,
): string {
  const isOne = area.rows * area.columns === 1;
  const text = rewriteCalls(formula, (call) => {
    const found = isOne ? guardsAround(formula, call.start) : [];
    // A condition that calls GILL itself would need a guard of its own.
    const guards = found.filter((guard) => guard === 'catch' || !callsGill(guard.condition));
    return plainCall(call, area, at, book, context, guards);
  });
  if (text.length > MAX_FORMULA_LENGTH) {
    throw new NoPlainForm('its plain form is longer than a cell can hold');
  }
  return text;
}

/**
 * "A1#" is stored as ANCHORARRAY(A1). Where that spill becomes single formulas, the reference becomes the
 * range they stand in.
 */
export function withoutAnchors(
  formula: string,
  areaAt: (reference: string) => string | undefined,
): string {
  if (!/ANCHORARRAY/i.test(formula)) return formula;
  const tokens = tokenize(formula, { mergeRefs: true });
  let out = '';
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i];
    const inside = tokens[i + 2]?.value ?? '';
    if (
      token?.type === 'func' &&
      /^(_xlfn\.)?ANCHORARRAY$/i.test(token.value) &&
      tokens[i + 3]?.value === ')'
    ) {
      const range = areaAt(inside);
      if (range !== undefined) {
        out += range;
        i += 3;
        continue;
      }
    }
    out += token?.value ?? '';
  }
  return out;
}
