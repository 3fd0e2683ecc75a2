import type { Model, WorkbookData } from '@odoo/o-spreadsheet';
import { inFigures } from '../number-content';
import { needParts } from './patch';

/**
 * What is on the grid as data. The library's own export also shortens repeated formulas, and throws where a
 * range of one cell (A1:A1) is followed by one of several. This is its step without the shortening, marked as
 * the library marks it. It can go when the library exports such a workbook.
 */
export function exportedData(model: Model): WorkbookData {
  needParts('exported-data', model, ['_exportData']);
  const whole = model as unknown as { _exportData(shorten: boolean): WorkbookData };
  const data = whole._exportData(false);
  for (const { cells } of data.sheets) spellNumbers(cells as Record<string, string | undefined>);
  return Object.assign(data, { isNotSquishable: true });
}

const WITH_POWER = /^-?\d(?:\.\d+)?e[+-]\d+$/;

/** The library writes very large and small numbers in a way that it reads as texts. */
function spellNumbers(cells: Record<string, string | undefined>): void {
  for (const address in cells) {
    const content = cells[address];
    // A text of this form would stand behind an apostrophe.
    if (content !== undefined && WITH_POWER.test(content))
      cells[address] = inFigures(Number(content));
  }
}
