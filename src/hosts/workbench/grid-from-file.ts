import {
  DEFAULT_LOCALE,
  helpers,
  type Border,
  type Style,
  type WorkbookData,
} from '@odoo/o-spreadsheet';
import { engineFormula } from '../../engine/engine-formula';
import {
  chartFigure,
  DATA_VERSION,
  wouldBeConverted,
  Palette,
  zonesOf,
} from '../../engine/grid-data';
import { inFigures } from '../../engine/number-content';
import { workbenchLocale } from '../../engine/locale';
import type { StoredResult, StoredValues } from '../../engine/patches/open-with-stored-values';
import { displayedCalls } from '../../functions/gill-calls';
import { shownFormula } from '../../functions/stored-name';
import { withPlainRanges } from '../../ooxml/file-formula';
import { partly, type Steps } from '../../plan/in-steps';
import type { Package } from '../../ooxml/package';
import { childNamed, childrenNamed } from '../../ooxml/read-xml';
import { readFileCharts } from '../../ooxml/read-charts';
import { readStyles, type FileEdge, type FileStyle } from '../../ooxml/read-styles';
import { eachRow, readSheetCells, type SheetCell } from '../../ooxml/sheet-cells';
import {
  readLayout,
  rowLines,
  type FileRule,
  type Lines,
  type SheetLayout,
} from '../../ooxml/sheet-layout';
import { readingSharedTexts, sharedTexts, valueOf } from '../../ooxml/stored-cell';
import type { SheetPart, WorkbookParts } from '../../ooxml/workbook-parts';
import {
  areaAddress,
  fullAddress,
  readArea,
  sheetInFormula,
  splitSheet,
} from '../../plan/addresses';
import type { Area } from '../../plan/workbook-model';
import { type CellLook, type CellsOfFile, GatheredCells } from './gathered-cells';
import { Losses } from './losses';

type SheetData = WorkbookData['sheets'][number];
type Results = Record<string, StoredResult | readonly (readonly StoredResult[])[]>;

/** The id on the grid of the n-th sheet of a file. */
export const fileSheetId = (index: number): string => `file-${index + 1}`;

/** The id of the empty sheet that the grid has where a file holds none with cells. */
export const SPARE_SHEET = 'spare-sheet';

/** Cells that a sheet of the grid shows at most: it draws and computes over the whole of its sheets. */
const MAX_CELLS = 1_500_000;
const MAX_COLUMNS = 1_000;
/** A named range further down is a whole column to whoever named it. */
const MAX_NAMED_ROWS = 20_000;
const SPARE_ROWS = 30;
const SPARE_COLUMNS = 6;
/** Characters in a column that a file gives no width. */
const USUAL_WIDTH = 8.43;
/** Days between the two calendars in which files count days. */
export const DAYS_TO_1904 = 1462;

export interface FileGrid {
  readonly data: Partial<WorkbookData>;
  /** What the formulas gave when the file was saved. */
  readonly stored: StoredValues;
  /** What the file has that the grid does not show; it stays in the file. */
  readonly hidden: Losses;
  /** Whether it has charts or pictures that the grid does not draw. */
  readonly hasUndrawn: boolean;
}

