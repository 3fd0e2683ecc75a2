import { GillError } from '../core/errors';
import { storedCalls, storedFormula } from '../functions/stored-name';
import { areaAddress, cellAddress, covers, placeAddress, readArea } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { type CellChange, type FileValue, type NewCell, RefusedChange } from './cell-changes';
import { atOnce, partly, type Steps } from '../plan/in-steps';
import type { Package } from './package';
import { childNamed, type Splice } from './read-xml';
import { eachRow, type SheetCell, type SheetCells, type SheetRow } from './sheet-cells';
import { cellText, element, escapeAttribute, textElement } from './write-xml';

/** Errors that the file format has a value for; younger ones are left for the spreadsheet to find. */
const FILE_ERRORS = ['#VALUE!', '#N/A', '#NUM!', '#DIV/0!', '#REF!', '#NAME?', '#NULL!'];

/** What holds for the whole workbook while its cells change. */
export interface CellWriting {
  /** The mark of a formula that fills as many cells as it needs. */
  readonly dynamicMark: () => string | undefined;
  /** Told when the order of calculation that the file keeps names a cell that holds no formula any more. */
  readonly formulaRemoved: () => void;
  /** Told when a formula stands in the file without what it gives. */
  readonly valueMissing: () => void;
}

/** A sheet that was read, but for its rows. */
type ReadSheet = Pick<SheetCells, 'xml' | 'root' | 'sheetData'>;

interface Written {
  readonly type?: string;
  readonly inner: string;
}

function writtenValue(prefix: string, value: FileValue, ofFormula: boolean): Written {
  if (value === undefined) return { inner: '' };
  if (value instanceof GillError) {
    return FILE_ERRORS.includes(value.code)
      ? { type: 'e', inner: textElement(`${prefix}v`, value.code) }
      : { inner: '' };
  }
  if (typeof value === 'boolean') {
    return { type: 'b', inner: element(`${prefix}v`, {}, value ? '1' : '0') };
  }
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error(`${value} is no number that a file can hold`);
    return { inner: element(`${prefix}v`, {}, String(value)) };
  }
  const text = cellText(value);
  if (ofFormula) return { type: 'str', inner: textElement(`${prefix}v`, text) };
  // Text of its own leaves the list that cells share as it is.
  const t = textElement(`${prefix}t`, text, { 'xml:space': 'preserve' });
  return { type: 'inlineStr', inner: element(`${prefix}is`, {}, t) };
}

interface NewElement extends Written {
  readonly mark?: string | undefined;
}

function contentOf(
  prefix: string,
  change: CellChange,
  cell: NewCell,
  stored: { readonly formula: string; readonly mark: string | undefined },
  writing: CellWriting,
): NewElement {
  if (cell.kind === 'value') return writtenValue(prefix, cell.value, false);
  const { type, inner } = writtenValue(prefix, cell.value, true);
  // Some errors are the grid's alone (a circle to it need be none to others).
  if (inner === '') writing.valueMissing();
  const typed = type === undefined ? {} : { type };
  if (cell.kind === 'result') return { ...typed, inner: stored.formula + inner, mark: stored.mark };
  // Every GILL call stands in a file as a block: otherwise an "@" comes in front of its name.
  const isBlock = cell.fills !== undefined || storedCalls(cell.formula).length > 0;
  const ref = areaAddress({ ...change, rows: 1, columns: 1, ...cell.fills });
  const f = textElement(
    `${prefix}f`,
    cellText(storedFormula(cell.formula)),
    isBlock ? { t: 'array', ref } : {},
  );
  return { ...typed, inner: f + inner, mark: isBlock ? writing.dynamicMark() : undefined };
}

/** Attributes that say what a cell's content is. */
const OF_CONTENT = new Set(['t', 'cm', 'vm', 's']);

/** `released` is the formula's element where it was stored with another cell that changes. */
function cellElement(
  xml: string,
  prefix: string,
  before: SheetCell | undefined,
  change: CellChange,
  writing: CellWriting,
  released?: string,
): string {
  const text = (name: string): string =>
    (before?.element.children ?? [])
      .filter((child) => child.name === name)
      .map(({ start, end }) => xml.slice(start, end))
      .join('');
  const formula = released ?? text('f');
  const old = before?.element.attributes ?? { r: cellAddress(change.row, change.column) };
  const content: NewElement = change.cell
    ? contentOf(prefix, change, change.cell, { formula, mark: old['cm'] }, writing)
    : {
        ...(old['t'] !== undefined && { type: old['t'] }),
        inner: formula + text('v') + text('is'),
        mark: old['cm'],
      };
  const attributes = Object.entries(old)
    .filter(([name]) => !OF_CONTENT.has(name))
    .map(([name, value]) => ` ${name}="${escapeAttribute(value)}"`)
    .join('');
  const style = change.style ?? old['s'];
  const own = [
    ['s', style],
    ['t', content.type],
    ['cm', content.mark],
    // What a value is beside its text (a picture, a kind of its own) goes with the value.
    ['vm', change.cell ? undefined : old['vm']],
  ].flatMap(([name, value]) => (value === undefined ? [] : [` ${name}="${value}"`]));
  const inner = content.inner + text('extLst');
  const open = `<${prefix}c${attributes}${own.join('')}`;
  return inner === '' ? `${open}/>` : `${open}>${inner}</${prefix}c>`;
}

