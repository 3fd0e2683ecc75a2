/** An open workbook in memory, which refuses what Excel is documented to refuse. */
export type Value = string | number | boolean;

export interface Cell {
  formula: Value;
  value: Value;
}

export interface Box {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

export interface ChartInMemory {
  readonly type: string;
  title: string;
  readonly series: { name: string; values: string; categories: string }[];
}

export interface TableInMemory {
  name: string;
  address: string;
}

/** What Excel refuses, with its code. */
export class Refusal extends Error {
  constructor(
    readonly code: string,
    message: string = code,
  ) {
    super(message);
  }
}

export const MAX_ROWS = 1_048_576;
export const MAX_COLUMNS = 16_384;
const MAX_FORMULA_LENGTH = 8192;
const MAX_TEXT_LENGTH = 32_767;

const letters = (column: number): string =>
  column < 26
    ? String.fromCharCode(65 + column)
    : letters(Math.floor(column / 26) - 1) + letters(column % 26);

export const addressOf = ({ row, column, rows, columns }: Box): string => {
  const first = `${letters(column)}${row + 1}`;
  return rows * columns === 1 ? first : `${first}:${letters(column + columns - 1)}${row + rows}`;
};

const columnOf = (text: string): number =>
  [...text].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;

/** "B2", "B2:C9", "B:B" or "3:4", with or without "$". */
export function boxOf(address: string): Box {
  const [from = '', to = from] = address.replaceAll('$', '').toUpperCase().split(':');
  const corner = (text: string, last: boolean): [row: number, column: number] => {
    const match = /^([A-Z]{0,3})(\d*)$/.exec(text);
    if (!match || text === '') throw new Refusal('InvalidArgument', `no address: ${address}`);
    return [
      match[2] ? Number(match[2]) - 1 : last ? MAX_ROWS - 1 : 0,
      match[1] ? columnOf(match[1]) : last ? MAX_COLUMNS - 1 : 0,
    ];
  };
  const [row, column] = corner(from, false);
  const [lastRow, lastColumn] = corner(to, true);
  return insideSheet({ row, column, rows: lastRow - row + 1, columns: lastColumn - column + 1 });
}

export function insideSheet(box: Box): Box {
  const { row, column, rows, columns } = box;
  const whole = [row, column, rows, columns].every(Number.isInteger);
  if (
    !whole ||
    row < 0 ||
    column < 0 ||
    rows < 1 ||
    columns < 1 ||
    row + rows > MAX_ROWS ||
    column + columns > MAX_COLUMNS
  ) {
    throw new Refusal('InvalidArgument', `no such cells: ${JSON.stringify(box)}`);
  }
  return box;
}

/** As typed into a cell: an apostrophe keeps text as it is; what looks like a number or date becomes one. */
function typed(entry: Value): Value {
  if (typeof entry !== 'string') return entry;
  if (entry.startsWith("'")) return entry.slice(1);
  if (/^\s*-?[\d.,]+\s*%?$/.test(entry)) return Number(entry.replace(/[^\d.-]/g, ''));
  if (/^\d{1,4}[-/.]\d{1,2}([-/.]\d{1,4})?$/.test(entry)) return 45000;
  if (/^(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\w* \d+$/i.test(entry)) return 45000;
  if (/^(true|false)$/i.test(entry)) return /^t/i.test(entry);
  return entry;
}

const withoutTexts = (formula: string): string => formula.replace(/"(?:[^"]|"")*"/g, '""');

const keyOf = (row: number, column: number): number => row * MAX_COLUMNS + column;

export class SheetInMemory {
  readonly cells = new Map<number, Cell>();
  readonly tables: TableInMemory[] = [];
  readonly charts: ChartInMemory[] = [];
  /** Sources of the lists that cells offer. */
  readonly lists: string[] = [];
  /** Formulas of conditional formats. */
  readonly conditions: string[] = [];
  /** Addresses of columns out of sight. */
  readonly hidden: string[] = [];
  readonly merged: string[] = [];
  readonly notes = new Map<string, string>();
  frozen = '';
  protected = false;

  constructor(
    readonly id: string,
    readonly name: string,
  ) {}

  cell(address: string): Cell | undefined {
    const { row, column } = boxOf(address);
    return this.cells.get(keyOf(row, column));
  }

  read(box: Box, what: keyof Cell): Value[][] {
    return Array.from({ length: box.rows }, (_, r) =>
      Array.from(
        { length: box.columns },
        (__, c) => this.cells.get(keyOf(box.row + r, box.column + c))?.[what] ?? '',
      ),
    );
  }

  /** The smallest box around what is used, of the sheet or of a part of it. */
  used(within: Box = { row: 0, column: 0, rows: MAX_ROWS, columns: MAX_COLUMNS }): Box | undefined {
    let [top, left, bottom, right] = [Infinity, Infinity, -1, -1];
    for (const key of this.cells.keys()) {
      const row = Math.floor(key / MAX_COLUMNS);
      const column = key % MAX_COLUMNS;
      if (row < within.row || row >= within.row + within.rows) continue;
      if (column < within.column || column >= within.column + within.columns) continue;
      top = Math.min(top, row);
      left = Math.min(left, column);
      bottom = Math.max(bottom, row);
      right = Math.max(right, column);
    }
    if (bottom < 0) return undefined;
    return { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
  }
}

export class WorkbookInMemory {
  sheets: SheetInMemory[] = [];
  names = new Map<string, string>();
  xmlParts: { readonly id: string; readonly xml: string }[] = [];
  active = '';
  selection = { sheet: '', address: 'A1' };
  structureProtected = false;
  /** Whether somebody asked to be told of edits. */
  tellsEdits = false;
  /** What else is told of, by the names that the library has for it. */
  readonly tellsOf = new Set<string>();
  /** Whether Excel knows the GILL functions. */
  functionsKnown = true;
  /** Values of formula cells. */
  compute: (formula: string) => Value = () => 0;
  /** Files that were opened as new workbooks, in base 64. */
  readonly newWorkbooks: string[] = [];
  private ids = 0;

