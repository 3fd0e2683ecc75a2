import { columnLetters } from '../../functions/cell-address';
import { areaAddress, cellAddress } from '../../plan/addresses';
import {
  type Area,
  repeatedColumns,
  type SheetModel,
  type ValidationModel,
} from '../../plan/workbook-model';
import { wrappedHeight } from '../../plan/row-height';
import { typedCell } from './cell-text';
import { writeChart } from './chart-writer';
import { applyGround, applyLook, applyMark, formatCode, type Shape, shapes } from './look-writer';
import { rectanglesByKey } from './rectangles';
import { type Pieces, weight } from './requests';

/** What newer Excel versions add. */
export interface Abilities {
  /** Notes on cells (ExcelApi 1.18). */
  readonly notes: boolean;
}

// Excel takes a list of areas as text of at most 8192 characters.
const MAX_ADDRESS_LENGTH = 4000;

function* addressLists(areas: readonly Area[]): Generator<string> {
  let list = '';
  for (const area of areas) {
    const address = areaAddress(area);
    if (list.length + address.length > MAX_ADDRESS_LENGTH) {
      yield list;
      list = '';
    }
    list += list ? `,${address}` : address;
  }
  if (list) yield list;
}

/** Areas by whether they have inner edges: Excel refuses to draw those that a range has not. */
function byShape(areas: readonly Area[]): Map<Shape, Area[]> {
  const groups = new Map<Shape, Area[]>();
  for (const area of areas) {
    const shape = shapes.find(
      (shape) => shape.tall === area.rows > 1 && shape.wide === area.columns > 1,
    ) as Shape;
    groups.set(shape, [...(groups.get(shape) ?? []), area]);
  }
  return groups;
}

/** Cells that are only written to: Excel need not keep them for the next request. */
const cellsOf = (
  sheet: Excel.Worksheet,
  row: number,
  column: number,
  rows: number,
  columns: number,
): Excel.Range => sheet.getRangeByIndexes(row, column, rows, columns).untrack();

const rangeOf = (sheet: Excel.Worksheet, { row, column, rows, columns }: Area): Excel.Range =>
  cellsOf(sheet, row, column, rows, columns);

/** Characters of the standard font to points, with the cell's own margin of 5 pixels. */
const widthInPoints = (characters: number): number => (characters * 7 + 5) * 0.75;

function* widthPieces(sheet: Excel.Worksheet, widths: readonly number[]): Pieces {
  for (let from = 0; from < widths.length;) {
    let to = from + 1;
    while (widths[to] === widths[from]) to++;
    const columns = cellsOf(sheet, 0, from, 1, to - from)
      .getEntireColumn()
      .untrack();
    columns.format.columnWidth = widthInPoints(widths[from] as number);
    yield weight(4);
    from = to;
  }
}

function between(
  min: number | undefined,
  max: number | undefined,
): Excel.BasicDataValidation | undefined {
  if (min !== undefined && max !== undefined) {
    return { formula1: min, formula2: max, operator: 'Between' };
  }
  if (min !== undefined) return { formula1: min, operator: 'GreaterThanOrEqualTo' };
  if (max !== undefined) return { formula1: max, operator: 'LessThanOrEqualTo' };
  return undefined;
}

function validationRule({ rule }: ValidationModel): Excel.DataValidationRule | undefined {
  switch (rule.kind) {
    case 'list':
      return { list: { inCellDropDown: true, source: `=${rule.name}` } };
    case 'words':
      return { list: { inCellDropDown: true, source: rule.words.join(',') } };
    case 'date':
      return { date: { formula1: '1900-03-01', operator: 'GreaterThanOrEqualTo' } };
    default: {
      // Without bounds any number will do; Excel wants bounds, so these are its own.
      const bounds = between(rule.min, rule.max) ?? between(-9.99e307, 9.99e307);
      return bounds && (rule.kind === 'whole' ? { wholeNumber: bounds } : { decimal: bounds });
    }
  }
}

function* rulePieces(sheet: Excel.Worksheet, model: SheetModel): Pieces {
  for (const validation of model.validations) {
    const rule = validationRule(validation);
    if (!rule) continue;
    const { dataValidation } = rangeOf(sheet, validation.area);
    dataValidation.rule = rule;
    dataValidation.errorAlert = {
      showAlert: true,
      style: 'Stop',
      title: 'Not possible here',
      message: validation.message.slice(0, 255),
    };
    yield weight(4, validation);
  }
  for (const condition of model.conditions) {
    const added = rangeOf(sheet, condition.area).conditionalFormats.add('Custom');
    added.custom.rule.formula = `=${condition.formula}`;
    applyMark(added.custom.format, condition.mark);
    // Font, fill and up to four edges.
    yield weight(30, condition);
  }
}

/** Rows whose text breaks into lines; what a formula will show is not known, and Excel fits it itself. */
function* heightPieces(sheet: Excel.Worksheet, model: SheetModel): Pieces {
  const known = (_: string, row: number, column: number) => model.rows[row]?.[column]?.value;
  for (const row of model.rows.keys()) {
    const height = wrappedHeight(model, row, known);
    if (height === undefined) continue;
    cellsOf(sheet, row, 0, 1, 1).format.rowHeight = height;
    yield weight(3);
  }
}