const f = (cell: SheetCell) => childNamed(cell.element, 'f');

/** A block that only changes as a whole: an older array formula, a table of what would be if. */
interface WholeBlock {
  readonly area: Area;
  readonly what: string;
}

function wholeBlock(cell: SheetCell): WholeBlock | undefined {
  const formula = f(cell);
  const kind = formula?.attributes['t'];
  if (kind !== 'dataTable' && (kind !== 'array' || cell.element.attributes['cm'] !== undefined)) {
    return undefined;
  }
  const area = readArea(formula?.attributes['ref'] ?? '');
  return area && { area, what: kind === 'array' ? 'array formula' : 'data table' };
}

/** Array formulas and data tables: a part of one cannot change without the rest. */
function refuseParts(
  name: string,
  blocks: readonly WholeBlock[],
  changes: ReadonlyMap<string, CellChange>,
): void {
  for (const { area, what } of blocks) {
    const touched: CellChange[] = [];
    for (const change of changes.values()) {
      const isContent = change.cell !== undefined && change.cell.kind !== 'result';
      if (isContent && covers(area, change.row, change.column)) touched.push(change);
    }
    if (touched.length === 0 || touched.length === area.rows * area.columns) continue;
    const [first] = touched as [CellChange];
    throw new RefusedChange(
      `${name}!${placeAddress(first)} is part of the ${what} in ${areaAddress(area)}, which can only be changed as a whole: empty all its cells first.`,
    );
  }
}

/** Formulas that are stored with another cell: where that one changes, they are written in full. */
class ReleasedShares {
  private readonly lost = new Set<string>();

  /** The formula's element where it is to be written in full. Cells are asked in their order. */
  of(cell: SheetCell, change: CellChange | undefined): string | undefined {
    const formula = cell.shared ? f(cell) : undefined;
    const index = formula?.attributes['si'];
    if (formula === undefined || index === undefined) return undefined;
    const isChanging = change?.cell !== undefined && change.cell.kind !== 'result';
    if (isChanging) {
      if (formula.text !== '') this.lost.add(index);
      return undefined;
    }
    if (!this.lost.has(index) || cell.formula === undefined) return undefined;
    return textElement(`${cell.element.prefix}f`, cell.formula);
  }
}

