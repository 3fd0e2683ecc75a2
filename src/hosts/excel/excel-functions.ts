import { type ErrorCode, GillError, wrongValue } from '../../core/errors';
import { callCard } from '../../functions/call';
import type { CalledCard, Outcome } from '../../functions/card';
import { NAMESPACE } from '../../functions/namespace';
import type { Argument, Cell } from '../../functions/parameter';

type Answer = number | string | CustomFunctions.Error;
type Matrix = Answer[][];

const knownErrors: readonly ErrorCode[] = [
  '#VALUE!',
  '#N/A',
  '#NUM!',
  '#DIV/0!',
  '#REF!',
  '#NAME?',
  '#NULL!',
  '#SPILL!',
  '#CALC!',
  '#BUSY!',
];

/** An error cell arrives as an object with its code; anything else that is no value is refused. */
function readCell(cell: unknown): Cell {
  if (cell === null || cell === undefined) return null;
  if (typeof cell !== 'object') return cell as Cell;
  const code = knownErrors.find((known) => known === (cell as { code?: unknown }).code);
  if (code) return new GillError(code, `a cell that it reads holds ${code}; put that cell right`);
  return wrongValue('a cell that it reads holds neither a number nor text');
}

/**
 * Excel puts it behind the arguments, and keeps its list of parameters for a day: where the list is older than
 * the card, it stands in the place of a parameter that was added since. Arguments are rows of cells.
 */
const isInvocation = (last: unknown): boolean =>
  typeof last === 'object' && last !== null && !Array.isArray(last) && !('code' in last);

const readArgument = (argument: unknown): Argument =>
  Array.isArray(argument)
    ? argument.map((row: unknown) => (Array.isArray(row) ? row : [row]).map(readCell))
    : readCell(argument);

/**
 * Excel shows a sentence with #VALUE! and #N/A alone. A sentence that says what would be right is worth more than
 * the code, so that every other error, #NUM! for one, goes out as #VALUE!.
 */
function asExcelError({ code, message }: GillError): CustomFunctions.Error {
  const { ErrorCode } = CustomFunctions;
  return new CustomFunctions.Error(
    code === '#N/A' ? ErrorCode.notAvailable : ErrorCode.invalidValue,
    message,
  );
}

const asAnswer = (outcome: Outcome): Answer =>
  outcome instanceof GillError ? asExcelError(outcome) : outcome;

const asMatrix = (result: Outcome | Outcome[][]): Matrix =>
  Array.isArray(result) ? result.map((row) => row.map(asAnswer)) : [[asAnswer(result)]];

/**
 * A card as Excel calls it: one value for each parameter (nothing, a cell or rows of cells) and the
 * invocation as an extra last one. Always answers with a matrix, in which only bad cells are errors.
 */
export function excelFunction(card: CalledCard): (...args: unknown[]) => Matrix {
  return (...all) => {
    const given = isInvocation(all.at(-1)) ? all.slice(0, -1) : all;
    const args = card.parameters.map((_, i) => readArgument(given[i]));
    try {
      return asMatrix(callCard(card, args));
    } catch (thrown) {
      // A fault of ours: never a number, and a sentence that can be reported.
      const fault = `${NAMESPACE}.${card.id} failed by a fault of its own: ${String(thrown)}`;
      return [[asExcelError(wrongValue(fault))]];
    }
  };
}
