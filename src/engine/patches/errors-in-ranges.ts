import { CellErrorType, helpers, registries } from '@odoo/o-spreadsheet';
import { mendFunction, needParts, type Patch } from './patch';

const NAME = 'errors-in-ranges';

interface Cell {
  readonly value: unknown;
}
type Matrix = readonly (readonly (Cell | undefined)[])[];
type Compute = (this: unknown, ...args: unknown[]) => unknown;

const isError = (cell: Cell | undefined): boolean =>
  typeof cell?.value === 'string' && helpers.isEvaluationError(cell.value);

/** A range that is one cell comes as that cell. */
const asMatrix = (argument: unknown): Matrix =>
  Array.isArray(argument) ? (argument as Matrix) : [[argument as Cell | undefined]];

/** The errors of a range in order, and in the place of each how many came before it. */
interface Errors {
  readonly cells: readonly Cell[];
  readonly places: Matrix;
}

/** A range is one object as long as nothing in it is computed anew. */
const known = new WeakMap<Matrix, Errors | null>();

const NO_NUMBER: Cell = { value: null };

function errorsIn(argument: unknown): Errors | undefined {
  const matrix = asMatrix(argument);
  let errors = known.get(matrix);
  if (errors === undefined) {
    const cells: Cell[] = [];
    if (matrix.some((column) => column.some(isError))) {
      const places = matrix.map((column) =>
        column.map((cell) => (isError(cell) ? { value: cells.push(cell as Cell) } : NO_NUMBER)),
      );
      errors = { cells, places };
    } else errors = null;
    known.set(matrix, errors);
  }
  return errors ?? undefined;
}

const firstError = (args: readonly unknown[]): Cell | undefined => {
  for (const argument of args) {
    const [error] = errorsIn(argument)?.cells ?? [];
    if (error) return error;
  }
  return undefined;
};

/** Functions that are an error where any of what they read is one. */
const ALL_COUNT = ['SUMPRODUCT', 'SUMX2MY2', 'SUMX2PY2', 'SUMXMY2', 'OR', 'RANK'] as const;

/** Functions that are an error where one of the cells that they choose is one, with the place of those cells. */
const CHOSEN_COUNT = {
  SUMIF: 2,
  AVERAGEIF: 2,
  SUMIFS: 0,
  AVERAGEIFS: 0,
  MAXIFS: 0,
  MINIFS: 0,
} as const;

/** Functions that take a range that is gone for an empty one, with the places of their ranges. */
const LOST: Readonly<Record<string, (place: number) => boolean>> = {
  COUNTIF: (place) => place === 0,
  COUNTIFS: (place) => place % 2 === 0,
  COUNTBLANK: () => true,
  SUMIF: (place) => place !== 1,
  AVERAGEIF: (place) => place !== 1,
  SUMIFS: (place) => place === 0 || place % 2 === 1,
  AVERAGEIFS: (place) => place === 0 || place % 2 === 1,
  MAXIFS: (place) => place === 0 || place % 2 === 1,
  MINIFS: (place) => place === 0 || place % 2 === 1,
  MATCH: (place) => place === 1,
  LOOKUP: (place) => place > 0,
  VLOOKUP: (place) => place === 1,
  HLOOKUP: (place) => place === 1,
  XLOOKUP: (place) => place === 1 || place === 2,
};

/** A range that is gone comes as one error, which has no place. */
function lostIn(argument: unknown): Cell | undefined {
  const matrix = asMatrix(argument);
  const [first] = matrix[0] ?? [];
  const isAlone = matrix.length === 1 && matrix[0]?.length === 1;
  return isAlone && first?.value === CellErrorType.InvalidReference && !('position' in first)
    ? first
    : undefined;
}

/** Has errors in ranges come out where every other spreadsheet has them come out. */
export const errorsInRanges: Patch = {
  name: NAME,
  upstream:
    'Sums of products, sums and means by criteria and OR leave errors in their ranges out, and show a number that lacks them; counting and searching a range that is gone finds nothing.',
  until: 'SUMPRODUCT and SUMIFS of a range with #N/A are #N/A',
  apply() {
    needParts(NAME, registries.functionRegistry.content, [...ALL_COUNT, ...Object.keys(LOST)]);
    const smallest = registries.functionRegistry.get('MINIFS').compute as Compute;
    for (const name of ALL_COUNT) {
      mendFunction(
        name,
        (compute) =>
          function (...args) {
            return firstError(args) ?? compute.apply(this, args);
          },
      );
    }
    for (const [name, place] of Object.entries(CHOSEN_COUNT)) {
      mendFunction(
        name,
        (compute) =>
          function (...args) {
            // Without a range of its own it is that of the criterion, whose errors no criterion chooses.
            const errors = errorsIn(args[place]);
            if (errors) {
              const criteria = args.filter((_, i) => i !== place);
              const first = smallest.call(this, errors.places, ...criteria);
              if (typeof first === 'number' && first > 0) return errors.cells[first - 1];
            }
            return compute.apply(this, args);
          },
      );
    }
    for (const [name, isRange] of Object.entries(LOST)) {
      mendFunction(
        name,
        (compute) =>
          function (...args) {
            for (const [place, argument] of args.entries()) {
              const lost = isRange(place) ? lostIn(argument) : undefined;
              if (lost) return lost;
            }
            return compute.apply(this, args);
          },
      );
    }
  },
};
