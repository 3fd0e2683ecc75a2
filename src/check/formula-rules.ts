import { tokenize } from '@borgar/fx';
import { GillError } from '../core/errors';
import { callCard } from '../functions/call';
import type { Argument, Cell } from '../functions/parameter';
import { mayCallGill, rewriteCalls } from '../functions/gill-calls';
import type { Finding } from './finding';
import { readArea, splitSheet } from '../plan/addresses';
import { addressIn, type OpenSheet } from './open-sheet';

const ERRORS: Readonly<Record<string, { why: string; remedy: string }>> = {
  '#NAME?': {
    why: 'The spreadsheet does not know the function: Gillbed is not loaded, or the formula lost its binding on the way.',
    remedy: 'Open the Gillbed pane; if it stays, use Repair.',
  },
  '#SPILL!': {
    why: 'The result needs more cells than are free.',
    remedy: 'Clear the cells below and to the right, and keep such formulas out of tables.',
  },
  '#REF!': {
    why: 'A cell that the formula used has been deleted.',
    remedy: 'Point the formula to the right cell again, or undo the deletion.',
  },
  '#DIV/0!': {
    why: 'Something is divided by 0 or by a blank cell.',
    remedy: 'Fill in the cell it divides by.',
  },
  '#BUSY!': {
    why: 'The result has not come yet.',
    remedy: 'Wait; if it stays, calculate the sheet again.',
  },
};

const isError = (value: unknown): value is string =>
  typeof value === 'string' &&
  /^(#(VALUE!|N\/A|NUM!|NAME\?|REF!|DIV\/0!|NULL!|SPILL!|CALC!|BUSY!|ERROR))/.test(value);

/** The cells that an argument's text means: a literal, one cell, or a range; undefined where it is more. */
function argumentCells(
  text: string,
  own: OpenSheet,
  sheets: readonly OpenSheet[],
): Argument | undefined {
  const tokens = tokenize(text, { mergeRefs: true }).filter((token) => token.type !== 'whitespace');
  if (tokens.length === 0) return null;
  const [first] = tokens;
  if (tokens.length === 2 && first?.value === '-' && tokens[1]?.type === 'number') {
    return -Number(tokens[1].value);
  }
  if (tokens.length !== 1 || !first) return undefined;
  if (first.type === 'number') return Number(first.value);
  if (first.type === 'string') return first.value.slice(1, -1).replaceAll('""', '"');
  if (first.type === 'bool') return /^true$/i.test(first.value);
  if (first.type !== 'range') return undefined;
  const { sheet: name = own.name, address } = splitSheet(first.value);
  const sheet = sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
  const area = readArea(address);
  if (!sheet || !area || area.rows * area.columns > 100_000) return undefined;
  const corner = readArea(splitSheet(sheet.from).address);
  const fromRow = area.row - (corner?.row ?? 0);
  const fromColumn = area.column - (corner?.column ?? 0);
  return Array.from({ length: area.rows }, (_, r) =>
    Array.from(
      { length: area.columns },
      (_, c): Cell => sheet.values[fromRow + r]?.[fromColumn + c] ?? null,
    ),
  );
}

/** The sentence of a GILL call, found by calling it again with what its cells hold. */
function sentence(
  formula: string,
  own: OpenSheet,
  sheets: readonly OpenSheet[],
): string | undefined {
  let found: string | undefined;
  rewriteCalls(formula, (call) => {
    const args = call.args.map((text) => argumentCells(text, own, sheets));
    if (args.some((arg) => arg === undefined)) return call.written;
    try {
      const outcome = callCard(call.card, args as Argument[]);
      const first = Array.isArray(outcome)
        ? outcome.flat().find((outcome) => outcome instanceof GillError)
        : outcome;
      if (first instanceof GillError) found ??= first.message;
    } catch {
      // A text with a unit before the units are loaded: the general sentence has to do.
    }
    return call.written;
  });
  return found;
}

/** Cells with a GILL formula that show an error, with the sentence that says what was wrong. */
export function formulaRules(sheet: OpenSheet, sheets: readonly OpenSheet[]): Finding[] {
  const findings: Finding[] = [];
  sheet.formulas.forEach((row, r) =>
    row.forEach((formula, c) => {
      const value = sheet.values[r]?.[c];
      if (typeof formula !== 'string' || !formula.startsWith('=') || !mayCallGill(formula)) return;
      if (!isError(value)) return;
      const code = /^#[A-Z/0]+[!?]?/.exec(value)?.[0] ?? value;
      const general = ERRORS[code];
      const said =
        general && code !== '#DIV/0!' ? undefined : sentence(formula.slice(1), sheet, sheets);
      findings.push({
        level: 'watch',
        what: `${addressIn(sheet, r, c)} shows ${code}: ${said ?? general?.why ?? 'an argument of its formula is wrong'}`.replace(
          /([^.])$/,
          '$1.',
        ),
        sheet: sheet.name,
        address: addressIn(sheet, r, c),
        why: 'Everything that builds on this cell is missing too.',
        remedy: general?.remedy ?? 'Correct the cell that the sentence names.',
      });
    }),
  );
  return findings;
}
