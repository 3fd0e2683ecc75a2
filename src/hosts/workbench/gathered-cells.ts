import { listAddresses } from '../../engine/listed-cells';
import type { Ids } from '../../engine/grid-data';
import { type StoredResult, UNSTEADY } from '../../engine/patches/open-with-stored-values';
import type { SheetCell, SheetRow } from '../../ooxml/sheet-cells';
import { covers, placeAddress, readArea } from '../../plan/addresses';
import type { Area } from '../../plan/workbook-model';

/** What a cell of a file is on the grid. */
export interface CellsOfFile {
  formula(cell: SheetCell): string;
  /** The content of a cell without a formula; undefined where it is blank. */
  content(cell: SheetCell): { readonly text: string; readonly isText: boolean } | undefined;
  /** What its formula gave when the file was saved. */
  result(cell: SheetCell): StoredResult;
  look(cell: SheetCell): CellLook;
}

/** A look by the numbers that the grid keeps it under. */
export interface CellLook {
  readonly style?: number;
  readonly border?: number;
  readonly format?: number;
  /** Of text format: the grid takes everything in such a cell for text. */
  readonly isTextFormat: boolean;
}

/** A formula that fills several cells. */
interface Block {
  readonly address: string;
  readonly area: Area;
  readonly results: StoredResult[][];
}

/** A block of more cells is made to fill the memory. */
const LARGEST_BLOCK = 1_000_000;

const isFilled = ({ formula, value, type }: SheetCell): boolean =>
  formula !== undefined || value !== undefined || type === 'inlineStr';

/** Gathers what the grid shows of a sheet while its rows are read; none of them is held. */
export class GatheredCells {
  readonly contents: Record<string, string> = {};
  private readonly addresses: string[] = [];
  readonly stored: Record<string, StoredResult | readonly (readonly StoredResult[])[]> = {};
  readonly styles: Ids = [];
  readonly borders: Ids = [];
  readonly formats: Ids = [];
  /** How far filled cells reach. */
  rows = 1;
  columns = 1;
  /** False where rows do not come one below the other: a block is then not known when its cells come. */
  inOrder = true;
  private last = -1;
  private open: Block[] = [];

  constructor(private readonly file: CellsOfFile) {
    listAddresses(this.contents, this.addresses);
  }

  add({ row, cells }: Pick<SheetRow, 'row' | 'cells'>): void {
    if (row <= this.last) this.inOrder = false;
    this.last = row;
    if (this.open.length > 0) {
      this.open = this.open.filter(({ area }) => area.row + area.rows > row);
    }
    for (const cell of cells) this.addCell(cell);
  }

  private addCell(cell: SheetCell): void {
    const { row, column } = cell;
    if (isFilled(cell)) {
      this.rows = Math.max(this.rows, row + 1);
      this.columns = Math.max(this.columns, column + 1);
    }
    const look = this.file.look(cell);
    let isText = false;
    if (cell.formula !== undefined) this.addFormula(cell);
    else {
      const block = this.open.find(({ area }) => covers(area, row, column));
      if (block) {
        const results = block.results[column - block.area.column];
        if (results) results[row - block.area.row] = this.file.result(cell);
      } else {
        const content = this.file.content(cell);
        if (content && content.text !== '') this.put(placeAddress(cell), content.text);
        isText = content?.isText === true;
      }
    }
    const put = (ids: Ids, id: number): void => {
      (ids[column] ??= [])[row] = id;
    };
    if (look.style !== undefined) put(this.styles, look.style);
    if (look.border !== undefined) put(this.borders, look.border);
    if (look.format !== undefined && (!look.isTextFormat || isText)) put(this.formats, look.format);
  }

  private put(address: string, content: string): void {
    this.contents[address] = content;
    this.addresses.push(address);
  }

  private addFormula(cell: SheetCell): void {
    const address = placeAddress(cell);
    const formula = this.file.formula(cell);
    this.put(address, formula);
    const { area } = cell;
    const size = area ? area.rows * area.columns : 1;
    // What gives another value on another day is computed when it is opened.
    const hasValue =
      (cell.value !== undefined || cell.type === 'inlineStr') && !UNSTEADY.test(formula);
    if (area && size > 1 && size <= LARGEST_BLOCK) {
      const results = Array.from({ length: area.columns }, () =>
        Array.from({ length: area.rows }, (): StoredResult => ({ value: '' })),
      );
      (results[0] as StoredResult[])[0] = this.file.result(cell);
      this.open.push({ address, area, results });
      if (hasValue) this.stored[address] = results;
    } else if (hasValue) this.stored[address] = this.file.result(cell);
  }

  /** Takes out what lies beyond the grid. */
  keepWithin(rows: number, columns: number): void {
    for (const ids of [this.styles, this.borders, this.formats]) {
      ids.length = Math.min(ids.length, columns);
      // Columns without a look are holes of the list, which are passed over.
      ids.forEach((column) => {
        column.length = Math.min(column.length, rows);
      });
    }
    if (this.rows <= rows && this.columns <= columns) return;
    for (const address of this.addresses) {
      const place = readArea(address);
      if (!place || (place.row < rows && place.column < columns)) continue;
      Reflect.deleteProperty(this.contents, address);
      Reflect.deleteProperty(this.stored, address);
    }
  }
}