/** Signs that the grid takes in no sheet name. */
const FORBIDDEN = /['*?/\\[\]]/g;

/** Names of the sheets on the grid, which takes fewer signs than a file. */
export function gridNames(book: WorkbookParts): ReadonlyMap<string, string> {
  const taken = new Set(book.sheets.map(({ name }) => name.toLowerCase()));
  return new Map(
    book.sheets.map(({ name }) => {
      const bare = name.replace(FORBIDDEN, '');
      if (bare === name && name !== '') return [name, name];
      let free = bare || 'Sheet';
      for (let n = 2; taken.has(free.toLowerCase()); n++) free = `${bare || 'Sheet'} ${n}`;
      taken.add(free.toLowerCase());
      return [name, free];
    }),
  );
}

/** Formats that the grid cannot draw show the bare value. */
const drawable = new Map<string, boolean>();
function canDraw(format: string): boolean {
  let known = drawable.get(format);
  if (known === undefined) {
    try {
      for (const value of [45123.75, -1.5, 0]) {
        helpers.formatValue(value, { format, locale: DEFAULT_LOCALE });
      }
      known = true;
    } catch {
      known = false;
    }
    drawable.set(format, known);
  }
  return known;
}

const edgeStyles: Readonly<Record<string, NonNullable<Border['top']>['style']>> = {
  hair: 'dotted',
  dotted: 'dotted',
  thin: 'thin',
  medium: 'medium',
  thick: 'thick',
  double: 'thick',
};
const edge = ({ style, colour }: FileEdge) => ({
  style: edgeStyles[style] ?? 'dashed',
  color: colour,
});

export function gridBorder({ edges }: FileStyle): Border | undefined {
  return (
    edges &&
    Object.fromEntries(Object.entries(edges).map(([side, fileEdge]) => [side, edge(fileEdge)]))
  );
}

const verticals: Readonly<Record<string, Style['verticalAlign']>> = {
  top: 'top',
  center: 'middle',
  bottom: 'bottom',
};

export function gridStyle(style: FileStyle): Style {
  const { horizontal = '', vertical = '' } = style;
  const align = (['left', 'center', 'right'] as const).find((side) => side === horizontal);
  return {
    ...(style.bold && { bold: true }),
    ...(style.italic && { italic: true }),
    ...(style.underline && { underline: true }),
    ...(style.strike && { strikethrough: true }),
    ...(style.size !== undefined && style.size !== 11 && { fontSize: Math.round(style.size) }),
    ...(style.colour !== undefined && { textColor: style.colour }),
    ...(style.fill !== undefined && { fillColor: style.fill }),
    ...(align && { align }),
    ...(verticals[vertical] && vertical !== 'bottom' && { verticalAlign: verticals[vertical] }),
    ...(style.wrap && { wrapping: 'wrap' as const }),
  };
}

/** As long as a text of the file format may be; longer ones are made to fill the memory. */
const LONGEST_TEXT = 32_767;

/** What stands in a cell of the grid for a value of a file: its type is kept, whatever it looks like. */
export function gridContent(value: number | string | boolean, isError: boolean): string {
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'number') return inFigures(value);
  if (isError) return value;
  if (value.length > LONGEST_TEXT) return `'${value.slice(0, LONGEST_TEXT)}`;
  return value === '' ? '' : wouldBeConverted(value) ? `'${value}` : value;
}

interface Reading {
  readonly file: Package;
  readonly book: WorkbookParts;
  readonly texts: readonly string[];
  readonly names: ReadonlyMap<string, string>;
  readonly hidden: Losses;
  readonly styles: readonly FileStyle[];
  readonly marks: readonly FileStyle[];
  readonly styleIds: Palette<Style>;
  readonly formatIds: Palette<string>;
  readonly borderIds: Palette<Border>;
  hasUndrawn: boolean;
}

/** Replaces the names of sheets that the grid calls by another one. */
function renamedSheets(formula: string, names: ReadonlyMap<string, string>): string {
  let text = formula;
  for (const [name, free] of names) {
    if (name !== free)
      text = text.replaceAll(`${sheetInFormula(name)}!`, `${sheetInFormula(free)}!`);
  }
  return text;
}

/** A formula of the file as the grid reads it. */
export function gridFormula(
  formula: string,
  sheet: string,
  cell: { readonly row: number; readonly column: number },
  { book, names }: Pick<Reading, 'book' | 'names'>,
): string {
  const plain = withPlainRanges(formula, sheet, cell, book, knownNames(book, names));
  return `=${renamedSheets(engineFormula(shownFormula(displayedCalls(plain))), names)}`;
}

const isDate = (format: string | undefined): boolean =>
  format !== undefined && canDraw(format) && helpers.isDateTimeFormat(format);

/** A value as the grid counts it: its days begin in 1900. */
const shifted = (value: number | string | boolean, style: FileStyle, book: WorkbookParts) =>
  book.date1904 && typeof value === 'number' && isDate(style.format) ? value + DAYS_TO_1904 : value;

const KNOWN_ERRORS = new Set([
  ...['#VALUE!', '#N/A', '#NUM!', '#DIV/0!', '#REF!', '#NAME?', '#NULL!', '#CALC!', '#BUSY!'],
]);

type Stored = Pick<Reading, 'texts' | 'styles' | 'book'>;

