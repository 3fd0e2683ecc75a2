import { Model, helpers, type WorkbookData } from '@odoo/o-spreadsheet';
import type { GillError } from '../../core/errors';
import type { WorkbookModel } from '../../plan/model';
import type { ComputedValues } from '../../plan/values';
import { gillError } from './engine-errors';
import { registerFunctions } from './engine-functions';
import { gridData, sheetId } from './grid-data';
import { quietly } from './quietly';

registerFunctions();

/** One cell of an answer. */
export interface Answer {
  /** Empty text for a blank. */
  readonly value: number | string | boolean | GillError;
  /** A serial that is shown as a date. */
  readonly isDate: boolean;
}

interface EngineCell {
  readonly value: number | string | boolean | null;
  readonly format?: string | undefined;
  readonly message?: string | undefined;
}

const valueOf = ({ value, message }: EngineCell): Answer['value'] =>
  typeof value === 'string' && helpers.isEvaluationError(value)
    ? gillError(value, message)
    : (value ?? '');

const answerOf = (cell: EngineCell): Answer => ({
  value: valueOf(cell),
  isDate: typeof cell.value === 'number' && helpers.isDateTimeFormat(cell.format ?? ''),
});

/** A workbook in the engine; for pages it is the one that the grid shows. */
export const engineModel = (data: Partial<WorkbookData>): Model => quietly(() => new Model(data));

let scratch: Model | undefined;

/** Computes one formula (with or without "=") that stands in no sheet: rows of cells. */
export function evaluate(formula: string): readonly (readonly Answer[])[] {
  scratch ??= engineModel({});
  const { getters } = scratch;
  const text = `=${formula.trim().replace(/^=/, '')}`;
  const result = quietly(() => getters.evaluateFormulaResult(getters.getActiveSheetId(), text));
  if (!Array.isArray(result)) return [[answerOf(result)]];
  const rows = result[0]?.length ?? 0;
  return Array.from({ length: rows }, (_, r) =>
    result.map((column) => answerOf(column[r] as EngineCell)),
  );
}

/** The plan as the data from which the engine and its grid make a workbook. */
export const gridFrom = (model: WorkbookModel): Partial<WorkbookData> => gridData(model);

/** Computes a whole plan; blank cells give undefined. */
export function computedValues(model: WorkbookModel): ComputedValues {
  const engine = engineModel(gridFrom(model));
  return (sheet, row, column) => {
    const index = model.sheets.findIndex(({ name }) => name === sheet);
    if (index < 0) throw new Error(`The plan has no sheet called "${sheet}"`);
    const cell = quietly(() =>
      engine.getters.getEvaluatedCell({ sheetId: sheetId(index), row, col: column }),
    );
    return cell.value === null ? undefined : valueOf(cell);
  };
}
