/**
 * The spreadsheet engine with every GILL function and the units in it. What needs neither units nor
 * sheets, and must start quickly, imports `evaluate` from its own file.
 */
import { Model } from '@odoo/o-spreadsheet';
import type { WorkbookModel } from '../plan/workbook-model';
import type { ComputedValues } from '../plan/computed-values';
import { registerFunctions } from './engine-functions';
import { valueOf } from './evaluate-formula';
import { gridFrom, sheetId } from './grid-data';
import { quietly } from './quietly';

registerFunctions();

export { evaluate, type Answer } from './evaluate-formula';
export { gridFrom };

/** Computes a whole plan; blank cells give undefined. */
export function computedValues(model: WorkbookModel): ComputedValues {
  const engine = quietly(() => new Model(gridFrom(model)));
  const ids = new Map(model.sheets.map(({ name }, index) => [name, sheetId(index)]));
  return (sheet, row, column) => {
    const id = ids.get(sheet);
    if (id === undefined) throw new Error(`The plan has no sheet called "${sheet}"`);
    const cell = quietly(() => engine.getters.getEvaluatedCell({ sheetId: id, row, col: column }));
    return cell.value === null ? undefined : valueOf(cell);
  };
}
