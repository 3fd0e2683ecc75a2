import { DEFAULT_LOCALE, helpers, type WorkbookData } from '@odoo/o-spreadsheet';
import { areaAddress, cellAddress, fullAddress } from '../plan/addresses';
import { seriesLook } from '../plan/looks';
import type {
  CellModel,
  ChartModel,
  LookId,
  NameModel,
  SheetModel,
  ValidationModel,
  WorkbookModel,
} from '../plan/workbook-model';
import { wrappedHeight } from '../plan/row-height';
import { engineFormula } from './engine-formula';
import { borderOf, formatOf, markStyle, styleOf } from './cell-styles';
import { inFigures } from './number-content';
import { workbenchLocale } from './locale';

type SheetData = WorkbookData['sheets'][number];
type Criterion = SheetData['dataValidationRules'][number]['criterion'];
type FigureData = SheetData['figures'][number];

/** The layout of data that this release of the engine reads without converting it. */
export const DATA_VERSION = '19.3';
const SPARE_ROWS = 30;
const SPARE_COLUMNS = 6;
/** Width of one character and of a cell's padding, and height of a row, in pixels of the grid. */
const CHARACTER = 7;
const PADDING = 9;
const ROW_HEIGHT = 23;

export const sheetId = (index: number, prefix = ''): string => `${prefix}sheet${index + 1}`;

/** A register has the looks of its cells; buttons to filter would cover its heads (see the Data menu). */
const registerLook = {
  hasFilters: false,
  numberOfHeaders: 1,
  totalRow: false,
  firstColumn: false,
  lastColumn: false,
  bandedRows: false,
  bandedColumns: false,
  styleId: 'None',
} as const;

/** Ids for styles, formats and the like, which the engine keeps apart from the cells. */
export class Palette<T> {
  private readonly ids = new Map<string, number>();
  readonly entries: Record<number, T> = {};

  idOf(entry: T): number {
    const key = JSON.stringify(entry);
    const known = this.ids.get(key);
    if (known !== undefined) return known;
    const id = this.ids.size + 1;
    this.ids.set(key, id);
    this.entries[id] = entry;
    return id;
  }
}

/** Ids of a sheet's cells, column by column. */
export type Ids = (number | undefined)[][];

/** Zones of a column whose cells carry the same entry, in the place of single cells. */
export function zonesOf(ids: Ids): Record<string, number> {
  const zones: Record<string, number> = {};
  ids.forEach((column, c) => {
    for (let row = 0; row < column.length;) {
      const id = column[row];
      const first = row;
      while (row < column.length && column[row] === id) row++;
      if (id === undefined) continue;
      zones[areaAddress({ row: first, column: c, rows: row - first, columns: 1 })] = id;
    }
  });
  return zones;
}