/** A cell's value and whether it is an error; undefined for a blank. */
function storedOf(
  cell: SheetCell,
  { texts, styles, book }: Stored,
): { value: number | string | boolean; isError: boolean } | undefined {
  const value = valueOf(cell, texts);
  if (value === '' && cell.type !== 'str') return undefined;
  const style = styles[Number(cell.element.attributes['s'] ?? 0)] ?? {};
  const isError = cell.type === 'e' && typeof value === 'string' && KNOWN_ERRORS.has(value);
  if (cell.type === 'd' && typeof value === 'string') {
    const day = Date.parse(/Z|[+-]\d\d:\d\d$/.test(value) ? value : `${value}Z`);
    if (Number.isFinite(day)) return { value: day / 86_400_000 + 25_569, isError: false };
  }
  return { value: shifted(value, style, book), isError };
}

/** How far a sheet of the grid reaches, and whether that is all of it. */
function bounds({ rows, columns }: Size) {
  const shownColumns = Math.min(columns, MAX_COLUMNS);
  const shownRows = Math.min(rows, Math.floor(MAX_CELLS / (shownColumns + SPARE_COLUMNS)));
  return {
    rows: shownRows,
    columns: shownColumns,
    all: rows === shownRows && columns === shownColumns,
  };
}

const within = ({ rows, columns }: { rows: number; columns: number }, area: Area): boolean =>
  area.row + area.rows <= rows && area.column + area.columns <= columns;

const styleOf = (cell: SheetCell): number => Number(cell.element.attributes['s'] ?? 0);

/** What a formula gave when the file was saved. */
function resultOf(cell: SheetCell, stored: Stored): StoredResult {
  const found = storedOf(cell, stored);
  if (!found) return { value: '' };
  const format = stored.styles[styleOf(cell)]?.format;
  // A number in a cell for texts is a number all the same.
  const isDrawn = format !== undefined && canDraw(format);
  const isOfText = format === '@' && typeof found.value !== 'string';
  return { value: found.value, ...(isDrawn && !isOfText && { format }) };
}

/** What formulas of a file gave when it was saved, by their cells; undefined where it does not say. */
export function resultsOfFile(
  file: Package,
  book: WorkbookParts,
): (cell: SheetCell) => StoredResult | undefined {
  const stored = {
    book,
    texts: sharedTexts(file, book.part),
    styles: readStyles(file, book.part).cells,
  };
  return (cell) =>
    cell.value === undefined && cell.type !== 'inlineStr' ? undefined : resultOf(cell, stored);
}

/** The looks of a file's cells by the numbers of its styles. */
function looksOf({ styles, styleIds, borderIds, formatIds }: Reading): (s: number) => CellLook {
  const known = new Map<number, CellLook>();
  return (s) => {
    let look = known.get(s);
    if (!look) {
      const style = styles[s] ?? {};
      const onGrid = gridStyle(style);
      const border = gridBorder(style);
      const { format } = style;
      look = {
        ...(Object.keys(onGrid).length > 0 && { style: styleIds.idOf(onGrid) }),
        ...(border && { border: borderIds.idOf(border) }),
        ...(format !== undefined && canDraw(format) && { format: formatIds.idOf(format) }),
        isTextFormat: format === '@',
      };
      known.set(s, look);
    }
    return look;
  };
}

/** The cells of one sheet as the grid has them. */
function cellsOf(reading: Reading, sheet: SheetPart): CellsOfFile {
  const look = looksOf(reading);
  /** Texts that cells share, once as the grid writes them. */
  const shared: ({ readonly text: string; readonly isText: boolean } | undefined)[] = [];
  const content = (cell: SheetCell) => {
    const found = storedOf(cell, reading);
    if (!found) return undefined;
    const text = gridContent(found.value, found.isError);
    return { text, isText: typeof found.value === 'string' && !text.startsWith("'") };
  };
  return {
    look: (cell) => look(styleOf(cell)),
    formula: (cell) => gridFormula(cell.formula ?? '', sheet.name, cell, reading),
    content: (cell) =>
      cell.type === 's' ? (shared[Number(cell.value ?? -1)] ??= content(cell)) : content(cell),
    result: (cell) => resultOf(cell, reading),
  };
}

