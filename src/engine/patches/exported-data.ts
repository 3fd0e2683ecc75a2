import {
  type Cell,
  type Model,
  registries,
  type Style,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import type { Steps } from '../../plan/in-steps';
import { cellAddress } from '../../plan/addresses';
import { type Ids, Palette, zonesOf } from '../grid-data';
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

function cellPluginOf(model: Model): object | undefined {
  const { handlers } = model as unknown as { readonly handlers: readonly object[] };
  const Plugin = registries.corePluginRegistry.get('cell') as unknown as new () => object;
  return handlers.find((handler) => handler instanceof Plugin);
}

/**
 * What is on the grid beside its cells: sizes, merges, borders, rules, charts, names. Cells and their looks are
 * the most of a large workbook and are asked for one by one.
 */
export function exportedFrame(model: Model): WorkbookData {
  const cells = cellPluginOf(model);
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

interface CellPlugin {
  extractCustomStyle(cell: Cell): Style;
}

function put(ids: Ids, row: number, column: number, id: number): void {
  (ids[column] ??= [])[row] = id;
}

/** So many cells are looked at in one step. */
const CELLS = 1_000;

/** As `exportedData`, in steps. */
export function* exportingData(model: Model): Steps<WorkbookData> {
  const data = exportedFrame(model);
  const { getters } = model;
  const plugin = cellPluginOf(model) as unknown as CellPlugin;
  needParts('exported-data', plugin, ['extractCustomStyle']);
  const [styles, formats] = [new Palette<Style>(), new Palette<string>()];
  for (const [n, sheet] of data.sheets.entries()) {
    const contents: Record<string, string> = {};
    const [styled, formatted] = [[], []] as [Ids, Ids];
    const cells = getters.getCells(sheet.id);
    for (const [k, cell] of cells.entries()) {
      if (k % CELLS === 0) yield (n + k / cells.length) / data.sheets.length;
      const { col, row } = getters.getCellPosition(cell.id);
      const text = cell.isFormula
        ? cell.compiledFormula.toFormulaString(getters)
        : spelled(cell.content);
      if (text !== '') contents[cellAddress(row, col)] = text;
      const style = cell.style && plugin.extractCustomStyle(cell);
      if (style && Object.keys(style).length > 0) put(styled, row, col, styles.idOf(style));
      if (cell.format) put(formatted, row, col, formats.idOf(cell.format));
    }
    yield (n + 1) / data.sheets.length;
    Object.assign(sheet, { cells: contents, styles: zonesOf(styled), formats: zonesOf(formatted) });
  }
  return Object.assign(data, { styles: styles.entries, formats: formats.entries });
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