export const wouldBeConverted = (text: string): boolean =>
  /^[=']|^-?\d(?:\.\d+)?e[+-]?\d+$|^\s*(?:true|false)\s*$/i.test(text) ||
  helpers.isNumber(text, DEFAULT_LOCALE) ||
  helpers.isDateTime(text, DEFAULT_LOCALE) ||
  helpers.isEvaluationError(text);

/**
 * A cell's content as the engine reads it. A text that would be taken for something else (a number, a
 * date, a formula, an error) is marked as text.
 */
export function contentOf(cell: Pick<CellModel, 'formula' | 'value'>): string | undefined {
  if (cell.formula !== undefined) return `=${engineFormula(cell.formula)}`;
  if (typeof cell.value === 'boolean') return cell.value ? 'TRUE' : 'FALSE';
  if (typeof cell.value === 'number') return inFigures(cell.value);
  if (cell.value === undefined) return undefined;
  return wouldBeConverted(cell.value) ? `'${cell.value}` : cell.value;
}

/** The grid knows no rule for any number: it has one whose bound no number reaches. */
export const NO_BOUND = Number.MAX_SAFE_INTEGER;

function criterionOf(rule: ValidationModel['rule'], names: readonly NameModel[]): Criterion {
  switch (rule.kind) {
    case 'words':
      return { type: 'isValueInList', values: [...rule.words], displayStyle: 'arrow' };
    case 'list': {
      const named = names.find(({ name }) => name === rule.name);
      if (!named) throw new Error(`The plan has no name ${rule.name}`);
      const range = fullAddress(named.sheet, named.area);
      return { type: 'isValueInRange', values: [range], displayStyle: 'arrow' };
    }
    case 'date':
      return { type: 'dateIsValid', values: [] };
    case 'number':
    case 'whole': {
      const { min, max } = rule;
      if (min !== undefined && max !== undefined) {
        return { type: 'isBetween', values: [String(min), String(max)] };
      }
      if (min !== undefined) return { type: 'isGreaterOrEqualTo', values: [String(min)] };
      return { type: 'isLessOrEqualTo', values: [String(max ?? NO_BOUND)] };
    }
  }
}

/** Points to pixels of the screen. */
const PIXELS = 96 / 72;

/** Heights of rows with text over merged columns, which the grid would fit to the first column alone. */
const heightsOf = (sheet: SheetModel): SheetData['rows'] =>
  Object.fromEntries(
    [
      ...sheet.merges.flatMap(({ row, column, rows }) =>
        rows > 1 || typeof sheet.rows[row]?.[column]?.value !== 'string' ? [] : [row],
      ),
      ...Object.keys(sheet.minLines ?? {}).map(Number),
    ].map((row) => {
      const height = wrappedHeight(sheet, row, (_, r, c) => sheet.rows[r]?.[c]?.value) ?? 0;
      return [row, { size: Math.max(ROW_HEIGHT, Math.ceil(height * PIXELS)) }];
    }),
  );

const widthOf = (characters: number): number => Math.round(characters * CHARACTER + PADDING);
/** Width of a column in characters; without a size it is the grid's usual one. */
export const charactersOf = (size = 96): number => Math.round((size - PADDING) / CHARACTER);

/** A chart as the grid draws it; `pixels` is the width of a column. */
export function chartFigure(
  chart: ChartModel,
  id: string,
  pixels: (column: number) => number,
): FigureData {
  const isLine = chart.kind === 'line' || chart.kind === 'area';
  const dataSets = chart.series.map((series, i) => ({
    dataSetId: String(i),
    dataRange: fullAddress(series.sheet, series.area),
  }));
  const titled = (text: string | undefined): { title?: { text: string } } =>
    text === undefined ? {} : { title: { text } };
  const { row, column, rows, columns } = chart.place;
  const widths = Array.from({ length: columns }, (_, i) => pixels(column + i));
  return {
    id,
    tag: 'chart',
    row,
    col: column,
    offset: { x: 4, y: 4 },
    width: widths.reduce((sum, width) => sum + width, -8),
    height: rows * ROW_HEIGHT - 8,
    data: {
      chartId: id,
      type: chart.kind === 'scatter' ? 'scatter' : isLine ? 'line' : 'bar',
      title: { text: chart.title },
      dataSource: {
        type: 'range',
        dataSets,
        dataSetsHaveTitle: false,
        labelRange: fullAddress(chart.categories.sheet, chart.categories.area),
      },
      dataSetStyles: Object.fromEntries(
        chart.series.map((series, i) => [
          String(i),
          { label: series.name, backgroundColor: seriesLook(i).colour },
        ]),
      ),
      legendPosition: chart.series.length > 1 ? 'bottom' : 'none',
      axesDesign: { x: titled(chart.categoryTitle), y: titled(chart.valueTitle) },
      // An area in front of another would hide it.
      ...(chart.kind !== 'scatter' && {
        stacked: chart.kind === 'stackedColumn' || chart.kind === 'area',
      }),
      ...(chart.kind === 'scatter' && { labelsAsText: false }),
      ...(isLine && { labelsAsText: true, cumulative: false, fillArea: chart.kind === 'area' }),
    },
  };
}

/**
 * The plan as the engine's own data: one pass over the sheets, nothing computed yet.
 * `prefix` keeps the ids of sheets apart where they join others.
 */
export function gridFrom(model: WorkbookModel, prefix = ''): Partial<WorkbookData> {
  const styles = new Palette<WorkbookData['styles'][number]>();
  const formats = new Palette<string>();
  const borders = new Palette<WorkbookData['borders'][number]>();

  const known = new Map<string, { readonly style: number; readonly border?: number }>();
  const idsOf = (
    look: LookId,
    isMerged: boolean,
  ): { readonly style: number; readonly border?: number } => {
    const key = `${look} ${isMerged}`;
    let ids = known.get(key);
    if (!ids) {
      const border = borderOf(look);
      ids = {
        style: styles.idOf(styleOf(look, isMerged)),
        ...(border && { border: borders.idOf(border) }),
      };
      known.set(key, ids);
    }
    return ids;
  };

  const sheetData = (sheet: SheetModel, index: number): SheetData => {
    const data: SheetData = {
      id: sheetId(index, prefix),
      name: sheet.name,
      colNumber:
        Math.max(sheet.columnWidths.length, ...sheet.rows.map((row) => row.length)) + SPARE_COLUMNS,
      rowNumber:
        Math.max(sheet.rows.length, ...sheet.charts.map(({ place }) => place.row + place.rows)) +
        SPARE_ROWS,
      cells: {},
      styles: {},
      formats: {},
      borders: {},
      merges: sheet.merges.map(areaAddress),
      cols: Object.fromEntries(sheet.columnWidths.map((w, c) => [c, { size: widthOf(w) }])),
      rows: heightsOf(sheet),
      figures: sheet.charts.map((chart, i) =>
        chartFigure(chart, `${prefix}chart${index + 1}-${i}`, (column) =>
          widthOf(sheet.columnWidths[column] ?? 12),
        ),
      ),
      conditionalFormats: sheet.conditions.map((condition, i) => ({
        id: `${prefix}condition${index + 1}-${i}`,
        ranges: [areaAddress(condition.area)],
        rule: {
          type: 'CellIsRule',
          operator: 'customFormula',
          values: [`=${condition.formula}`],
          style: markStyle(condition.mark),
        },
      })),
      dataValidationRules: sheet.validations.map((validation, i) => ({
        id: `${prefix}validation${index + 1}-${i}`,
        ranges: [areaAddress(validation.area)],
        criterion: criterionOf(validation.rule, model.names),
        isBlocking: true,
      })),
      tables: sheet.tables.map((table) => ({
        range: areaAddress(table.area),
        type: 'static',
        config: registerLook,
      })),
      areGridLinesVisible: false,
      isVisible: true,
      ...(sheet.tabColour !== undefined && { color: sheet.tabColour }),
      ...(sheet.folded && {
        headerGroups: {
          ROW: [],
          COL: [
            {
              start: sheet.folded.column,
              end: sheet.folded.column + sheet.folded.columns - 1,
              isFolded: true,
            },
          ],
        },
      }),
      panes: { xSplit: sheet.frozen.columns, ySplit: sheet.frozen.rows },
    };
    const [styled, formatted, bordered] = [[], [], []] as [Ids, Ids, Ids];
    const put = (ids: Ids, r: number, c: number, id: number): void => {
      (ids[c] ??= [])[r] = id;
    };
    const merged = new Set(sheet.merges.map(({ row, column }) => cellAddress(row, column)));
    sheet.rows.forEach((row, r) =>
      row.forEach((cell, c) => {
        if (!cell) return;
        const address = cellAddress(r, c);
        const content = contentOf(cell);
        if (content !== undefined) data.cells[address] = content;
        const { style, border } = idsOf(cell.look, merged.has(address));
        put(styled, r, c, style);
        if (border !== undefined) put(bordered, r, c, border);
        const format = formatOf(cell.format ?? 'general');
        // In a cell of text format the mark would be shown as part of the text.
        const marked = content?.startsWith("'") === true && cell.format === 'text';
        if (format !== undefined && !marked) put(formatted, r, c, formats.idOf(format));
      }),
    );
    data.styles = zonesOf(styled);
    data.formats = zonesOf(formatted);
    data.borders = zonesOf(bordered);
    return data;
  };

  return {
    version: DATA_VERSION,
    sheets: model.sheets.map(sheetData),
    styles: styles.entries,
    formats: formats.entries,
    borders: borders.entries,
    settings: { locale: workbenchLocale },
    namedRanges: Object.fromEntries(
      model.names.map(({ name, sheet, area }) => [name, fullAddress(sheet, area)]),
    ),
  };
}
