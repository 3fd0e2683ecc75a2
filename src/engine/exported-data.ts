import type { Model, WorkbookData } from '@odoo/o-spreadsheet';

/**
 * What is on the grid as data. The library's own export also shortens repeated formulas, and fails where
 * two of them use a name and a plain range in the same place; this is the step without the shortening,
 * marked as the library marks it.
 */
export function exportedData(model: Model): WorkbookData {
  const whole = model as unknown as { _exportData(shorten: boolean): WorkbookData };
  return Object.assign(whole._exportData(false), { isNotSquishable: true });
}
