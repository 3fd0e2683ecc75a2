import { tokenize, translateFormulaToA1, translateFormulaToR1C1 } from '@borgar/fx';
import { columnLetters, columnNumber, placeAddress, readArea, type Place } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { partly, type Steps } from '../plan/in-steps';
import type { Package } from './package';
import { childNamed, childrenNamed, type XmlElement, XmlReading } from './read-xml';
import { readInSteps } from './read-in-steps';
import { UnreadableFile } from './unreadable-file';

export interface SheetCell extends Place {
  readonly element: XmlElement;
  /** Formula text without "=", that of a shared formula already moved to this cell. */
  readonly formula?: string;
  /** The block that an array or spilling formula fills. */
  readonly area?: Area;
  /** True where the formula is stored for several cells at once (shared formulas of the format). */
  readonly shared: boolean;
  /** The stored value as the file has it, and its type attribute. */
  readonly value?: string;
  readonly type: string;
}

export interface SheetRow {
  readonly row: number;
  readonly element: XmlElement;
  readonly cells: readonly SheetCell[];
}

export interface SheetCells {
  readonly xml: string;
  readonly root: XmlElement;
  readonly sheetData: XmlElement;
  readonly rows: readonly SheetRow[];
}

/** As far as a sheet of the format reaches. */
const MAX_ROWS = 1_048_576;
const MAX_COLUMNS = 16_384;

/** The cell that an address names; undefined where a sheet has no such cell. */
function placeOf(address: string | undefined): Place | undefined {
  const area = address === undefined ? undefined : readArea(address);
  if (!area) return undefined;
  const { row, column } = area;
  return row >= 0 && row < MAX_ROWS && column < MAX_COLUMNS ? { row, column } : undefined;
}

function rowOf(number: string | undefined): number | undefined {
  const row = Number(number) - 1;
  return Number.isInteger(row) && row >= 0 && row < MAX_ROWS ? row : undefined;
}

/** Rows of a sheet part, one after the other. A cell without an address stands behind the one before it. */
class RowReading {
  private readonly masters = new Map<string, MovedFormula>();
  private nextRow = 0;

  row(element: XmlElement): SheetRow {
    const row = rowOf(element.attributes['r']) ?? this.nextRow;
    this.nextRow = row + 1;
    let nextColumn = 0;
    const cells: SheetCell[] = [];
    for (const child of element.children) {
      if (child.name !== 'c') continue;
      const place = placeOf(child.attributes['r']) ?? { row, column: nextColumn };
      nextColumn = place.column + 1;
      cells.push(this.cell(child, place));
    }
    return { row, element, cells };
  }

  private cell(cell: XmlElement, place: Place): SheetCell {
    const f = childNamed(cell, 'f');
    const value = childNamed(cell, 'v')?.text;
    const kind = f?.attributes['t'];
    let formula = f?.text === '' ? undefined : f?.text;
    if (f && kind === 'shared') {
      const index = f.attributes['si'] ?? '';
      if (formula !== undefined) this.masters.set(index, new MovedFormula(formula, place));
      else formula = this.masters.get(index)?.at(place);
    }
    return {
      row: place.row,
      column: place.column,
      element: cell,
      shared: kind === 'shared',
      type: cell.attributes['t'] ?? 'n',
      ...(formula !== undefined && { formula }),
      ...(kind === 'array' && {
        area: readArea(f?.attributes['ref'] ?? '') ?? { ...place, rows: 1, columns: 1 },
      }),
      ...(value !== undefined && { value }),
    };
  }
}

/** What a sheet part holds beside its rows. */
export interface SheetFrame {
  /** Its root element, in which `sheetData` holds no rows. */
  readonly root: XmlElement;
  readonly sheetData: XmlElement;
}

/** Looks at each row of a sheet part in turn, without holding the others. */
export function* eachRow(
  file: Package,
  part: string,
  look: (row: SheetRow) => void,
  { placed = false } = {},
): Steps<SheetFrame> {
  const rows = new RowReading();
  const xml = placed ? file.text(part) : undefined;
  const reading = new XmlReading(
    part,
    (element, parent) => {
      if (element.name !== 'row' || parent?.name !== 'sheetData') return false;
      look(rows.row(element));
      return true;
    },
    xml,
  );
  const root = yield* readInSteps(file, part, reading);
  return { root, sheetData: dataOf(root, part) };
}

