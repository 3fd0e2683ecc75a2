import { mendEvaluator, needParts, type Patch } from './patch';

const NAME = 'ranges-beyond-sheets';

type Matrix = { readonly value: unknown }[][];

interface Range {
  readonly zone: {
    readonly top: number;
    readonly left: number;
    readonly bottom: number;
    readonly right: number;
  };
  readonly invalidSheetName?: string;
  readonly invalidXc?: string;
}

interface Evaluator {
  readonly compilationParams: { ensureRange: (range: Range) => Matrix };
  updateCompilationParameters(): void;
  updateCompilationParametersForIsolatedFormula(origin: unknown): void;
}

/** Of larger ranges only the cells on the sheet are read: what lies beyond is made to fill the memory. */
const MANY = 1_000_000;

const BLANK = { value: null };

const columnsOf = ({ zone }: Range): number => zone.right - zone.left + 1;
const rowsOf = ({ zone }: Range): number => zone.bottom - zone.top + 1;

const isWhole = (range: Range, values: Matrix): boolean =>
  values.length === columnsOf(range) && values[0]?.length === rowsOf(range);

/** What of a range is gone is an error that it gives as one value. */
const isLost = (range: Range): boolean =>
  range.invalidSheetName !== undefined ||
  range.invalidXc !== undefined ||
  Math.min(range.zone.top, range.zone.left) < 0 ||
  Math.min(rowsOf(range), columnsOf(range)) < 1;

/** The values of a range with blanks for its cells beyond the sheet. */
function whole(range: Range, values: Matrix): Matrix {
  const [columns, rows] = [columnsOf(range), rowsOf(range)];
  if (isLost(range) || columns < values.length || rows < (values[0]?.length ?? 0)) return values;
  if (columns * rows > MANY) return values[0]?.length === 0 ? [[BLANK]] : values;
  return Array.from({ length: columns }, (_, column) => {
    const there = values[column] ?? [];
    const blanks = new Array<(typeof there)[number]>(rows - there.length).fill(BLANK);
    return [...there, ...blanks];
  });
}

function mend(evaluator: Evaluator): void {
  needParts(NAME, evaluator, [
    ...['compilationParams', 'updateCompilationParameters'],
    'updateCompilationParametersForIsolatedFormula',
  ]);
  /** What was read of a range is kept by the library for as long as nothing changes. */
  const known = new WeakMap<Matrix, Matrix>();
  const extend = (): void => {
    const { compilationParams } = evaluator;
    const ensureRange = compilationParams.ensureRange.bind(compilationParams);
    compilationParams.ensureRange = (range) => {
      const values = ensureRange(range);
      if (isWhole(range, values)) return values;
      let all = known.get(values);
      if (!all) known.set(values, (all = whole(range, values)));
      return all;
    };
  };
  const anew = evaluator.updateCompilationParameters.bind(evaluator);
  evaluator.updateCompilationParameters = () => {
    anew();
    extend();
  };
  const isolated = evaluator.updateCompilationParametersForIsolatedFormula.bind(evaluator);
  evaluator.updateCompilationParametersForIsolatedFormula = (origin) => {
    isolated(origin);
    extend();
  };
}

/** Reads cells beyond the end of a sheet as the blanks that they are to whoever wrote the formula. */
export const rangesBeyondSheets: Patch = {
  name: NAME,
  upstream:
    'A range ends with the sheet of the grid: ROWS(A1:A500) gives 84 on a sheet of 84 rows, INDEX finds nothing further down, and IFERROR of a cell beyond it goes round without end.',
  until: 'ranges reach as far as they say',
  apply: () => mendEvaluator(NAME, mend),
};
