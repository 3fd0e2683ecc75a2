import { type Model, registries, type WorkbookData } from '@odoo/o-spreadsheet';
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

/**
 * What is on the grid beside its cells: sizes, merges, borders, rules, charts, names. Cells and their looks are
 * the most of a large workbook and are asked for one by one.
 */
export function exportedFrame(model: Model): WorkbookData {
  const { handlers } = model as unknown as { readonly handlers: readonly object[] };
  const CellPlugin = registries.corePluginRegistry.get('cell') as unknown as new () => object;
  const cells = handlers.find((one) => one instanceof CellPlugin);
  needParts('exported-data', cells, ['export']);
  const withoutCells = (data: WorkbookData): void => {
    for (const sheet of data.sheets) Object.assign(sheet, { styles: {}, formats: {}, cells: {} });
    Object.assign(data, { styles: {}, formats: {} });
  };
  try {
    Object.assign(cells ?? {}, { export: withoutCells });
    return exportedData(model);
  } finally {
    // The plugin's own method stands in its class.
    if (cells) Reflect.deleteProperty(cells, 'export');
  }
}

const WITH_POWER = /^-?\d(?:\.\d+)?e[+-]\d+$/;

/** A content that the library writes in a way in which it reads another one: very large and small numbers. */
export const spelled = (content: string): string =>
  // A text of this form would stand behind an apostrophe.
  WITH_POWER.test(content) ? inFigures(Number(content)) : content;

function spellNumbers(cells: Record<string, string | undefined>): void {
  for (const address in cells) {
    const content = cells[address];
    if (content !== undefined) cells[address] = spelled(content);
  }
}
