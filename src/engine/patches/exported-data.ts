import type { Model, WorkbookData } from '@odoo/o-spreadsheet';
import { needParts } from './patch';

/**
 * What is on the grid as data. The library's own export also shortens repeated formulas, and throws where a
 * range of one cell (A1:A1) is followed by one of several. This is its step without the shortening, marked as
 * the library marks it. It can go when the library exports such a workbook.
 */
export function exportedData(model: Model): WorkbookData {
  needParts('exported-data', model, ['_exportData']);
  const whole = model as unknown as { _exportData(shorten: boolean): WorkbookData };
  return Object.assign(whole._exportData(false), { isNotSquishable: true });
}
