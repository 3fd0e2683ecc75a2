import {
  type Cell,
  type CellPosition,
  type Model,
  registries,
  type Style,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import { partly, type Steps } from '../../plan/in-steps';
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

/** Looks of cells by numbers, as the data of a workbook have them. */
export class LooksByNumber {
  readonly styles = new Palette<Style>();
  readonly formats = new Palette<string>();
}

/** A cell of the grid with its content as the grid reads it again. */
export interface ExportedCell {
  readonly cell: Cell;
  readonly position: CellPosition;
  readonly text: string;
}

/** Every cell of a sheet, in steps; what they look like as zones with numbers. */
export function* exportingCells(
  model: Model,
  sheetId: string,
  looks: LooksByNumber,
  look: (one: ExportedCell) => void,
): Steps<{ readonly styles: object; readonly formats: object }> {
  const { getters } = model;
  const plugin = cellPluginOf(model) as unknown as CellPlugin;
  needParts('exported-data', plugin, ['extractCustomStyle']);
  const [styled, formatted] = [[], []] as [Ids, Ids];
  const cells = getters.getCells(sheetId);
  for (let k = 0; k < cells.length; k++) {
    if (k % CELLS === 0) yield k / cells.length;
    const cell = cells[k] as Cell;
    const position = getters.getCellPosition(cell.id);
    const { col, row } = position;
    const text = cell.isFormula
      ? cell.compiledFormula.toFormulaString(getters)
      : spelled(cell.content);
    look({ cell, position, text });
    const style = cell.style && plugin.extractCustomStyle(cell);
    if (style && Object.keys(style).length > 0) put(styled, row, col, looks.styles.idOf(style));
    if (cell.format) put(formatted, row, col, looks.formats.idOf(cell.format));
  }
  yield 1;
  return { styles: zonesOf(styled), formats: zonesOf(formatted) };
}

/** As `exportedData`, in steps. */
export function* exportingData(model: Model): Steps<WorkbookData> {
  const data = exportedFrame(model);
  const looks = new LooksByNumber();
  const { sheets } = data;
  for (const [n, sheet] of sheets.entries()) {
    const cells: Record<string, string> = {};
    const exporting = exportingCells(model, sheet.id, looks, ({ position, text }) => {
      if (text !== '') cells[cellAddress(position.row, position.col)] = text;
    });
    const zones = yield* partly(exporting, n / sheets.length, (n + 1) / sheets.length);
    Object.assign(sheet, { cells, ...zones });
  }
  return Object.assign(data, { styles: looks.styles.entries, formats: looks.formats.entries });
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