/** All that is gathered of a sheet while its rows are read. */
function* gathered(reading: Reading, sheet: SheetPart) {
  const { file } = reading;
  const cells = cellsOf(reading, sheet);
  let gatheredCells = new GatheredCells(cells);
  const lines: Lines[] = [];
  const { root } = yield* eachRow(file, sheet.part, (row) => {
    gatheredCells.add(row);
    lines.push(...rowLines(row.element));
  });
  if (!gatheredCells.inOrder) {
    const all = readSheetCells(file, sheet.part).rows.flatMap((row) => row.cells);
    file.forget(sheet.part);
    const byRow = new Map<number, SheetCell[]>();
    for (const cell of all) byRow.set(cell.row, [...(byRow.get(cell.row) ?? []), cell]);
    gatheredCells = new GatheredCells(cells);
    for (const [row, list] of [...byRow].sort(([a], [b]) => a - b)) {
      gatheredCells.add({ row, cells: list.sort((a, b) => a.column - b.column) });
    }
  }
  return { gatheredCells, layout: readLayout(root), lines };
}

function* sheetData(
  reading: Reading,
  sheet: SheetPart,
  index: number,
): Steps<{ data: SheetData; stored: Results }> {
  const { names, hidden } = reading;
  const { gatheredCells: cells, layout, lines } = yield* gathered(reading, sheet);
  const name = names.get(sheet.name) ?? sheet.name;
  const shown = bounds(cells);
  if (!shown.all) {
    hidden.add('Cells very far out are not shown on the grid', sheet.name);
  }
  const named = namedReach(reading, sheet.name);
  const figures = chartsOf(reading, sheet, layout, index);
  const frozen = frozenOf(layout);
  const size = {
    rows: Math.max(shown.rows + SPARE_ROWS, frozen.rows + 2, named.rows),
    columns: Math.max(shown.columns + SPARE_COLUMNS, frozen.columns + 2, named.columns),
  };
  cells.keepWithin(size.rows, size.columns);
  yield 1;
  const styles = zonesOf(cells.styles);
  yield 1;
  const formats = zonesOf(cells.formats);
  yield 1;
  const borders = zonesOf(cells.borders);
  yield 1;
  const data = {
    id: fileSheetId(index),
    name,
    colNumber: size.columns,
    rowNumber: size.rows,
    cells: cells.contents,
    styles,
    formats,
    borders,
    merges: mergesOf(layout, size),
    cols: columnSizes(layout, size.columns),
    rows: rowSizes(lines, size.rows),
    figures,
    conditionalFormats: conditionsOf(reading, sheet, layout, index, size),
    dataValidationRules: validationsOf(reading, sheet, layout, index, size),
    tables: [],
    areGridLinesVisible: layout.gridLines,
    isVisible: !sheet.hidden,
    panes: { xSplit: frozen.columns, ySplit: frozen.rows },
  } as unknown as SheetData;
  return { data, stored: cells.stored };
}

/** More than fits on a screen by far: the grid does not freeze it, the file keeps it. */
const MAX_FROZEN = { rows: 1_000, columns: 100 };

function frozenOf({ frozen }: SheetLayout): SheetLayout['frozen'] {
  const isFar = frozen.rows > MAX_FROZEN.rows || frozen.columns > MAX_FROZEN.columns;
  return isFar || !Number.isFinite(frozen.rows + frozen.columns) ? { rows: 0, columns: 0 } : frozen;
}

/** How far down and to the right the grid draws a chart; further ones stay in the file. */
const FURTHEST = { row: 5_000, column: 200 };

/** The charts of a sheet that the grid can draw from the cells they show. */
function chartsOf(
  reading: Reading,
  sheet: SheetPart,
  layout: SheetLayout,
  index: number,
): ReturnType<typeof chartFigure>[] {
  const { charts, others } = readFileCharts(reading.file, sheet.part);
  if (others) reading.hasUndrawn = true;
  const sourceOf = (text: string) => {
    const { sheet: on, address } = splitSheet(rangeOn(text, sheet.name, reading) ?? '');
    const area = readArea(address);
    return on !== undefined && area ? { sheet: on, area } : undefined;
  };
  const pixels = (column: number): number =>
    columnPixels(
      layout.columns.find(({ first, last }) => first <= column && column <= last)?.size ??
        USUAL_WIDTH,
    );
  return charts.flatMap((chart, n) => {
    const { kind, place } = chart;
    const categories = sourceOf(chart.categories);
    const series = chart.series.flatMap(({ name, values }) => {
      const source = sourceOf(values);
      return source ? [{ name, ...source }] : [];
    });
    const isFar = place.row > FURTHEST.row || place.column > FURTHEST.column;
    if (
      !kind ||
      !categories ||
      series.length < chart.series.length ||
      series.length === 0 ||
      isFar
    ) {
      reading.hasUndrawn = true;
      return [];
    }
    return [
      chartFigure({ ...chart, kind, categories, series }, `file-chart-${index + 1}-${n}`, pixels),
    ];
  });
}