  constructor(sheetNames: readonly string[] = ['Sheet1']) {
    for (const name of sheetNames) this.addSheet(name);
    this.active = sheetNames[0] ?? '';
    this.selection.sheet = this.active;
  }

  newId(kind: string): string {
    this.ids += 1;
    return `{${kind}-${this.ids}}`;
  }

  addSheet(name: string): SheetInMemory {
    if (!/^[^\\/?*[\]:]{1,31}$/.test(name)) {
      throw new Refusal('InvalidArgument', `no name for a sheet: "${name}"`);
    }
    if (this.structureProtected) throw new Refusal('AccessDenied');
    if (this.sheets.some((sheet) => sheet.name.toLowerCase() === name.toLowerCase())) {
      throw new Refusal('ItemAlreadyExists', `there is a sheet "${name}" already`);
    }
    const sheet = new SheetInMemory(this.newId('sheet'), name);
    this.sheets.push(sheet);
    return sheet;
  }

  /** By its name or its id. */
  findSheet(key: string): SheetInMemory | undefined {
    const wanted = key.toLowerCase();
    return this.sheets.find((sheet) => sheet.name.toLowerCase() === wanted || sheet.id === key);
  }

  sheet(key: string): SheetInMemory {
    const found = this.findSheet(key);
    if (!found) throw new Refusal('ItemNotFound', `there is no sheet "${key}"`);
    return found;
  }

  deleteSheet(sheet: SheetInMemory): void {
    if (this.sheets.length === 1) throw new Refusal('InvalidOperation', 'the last sheet stays');
    this.sheets = this.sheets.filter((memory) => memory !== sheet);
    if (this.active === sheet.name) this.active = this.sheets[0]?.name ?? '';
  }

  cell(sheet: string, address: string): Cell | undefined {
    return this.sheet(sheet).cell(address);
  }

  /** Throws where a defined name or table cannot be called so. */
  checkNewName(name: string): void {
    const taken = [
      ...this.names.keys(),
      ...this.sheets.flatMap((sheet) => sheet.tables.map((table) => table.name)),
    ];
    if (!/^[\p{L}_][\p{L}\d_.]{0,254}$/u.test(name) || /^[A-Z]{1,3}\d+$/i.test(name)) {
      throw new Refusal('InvalidArgument', `no name: "${name}"`);
    }
    if (taken.some((text) => text.toLowerCase() === name.toLowerCase())) {
      throw new Refusal('ItemAlreadyExists', `the name "${name}" is taken`);
    }
  }

  checkFormula(formula: string): void {
    if (formula.length > MAX_FORMULA_LENGTH) {
      throw new Refusal('InvalidArgument', `a formula of ${formula.length} characters`);
    }
    for (const match of withoutTexts(formula).matchAll(
      /(?:'((?:[^']|'')+)'|([\p{L}_][\p{L}\d_.]*))!/gu,
    )) {
      this.sheet((match[1] ?? match[2] ?? '').replaceAll("''", "'"));
    }
  }

  /** Writes a block as typed; formulas may only speak of sheets that are there. */
  write(sheet: SheetInMemory, box: Box, entries: readonly (readonly unknown[])[]): void {
    if (sheet.protected) throw new Refusal('AccessDenied');
    if (
      !Array.isArray(entries) ||
      entries.length !== box.rows ||
      entries.some((row) => !Array.isArray(row) || row.length !== box.columns)
    ) {
      throw new Refusal('InvalidArgument', `the block does not fit ${addressOf(box)}`);
    }
    entries.forEach((row: readonly unknown[], r) =>
      row.forEach((entry, c) => {
        const key = keyOf(box.row + r, box.column + c);
        if (!['string', 'number', 'boolean'].includes(typeof entry)) {
          // Excel would leave the cell as it is: what was meant, NaN for one, never arrives.
          throw new Refusal(
            'InvalidArgument',
            `${addressOf(box)} is given ${JSON.stringify(entry)}`,
          );
        }
        this.writeCell(sheet, key, entry as Value);
      }),
    );
  }

  private writeCell(sheet: SheetInMemory, key: number, entry: Value): void {
    if (entry === '') sheet.cells.delete(key);
    else if (typeof entry === 'string' && entry.startsWith('=')) {
      this.checkFormula(entry);
      const unknown = !this.functionsKnown && entry.includes('GILL.');
      sheet.cells.set(key, { formula: entry, value: unknown ? '#NAME?' : this.compute(entry) });
    } else {
      if (typeof entry === 'string' && entry.length > MAX_TEXT_LENGTH) {
        throw new Refusal('InvalidArgument', 'a text too long for a cell');
      }
      sheet.cells.set(key, { formula: typed(entry), value: typed(entry) });
    }
  }
}
