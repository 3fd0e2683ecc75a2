import { computedValues } from '../../src/engine/engine';
import type { ComputedValues } from '../../src/plan/computed-values';
import type { WorkbookModel } from '../../src/plan/workbook-model';

const known = new WeakMap<WorkbookModel, ComputedValues>();

/** The computed values of a plan, computed once however many tests ask. */
export function valuesOf(model: WorkbookModel): ComputedValues {
  const values = known.get(model) ?? computedValues(model);
  known.set(model, values);
  return values;
}
