import type { Cell, CellPosition, Model } from '@odoo/o-spreadsheet';
import { cellAddress } from '../../plan/addresses';
import { mendEvaluator, needParts, type Patch } from './patch';

/** What a formula gave. */
export interface StoredResult {
  readonly value: number | string | boolean | null;
  readonly format?: string;
  readonly message?: string;
  /** The cell from which an error came. */
  readonly errorOriginPosition?: CellPosition;
}

/** What every formula of a workbook gave, by the id of its sheet and its address; a block column by column. */
export type StoredValues = Readonly<
  Record<string, Readonly<Record<string, StoredResult | readonly (readonly StoredResult[])[]>>>
>;

interface FormulaCell {
  readonly compiledFormula: object;
}

interface Evaluator {
  evaluateAllCells(): void;
  computeFormulaCell(position: CellPosition, cell: FormulaCell): object;
  invalidatePositionsDependingOnSpread(sheetId: string, zone: object): void;
}

const NAME = 'open-with-stored-values';

/** Has the first evaluation take what is stored for what a formula gives. */
function takeStored(evaluator: Evaluator, stored: StoredValues): void {
  const { evaluateAllCells, computeFormulaCell, invalidatePositionsDependingOnSpread } = evaluator;
  evaluator.evaluateAllCells = () => {
    try {
      evaluateAllCells.call(evaluator);
    } finally {
      Object.assign(evaluator, {
        evaluateAllCells,
        computeFormulaCell,
        invalidatePositionsDependingOnSpread,
      });
    }
  };
  // Blocks are as they were: nothing has to be computed again because of them.
  evaluator.invalidatePositionsDependingOnSpread = () => undefined;
  evaluator.computeFormulaCell = (position, cell) => {
    const result = stored[position.sheetId]?.[cellAddress(position.row, position.col)];
    if (result === undefined) return computeFormulaCell.call(evaluator, position, cell);
    const compiledFormula = { execute: () => result };
    return computeFormulaCell.call(evaluator, position, { ...cell, compiledFormula });
  };
}

/** Opens a workbook with the values that its formulas gave before. */
export const openWithStoredValues: Patch = {
  name: NAME,
  upstream: 'Every formula is computed before anything of a workbook shows.',
  until: 'the library opens a workbook with values that were computed before',
  apply: () =>
    mendEvaluator<Evaluator, { readonly custom: { readonly storedValues?: StoredValues } }>(
      NAME,
      (evaluator, { custom: { storedValues } }) => {
        needParts(NAME, evaluator, ['evaluateAllCells', 'computeFormulaCell']);
        needParts(NAME, evaluator, ['invalidatePositionsDependingOnSpread']);
        if (storedValues) takeStored(evaluator, storedValues);
      },
    ),
};

/** Functions whose value is another one on another day or try, or that find out what they read as they compute. */
export const UNSTEADY =
  /\b(?:TODAY|NOW|RAND|RANDARRAY|RANDBETWEEN|INDIRECT|OFFSET|PIVOT(?:\.\w+)?)\s*\(|#(?![A-Z])/i;

/** Errors that come from how cells stand to each other. */
const UNSTEADY_ERRORS: ReadonlySet<unknown> = new Set(['#SPILL!', '#CYCLE']);

type Getters = Model['getters'];

/** Whether a cell is a link: it is computed when it shows, since its value alone does not say where it leads. */
export const isLink = (getters: Getters, position: CellPosition): boolean =>
  getters.getEvaluatedCell(position).link !== undefined;

/** What a formula gives; undefined where it may give something else when the workbook is opened again. */
export function resultOf(
  getters: Getters,
  cell: Extract<Cell, { readonly isFormula: true }>,
  { sheetId, col, row }: CellPosition,
): StoredValues[string][string] | undefined {
  if (UNSTEADY.test(cell.compiledFormula.normalizedFormula)) return undefined;
  const resultAt = (col: number, row: number): StoredResult => {
    const evaluated = getters.getEvaluatedCell({ sheetId, col, row });
    const { value, format, message, errorOriginPosition } = evaluated as StoredResult;
    return {
      value,
      ...(format !== undefined && { format }),
      ...(message !== undefined && { message: String(message) }),
      ...(errorOriginPosition !== undefined && { errorOriginPosition }),
    };
  };
  const first = resultAt(col, row);
  if (UNSTEADY_ERRORS.has(first.value)) return undefined;
  const zone = getters.getSpreadZone({ sheetId, col, row });
  if (!zone || (zone.right === zone.left && zone.bottom === zone.top)) return first;
  return Array.from({ length: zone.right - zone.left + 1 }, (_, c) =>
    Array.from({ length: zone.bottom - zone.top + 1 }, (__, r) =>
      resultAt(zone.left + c, zone.top + r),
    ),
  );
}

/**
 * What every formula gives, for opening the same workbook again; undefined where a formula may give something
 * else then.
 */
export function storedValuesOf({ getters }: Model): StoredValues | undefined {
  const values: Record<string, Record<string, StoredValues[string][string]>> = {};
  for (const sheetId of getters.getSheetIds()) {
    const sheet: (typeof values)[string] = (values[sheetId] = {});
    for (const cell of getters.getCells(sheetId)) {
      if (!cell.isFormula) continue;
      const position = getters.getCellPosition(cell.id);
      if (isLink(getters, position)) continue;
      const result = resultOf(getters, cell, position);
      if (result === undefined) return undefined;
      sheet[cellAddress(position.row, position.col)] = result;
    }
  }
  return values;
}
