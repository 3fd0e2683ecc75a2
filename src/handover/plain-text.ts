import { tokenize } from '@borgar/fx';
import { GillError } from '../core/errors';
import { plainFormula, plainSpillFormula } from '../functions/plain';
import { addressOf, type Block, type Place } from './addresses';
import { argumentFor, NoPlainForm } from './arguments';
import { rewriteCalls } from '../functions/gill-calls';
import type { WorkbookParts } from './workbook-parts';

/** Formulas longer than this are not taken by spreadsheets. */
const LONGEST_FORMULA = 8192;

/**
 * The plain form of a formula for one cell of the block it fills (row and column from its first cell).
 * Throws NoPlainForm with the reason where there is none.
 */
export function plainText(formula: string, area: Block, at: Place, book: WorkbookParts): string {
  const row = at.row - area.row;
  const column = at.column - area.column;
  let text: string;
  try {
    text = rewriteCalls(formula, (call) => {
      if (call.args.length > call.card.parameters.length) {
        throw new NoPlainForm(
          `it has ${call.args.length} arguments, ${call.card.parameters.length} at most are right`,
        );
      }
      if (call.card.columns) {
        if (!call.whole)
          throw new NoPlainForm('it fills several cells and stands inside another formula');
        if (column >= call.card.columns.length) {
          throw new NoPlainForm('it fills more columns than the function has');
        }
        return plainSpillFormula(call.card, call.args, row, column, (r, c) =>
          addressOf({ row: area.row + r, column: area.column + c }),
        );
      }
      const args = call.args.map((arg) => argumentFor(arg, row, column, call.whole, book));
      const plain = plainFormula(call.card, args);
      return call.whole ? plain : `(${plain})`;
    });
  } catch (problem) {
    if (problem instanceof GillError) throw new NoPlainForm(problem.message);
    throw problem;
  }
  if (text.length > LONGEST_FORMULA)
    throw new NoPlainForm('its plain form is longer than a cell can hold');
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