function writePage(
  sheet: Excel.Worksheet,
  { frozen, print, folded, tabColour }: SheetModel,
  title: string,
): void {
  if (frozen.rows > 0 && frozen.columns > 0) {
    sheet.freezePanes.freezeAt(cellsOf(sheet, 0, 0, frozen.rows, frozen.columns));
  } else if (frozen.rows > 0) sheet.freezePanes.freezeRows(frozen.rows);
  else if (frozen.columns > 0) sheet.freezePanes.freezeColumns(frozen.columns);
  const page = sheet.pageLayout;
  if (print.paper) page.paperSize = print.paper;
  page.orientation = print.landscape ? 'Landscape' : 'Portrait';
  page.zoom = {
    horizontalFitToPages: print.pagesWide ?? 1,
    ...(print.pagesTall !== undefined && { verticalFitToPages: print.pagesTall }),
  };
  if (print.headRows > 0) {
    const from = print.headFrom ?? 0;
    page.setPrintTitleRows(`$${from + 1}:$${from + print.headRows}`);
  }
  if (print.areas) page.setPrintArea(print.areas.map((area) => areaAddress(area)).join(','));
  const repeated = repeatedColumns({ print, frozen });
  if (repeated > 0) page.setPrintTitleColumns(`$A:$${columnLetters(repeated - 1)}`);
  const footer = page.headersFooters.defaultForAllPages;
  footer.leftFooter = `&9${title.replaceAll('&', '&&').slice(0, 120)}`;
  footer.centerFooter = '&9&A';
  footer.rightFooter = '&9&P / &N';
  sheet.showGridlines = false;
  if (tabColour !== undefined) sheet.tabColor = tabColour;
  if (folded) {
    const columns = cellsOf(sheet, 0, folded.column, 1, folded.columns).getEntireColumn().untrack();
    columns.columnHidden = true;
  }
}

export const columnCount = (model: SheetModel): number =>
  Math.max(1, ...model.rows.map((row) => row.length));

/** Most that one block of cells may weigh. */
const BLOCK_BYTES = 300_000;

/** Queues the values and formulas of a sheet, in blocks of rows. */
export function* cellPieces(sheet: Excel.Worksheet, model: SheetModel): Pieces {
  const columns = Array.from({ length: columnCount(model) }, (_, column) => column);
  let block: (string | number | boolean)[][] = [];
  let bytes = 0;
  let from = 0;
  const write = (): void => {
    cellsOf(sheet, from, 0, block.length, columns.length).formulas = block;
    from += block.length;
    block = [];
    bytes = 0;
  };
  for (const row of model.rows) {
    const cells = columns.map((column) => typedCell(row[column]));
    const more = weight(0, cells);
    if (block.length > 0 && bytes + more > BLOCK_BYTES) {
      const full = bytes;
      write();
      yield full + weight(2);
    }
    block.push(cells);
    bytes += more;
  }
  if (block.length === 0) return;
  const rest = bytes;
  write();
  yield rest + weight(2);
}

function* lookPieces(sheet: Excel.Worksheet, model: SheetModel): Pieces {
  const cell = (row: number, column: number) => model.rows[row]?.[column];
  const [rows, columns] = [model.rows.length, columnCount(model)];
  const ground = sheet.getRange().untrack();
  applyGround(ground.format);
  yield weight(6);
  for (const [look, areas] of rectanglesByKey(rows, columns, (r, c) => cell(r, c)?.look)) {
    for (const [shape, alike] of byShape(areas)) {
      for (const list of addressLists(alike)) {
        const calls = applyLook(sheet.getRanges(list).untrack().format, look, shape);
        yield weight(calls + 3, list);
      }
    }
  }
}

function* formatPieces(sheet: Excel.Worksheet, model: SheetModel): Pieces {
  const formats = rectanglesByKey(
    model.rows.length,
    columnCount(model),
    (row, column) => model.rows[row]?.[column]?.format,
  );
  for (const [format, areas] of formats) {
    if (format === 'general') continue;
    for (const area of areas) {
      // One text for a whole range is taken for each of its cells.
      rangeOf(sheet, area).numberFormat = formatCode(format) as unknown as string[][];
      yield weight(2, formatCode(format));
    }
  }
}

/** Queues everything else of a sheet whose cells are written; `sheetNamed` finds the others for charts. */
export function* sheetPieces(
  sheet: Excel.Worksheet,
  model: SheetModel,
  sheetNamed: (name: string) => Excel.Worksheet,
  abilities: Abilities,
  title: string,
): Pieces {
  writePage(sheet, model, title);
  yield weight(20, title);
  yield* widthPieces(sheet, model.columnWidths);
  yield* lookPieces(sheet, model);
  for (const area of model.merges) {
    const merged = rangeOf(sheet, area);
    merged.merge(false);
    merged.format.wrapText = true;
    yield weight(4);
  }
  yield* heightPieces(sheet, model);
  yield* formatPieces(sheet, model);
  for (const table of model.tables) {
    const made = sheet.tables.add(rangeOf(sheet, table.area), true);
    made.name = table.name;
    made.style = 'TableStyleLight1';
    made.showFilterButton = false;
    made.showBandedRows = false;
    yield weight(8);
  }
  yield* rulePieces(sheet, model);
  for (const chart of model.charts) {
    writeChart(sheet, chart, (name, area) => rangeOf(sheetNamed(name), area));
    yield weight(20 + 16 * chart.series.length, chart);
  }
  if (!abilities.notes) return;
  for (const [r, row] of model.rows.entries()) {
    for (const [c, cell] of row.entries()) {
      if (!cell?.note) continue;
      sheet.notes.add(cellAddress(r, c), cell.note);
      yield weight(2, cell.note);
    }
  }
}