/** The opening tag of a row, wide enough for a column. */
function widened({ element: row }: SheetRow, xml: string, columns: readonly number[]): Splice[] {
  const spans = /^(\d+):(\d+)$/.exec(row.attributes['spans'] ?? '');
  if (!spans) return [];
  const first = Math.min(Number(spans[1]), ...columns.map((column) => column + 1));
  const last = Math.max(Number(spans[2]), ...columns.map((column) => column + 1));
  if (`${first}:${last}` === spans[0]) return [];
  const open = xml.slice(row.start, row.openEnd);
  const text = open.replace(/(\sspans=["'])[^"']*/, `$1${first}:${last}`);
  return [{ start: row.start, end: row.openEnd, text }];
}

/** The area that a sheet says it uses, where cells beyond it came in. */
function grown(sheet: ReadSheet, places: readonly CellChange[]): Splice[] {
  const dimension = childNamed(sheet.root, 'dimension');
  const area = readArea(dimension?.attributes['ref'] ?? '');
  if (!dimension || !area || places.length === 0) return [];
  const bounds = places.reduce(
    (b, { row, column }) => ({
      top: Math.min(b.top, row),
      left: Math.min(b.left, column),
      bottom: Math.max(b.bottom, row),
      right: Math.max(b.right, column),
    }),
    {
      top: area.row,
      left: area.column,
      bottom: area.row + area.rows - 1,
      right: area.column + area.columns - 1,
    },
  );
  const ref = areaAddress({
    row: bounds.top,
    column: bounds.left,
    rows: bounds.bottom - bounds.top + 1,
    columns: bounds.right - bounds.left + 1,
  });
  if (ref === areaAddress(area)) return [];
  const open = sheet.xml.slice(dimension.start, dimension.openEnd);
  const text = open.replace(/(\sref=["'])[^"']*/, `$1${ref}`);
  return [{ start: dimension.start, end: dimension.openEnd, text }];
}

/** The rows of a sheet that new cells come into, and where rows begin that stand behind new ones. */
interface Surroundings {
  readonly rows: ReadonlyMap<number, SheetRow>;
  readonly nextStart: ReadonlyMap<number, number>;
}

/** New cells of one row, and new rows. */
function insertions(
  sheet: ReadSheet,
  { rows: known, nextStart }: Surroundings,
  fresh: readonly CellChange[],
  written: (change: CellChange) => string,
): Splice[] {
  const { xml, sheetData } = sheet;
  const { prefix } = sheetData;
  const byRow = new Map<number, CellChange[]>();
  for (const change of fresh) {
    byRow.set(change.row, [...(byRow.get(change.row) ?? []), change]);
  }
  const splices: Splice[] = [];
  const newRows: { row: number; text: string }[] = [];
  for (const [number, list] of byRow) {
    list.sort((a, b) => a.column - b.column);
    const row = known.get(number);
    if (!row) {
      const text = `<${prefix}row r="${number + 1}">${list.map(written).join('')}</${prefix}row>`;
      newRows.push({ row: number, text });
      continue;
    }
    const { element: line } = row;
    const wider = widened(
      row,
      xml,
      list.map(({ column }) => column),
    );
    if (line.selfClosing) {
      const open = (wider[0]?.text ?? xml.slice(line.start, line.openEnd)).replace(/\s*\/>$/, '>');
      const text = `${open}${list.map(written).join('')}</${line.prefix}row>`;
      splices.push({ start: line.start, end: line.end, text });
      continue;
    }
    splices.push(...wider);
    for (const change of list) {
      const next = row.cells.find((cell) => cell.column > change.column);
      const at = next ? next.element.start : xml.lastIndexOf('</', line.end - 1);
      splices.push({ start: at, end: at, text: written(change) });
    }
  }
  newRows.sort((a, b) => a.row - b.row);
  if (sheetData.selfClosing && newRows.length > 0) {
    const open = xml.slice(sheetData.start, sheetData.openEnd).replace(/\s*\/>$/, '>');
    const rows = newRows.map(({ text }) => text).join('');
    const text = `${open}${rows}</${prefix}sheetData>`;
    return [{ start: sheetData.start, end: sheetData.end, text }];
  }
  for (const { row, text } of newRows) {
    const at = nextStart.get(row) ?? xml.lastIndexOf('</', sheetData.end - 1);
    splices.push({ start: at, end: at, text });
  }
  return splices;
}

/**
 * Gives cells of a sheet other contents, in steps; everything else of its part stays to the letter. Throws
 * RefusedChange, before anything is written, where a part of what only changes as a whole would change.
 */
export function* changingCells(
  file: Package,
  { name, part }: { readonly name: string; readonly part: string },
  changes: readonly CellChange[],
  writing: CellWriting,
): Steps<void> {
  if (changes.length === 0) return;
  yield* partly(file.loading(part), 0, 0.2);
  const xml = file.text(part);
  const wanted = new Map(changes.map((change) => [placeAddress(change), change]));
  const wantedRows = [...new Set(changes.map(({ row }) => row))].sort((a, b) => a - b);
  const isWantedRow = new Set(wantedRows);
  const rows = new Map<number, SheetRow>();
  const nextStart = new Map<number, number>();
  let passed = 0;
  const blocks: WholeBlock[] = [];
  const shares = new ReleasedShares();
  const splices: Splice[] = [];
  const existing = new Set<string>();
  const look = (line: SheetRow): void => {
    for (; (wantedRows[passed] ?? Infinity) < line.row; passed++) {
      nextStart.set(wantedRows[passed] as number, line.element.start);
    }
    if (isWantedRow.has(line.row)) rows.set(line.row, line);
    for (const cell of line.cells) {
      const block = wholeBlock(cell);
      if (block) blocks.push(block);
      const address = placeAddress(cell);
      const asked = wanted.get(address);
      const full = shares.of(cell, asked);
      const { row, column } = cell;
      const change = asked ?? (full === undefined ? undefined : { row, column });
      if (!change) continue;
      existing.add(address);
      const { start, end } = cell.element;
      if (f(cell) && change.cell?.kind === 'value') writing.formulaRemoved();
      splices.push({
        start,
        end,
        text: cellElement(xml, cell.element.prefix, cell, change, writing, full),
      });
    }
  };
  const { root, sheetData } = yield* partly(eachRow(file, part, look, { placed: true }), 0.2, 1);
  refuseParts(name, blocks, wanted);
  const isAny = ({ cell, style }: CellChange): boolean =>
    style !== undefined ||
    (cell !== undefined && !(cell.kind === 'value' && cell.value === undefined));
  const fresh = [...wanted.values()].filter(
    (change) => !existing.has(placeAddress(change)) && isAny(change),
  );
  const sheet = { xml, root, sheetData };
  const added = insertions(sheet, { rows, nextStart }, fresh, (change) =>
    cellElement(xml, sheetData.prefix, undefined, change, writing),
  );
  file.edit(part, [...splices, ...added, ...grown(sheet, fresh)]);
}

/** As `changingCells`, at once. */
export const changeCells = (...given: Parameters<typeof changingCells>): void =>
  atOnce(changingCells(...given));