/** As far as the named ranges of a sheet reach, where that is no whole column or row. */
function namedReach({ book, names }: Reading, sheet: string): Size {
  const onGrid = names.get(sheet) ?? sheet;
  let [rows, columns] = [0, 0];
  for (const range of Object.values(gridRanges(book, names))) {
    const { sheet: of, address } = splitSheet(range);
    const area = readArea(address);
    if (of !== onGrid || !area) continue;
    const [bottom, right] = [area.row + area.rows, area.column + area.columns];
    if (bottom > MAX_NAMED_ROWS || right > MAX_COLUMNS) continue;
    rows = Math.max(rows, bottom);
    columns = Math.max(columns, right);
  }
  return { rows, columns };
}

interface Size {
  readonly rows: number;
  readonly columns: number;
}

/** Merges that fit on the sheet and lie apart from each other, as the grid wants them. */
export function mergesOf({ merges }: Pick<SheetLayout, 'merges'>, size: Size): string[] {
  const kept: Area[] = [];
  const apart = (a: Area, b: Area): boolean =>
    a.row + a.rows <= b.row ||
    b.row + b.rows <= a.row ||
    a.column + a.columns <= b.column ||
    b.column + b.columns <= a.column;
  for (const area of merges) {
    if (area.rows * area.columns < 2 || !within(size, area)) continue;
    if (merges.length < 5_000 && !kept.every((other) => apart(other, area))) continue;
    kept.push(area);
  }
  return kept.map(areaAddress);
}

/** Pixels of the grid for a width in characters and a height in points. */
export const columnPixels = (characters: number): number =>
  Math.max(1, Math.round(characters * 7 + 5));
export const rowPixels = (points: number): number => Math.max(1, Math.round((points * 96) / 72));

function columnSizes({ columns }: SheetLayout, count: number): SheetData['cols'] {
  const sizes: Record<number, { size?: number; isHidden?: boolean }> = {};
  for (const { first, last, size, hidden } of columns) {
    for (let column = Math.max(0, first); column <= Math.min(last, count - 1); column++) {
      sizes[column] = {
        ...(size !== undefined && size > 0 && { size: columnPixels(size) }),
        ...((hidden || size === 0) && { isHidden: true }),
      };
    }
  }
  if (allHidden(sizes, count)) return {};
  return sizes as SheetData['cols'];
}

/** The grid cannot hide everything. */
const allHidden = (sizes: Record<number, { isHidden?: boolean }>, count: number): boolean =>
  Object.values(sizes).filter(({ isHidden }) => isHidden).length >= count;

function rowSizes(rows: readonly Lines[], count: number): SheetData['rows'] {
  const sizes: Record<number, { size?: number; isHidden?: boolean }> = {};
  for (const { first, size, hidden } of rows) {
    if (first >= count) continue;
    sizes[first] = {
      ...(size !== undefined && size > 0 && { size: rowPixels(size) }),
      ...((hidden || size === 0) && { isHidden: true }),
    };
  }
  return (allHidden(sizes, count) ? {} : sizes) as SheetData['rows'];
}

const comparisons: Readonly<Record<string, string>> = {
  equal: 'isEqual',
  notEqual: 'isNotEqual',
  greaterThan: 'isGreaterThan',
  greaterThanOrEqual: 'isGreaterOrEqualTo',
  lessThan: 'isLessThan',
  lessThanOrEqual: 'isLessOrEqualTo',
  between: 'isBetween',
  notBetween: 'isNotBetween',
};

const firstCell = ({ areas }: FileRule) => areas[0] ?? { row: 0, column: 0 };