function dataOf(root: XmlElement, part: string): XmlElement {
  const sheetData = childNamed(root, 'sheetData');
  if (!sheetData) throw new UnreadableFile(`The file is damaged: ${part} holds no cells.`);
  return sheetData;
}

/** Reads all cells of a sheet part with their places in its text. */
export function readSheetCells(file: Package, part: string): SheetCells {
  const root = file.root(part);
  const sheetData = dataOf(root, part);
  const reading = new RowReading();
  const rows = childrenNamed(sheetData, 'row').map((element) => reading.row(element));
  return { xml: file.text(part), root, sheetData, rows };
}

/** So many rows are read in one step. */
const ROWS = 200;

/** The rows of a sheet part whose root is at hand (`Package.rooting`), in steps. */
export function* readingRows(file: Package, part: string): Steps<SheetRow[]> {
  const elements = childrenNamed(dataOf(file.root(part), part), 'row');
  const reading = new RowReading();
  const rows: SheetRow[] = [];
  for (const [n, element] of elements.entries()) {
    if (n % ROWS === 0) yield n / elements.length;
    rows.push(reading.row(element));
  }
  return rows;
}

/** As `readSheetCells`, in steps; the root holds no rows. */
export function* readingSheetCells(file: Package, part: string): Steps<SheetCells> {
  yield* partly(file.loading(part), 0, 0.3);
  const rows: SheetRow[] = [];
  const reading = eachRow(file, part, (row) => void rows.push(row), { placed: true });
  const { root, sheetData } = yield* partly(reading, 0.3, 1);
  return { xml: file.text(part), root, sheetData, rows };
}

const REFERENCE = /^(\$?)([A-Z]{1,3})(\$?)([0-9]{1,7})$/;

/** A formula that other cells share, as it reads in each of them. */
class MovedFormula {
  /** Its text in pieces: every second one is a reference to a cell. */
  private readonly pieces: readonly string[] | undefined;

  constructor(
    private readonly formula: string,
    private readonly from: Place,
  ) {
    const pieces: string[] = [''];
    let isPlain = true;
    for (const { type, value } of tokenize(formula, { mergeRefs: false })) {
      const isCell = type === 'range' && REFERENCE.test(value);
      if (isCell) pieces.push(value, '');
      else pieces[pieces.length - 1] += value;
      // Whole lines, and whatever else moves along, is left to the library.
      if (/^(?:range|structured)/.test(type) && !isCell && type !== 'range_named') isPlain = false;
    }
    this.pieces = isPlain ? pieces : undefined;
  }

  at(to: Place): string {
    const { pieces, from } = this;
    if (!pieces) return translated(this.formula, from, to);
    let text = '';
    for (let n = 0; n < pieces.length; n++) {
      const piece = pieces[n] as string;
      const moved =
        n % 2 === 1 ? shifted(piece, to.row - from.row, to.column - from.column) : piece;
      if (moved === undefined) return translated(this.formula, from, to);
      text += moved;
    }
    return text;
  }
}

/** A reference that moves along but for what stands behind a "$"; undefined where it leaves the sheet. */
function shifted(reference: string, rows: number, columns: number): string | undefined {
  const [, fixedColumn = '', letters = '', fixedRow = '', digits = ''] =
    REFERENCE.exec(reference) ?? [];
  const row = Number(digits) + (fixedRow === '' ? rows : 0);
  const column = columnNumber(letters) + (fixedColumn === '' ? columns : 0);
  if (row < 1 || row > MAX_ROWS || column < 0 || column >= MAX_COLUMNS) return undefined;
  return `${fixedColumn}${columnLetters(column)}${fixedRow}${row}`;
}

/** A formula as it reads in another cell: relative references move along. */
export const translated = (formula: string, from: Place, to: Place): string =>
  String(
    translateFormulaToA1(translateFormulaToR1C1(formula, placeAddress(from)), placeAddress(to)),
  );