/** A value of a rule as the grid takes it: a number, a text, or a formula. */
function ruleValue(text: string, sheet: SheetPart, rule: FileRule, reading: Reading): string {
  if (/^-?\d+(\.\d+)?$/.test(text)) return text;
  const quoted = /^"((?:[^"]|"")*)"$/.exec(text)?.[1];
  if (quoted !== undefined) return quoted.replaceAll('""', '"');
  return gridFormula(text, sheet.name, firstCell(rule), reading);
}

function conditionsOf(
  reading: Reading,
  sheet: SheetPart,
  { conditions }: SheetLayout,
  index: number,
  size: Size,
): object[] {
  return conditions.flatMap((rule, n): object[] => {
    const ranges = rule.areas.filter((area) => within(size, area)).map(areaAddress);
    const mark = reading.marks[Number(rule.attributes['dxfId'] ?? -1)];
    const operator =
      rule.type === 'expression'
        ? 'customFormula'
        : rule.type === 'cellIs'
          ? comparisons[rule.operator]
          : undefined;
    if (operator === undefined || !mark || ranges.length === 0 || rule.formulas.length === 0) {
      reading.hidden.add('Some conditional formats are not drawn on the grid', sheet.name);
      return [];
    }
    const values =
      rule.type === 'expression'
        ? [gridFormula(rule.formulas[0] ?? '', sheet.name, firstCell(rule), reading)]
        : rule.formulas.map((text) => ruleValue(text, sheet, rule, reading));
    return [
      {
        id: `file-condition-${index + 1}-${n}`,
        ranges,
        rule: { type: 'CellIsRule', operator, values, style: gridStyle(mark) },
      },
    ];
  });
}

function validationsOf(
  reading: Reading,
  sheet: SheetPart,
  { validations }: SheetLayout,
  index: number,
  size: Size,
): object[] {
  return validations.flatMap((rule, n): object[] => {
    const ranges = rule.areas.filter((area) => within(size, area)).map(areaAddress);
    const criterion = criterionOf(rule, sheet, reading);
    if (!criterion || ranges.length === 0) {
      if (rule.type !== 'none') {
        reading.hidden.add('Some rules for what may be typed are not kept by the grid', sheet.name);
      }
      return [];
    }
    const isBlocking =
      (rule.attributes['errorStyle'] ?? 'stop') === 'stop' &&
      ['1', 'true'].includes(rule.attributes['showErrorMessage'] ?? '0');
    return [{ id: `file-validation-${index + 1}-${n}`, ranges, criterion, isBlocking }];
  });
}

function criterionOf(rule: FileRule, sheet: SheetPart, reading: Reading): object | undefined {
  const [first = ''] = rule.formulas;
  if (rule.type === 'list') {
    const words = /^"((?:[^"]|"")*)"$/.exec(first)?.[1];
    if (words !== undefined) {
      return {
        type: 'isValueInList',
        values: words
          .replaceAll('""', '"')
          .split(',')
          .map((word) => word.trim()),
        displayStyle: 'arrow',
      };
    }
    const named = reading.book.names.find(
      ({ name, sheet: of }) =>
        name.toLowerCase() === first.toLowerCase() && (of === undefined || of === sheet.name),
    );
    const range = rangeOn(named?.text ?? first, sheet.name, reading);
    return range === undefined
      ? undefined
      : { type: 'isValueInRange', values: [range], displayStyle: 'arrow' };
  }
  const operator = comparisons[rule.operator];
  if (!['whole', 'decimal'].includes(rule.type) || operator === undefined) return undefined;
  if (!rule.formulas.every((text) => Number.isFinite(Number(text))) || first === '')
    return undefined;
  return { type: operator, values: rule.formulas };
}

/** A plain range with its sheet as the grid calls it. */
function rangeOn(
  text: string,
  here: string,
  { book, names }: Pick<Reading, 'book' | 'names'>,
): string | undefined {
  const { sheet = here, address } = splitSheet(text);
  const area = readArea(address);
  const known = book.sheets.find(({ name }) => name.toLowerCase() === sheet.toLowerCase());
  if (!area || !known || area.row < 0) return undefined;
  return fullAddress(names.get(known.name) ?? known.name, area);
}

/** Names for the whole workbook that stand for a plain range, as the grid takes them. */
export function gridRanges(
  book: WorkbookParts,
  names: ReadonlyMap<string, string>,
): Record<string, string> {
  const out: Record<string, string> = {};
  for (const { name, text, sheet } of book.names) {
    if (name.startsWith('_xlnm.') || sheet !== undefined || !/^[\p{L}\p{N}_.]+$/u.test(name))
      continue;
    const range = rangeOn(text, '', { book, names });
    if (range !== undefined) out[name] = range;
  }
  return out;
}

/** The grid needs a sheet; it goes into the file once something stands in it. */
function spareSheet({ root }: WorkbookParts): SheetData {
  const taken = new Set(
    childrenNamed(childNamed(root, 'sheets'), 'sheet').map(({ attributes }) =>
      attributes['name']?.toLowerCase(),
    ),
  );
  let n = 1;
  while (taken.has(`sheet${n}`)) n += 1;
  return {
    ...{ id: SPARE_SHEET, name: `Sheet${n}`, cells: {}, styles: {}, formats: {}, borders: {} },
    ...{ colNumber: 26, rowNumber: 100, merges: [], cols: {}, rows: {}, figures: [], tables: [] },
    ...{ conditionalFormats: [], dataValidationRules: [] },
    ...{ areGridLinesVisible: true, isVisible: true },
  } as unknown as SheetData;
}

const known = new WeakMap<WorkbookParts, ReadonlySet<string>>();

/** Names that the grid knows, in small letters. */
function knownNames(book: WorkbookParts, names: ReadonlyMap<string, string>): ReadonlySet<string> {
  let found = known.get(book);
  if (!found) {
    found = new Set(Object.keys(gridRanges(book, names)).map((name) => name.toLowerCase()));
    known.set(book, found);
  }
  return found;
}

/** What the texts that cells share are of the whole reading, about. */
const TEXTS = 0.1;

/** A workbook of any writer for the grid, each value with its type as in the file. */
export function* gridFromFile(file: Package, book: WorkbookParts): Steps<FileGrid> {
  const { cells, marks } = readStyles(file, book.part);
  const names = gridNames(book);
  const reading: Reading = {
    file,
    book,
    names,
    marks,
    styles: cells,
    texts: yield* partly(readingSharedTexts(file, book.part), 0, TEXTS),
    hidden: new Losses(),
    hasUndrawn: false,
    styleIds: new Palette<Style>(),
    formatIds: new Palette<string>(),
    borderIds: new Palette<Border>(),
  };
  for (const [name, free] of names) {
    if (name !== free) {
      reading.hidden.add(
        `The sheet "${name}" is called "${free}" on the grid, which takes no apostrophe`,
      );
    }
  }
  const stored: Record<string, Results> = {};
  const sheets: SheetData[] = [];
  const whole = book.sheets.reduce((sum, { part }) => sum + file.length(part), 1);
  const share = (letters: number): number => TEXTS + (1 - TEXTS) * (letters / whole);
  let done = 0;
  for (const [index, sheet] of book.sheets.entries()) {
    const end = done + file.length(sheet.part);
    const read = yield* partly(sheetData(reading, sheet, index), share(done), share(end));
    done = end;
    stored[fileSheetId(index)] = read.stored;
    sheets.push(read.data);
    file.forget(sheet.part);
  }
  if (sheets.length === 0) sheets.push(spareSheet(book));
  const ranges = Object.entries(gridRanges(book, names)).filter(([, range]) => {
    const { sheet, address } = splitSheet(range);
    const area = readArea(address);
    const on = sheets.find(({ name }) => name === sheet);
    return area && on && within({ rows: on.rowNumber, columns: on.colNumber }, area);
  });
  if (!sheets.some(({ isVisible }) => isVisible) && sheets[0]) sheets[0].isVisible = true;
  return {
    data: {
      version: DATA_VERSION,
      sheets,
      styles: reading.styleIds.entries,
      formats: reading.formatIds.entries,
      borders: reading.borderIds.entries,
      settings: { locale: workbenchLocale },
      namedRanges: Object.fromEntries(ranges),
    } as Partial<WorkbookData>,
    stored,
    hidden: reading.hidden,
    hasUndrawn: reading.hasUndrawn,
  };
}
