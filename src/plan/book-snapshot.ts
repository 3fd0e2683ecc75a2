import { cellAddress, covers, readArea, splitSheet } from './addresses';
import type { Area, NameModel } from './workbook-model';

export type SnapshotValue = string | number | boolean;

/** One sheet of an open workbook, as it stands. */
export interface SheetSnapshot {
  readonly name: string;
  /** Address of the first cell of `formulas` and `values`, such as "A1". */
  readonly from: string;
  /** As typed: "=…" for formulas, otherwise the value. */
  readonly formulas: readonly (readonly SnapshotValue[])[];
  /** As shown; an error as its code, such as "#N/A". */
  readonly values: readonly (readonly SnapshotValue[])[];
  /** Blocks of more than one cell that a formula in their first cell fills; absent where nobody asked. */
  readonly blocks?: readonly Area[];
  /** Number formats by address, where one is set; absent where nobody asked. */
  readonly formats?: ReadonlyMap<string, string>;
}

/** An open workbook, whatever it is open in. */
export interface BookSnapshot {
  readonly sheets: readonly SheetSnapshot[];
  readonly names: readonly NameModel[];
  /** Added to the number of a day: workbooks of old counted from 1904. */
  readonly dayShift?: number;
}

export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** A cell as it stands; a blank one shows empty text. */
export interface FoundCell extends CellPlace {
  readonly value: SnapshotValue;
  /** Without its "=". */
  readonly formula?: string;
}

interface Sheet extends SheetSnapshot {
  readonly row: number;
  readonly column: number;
}

/** "Tanks!B7" */
export const placeText = ({ sheet, row, column }: CellPlace): string =>
  `${sheet}!${cellAddress(row, column)}`;

/** The cells and names of an open workbook, by place and by name. */
export interface Cells {
  readonly names: readonly NameModel[];
  readonly dayShift?: number;
  name(name: string): NameModel | undefined;
  at(place: CellPlace): FoundCell;
  /** A row below the last one that holds something. */
  end(sheet: string): number;
}

/** Those of a snapshot. */
export class BookCells implements Cells {
  readonly names: readonly NameModel[];
  readonly dayShift: number;
  private readonly sheets = new Map<string, Sheet>();
  /** As they are written: millions of cells are asked for so, and small letters would be made anew each time. */
  private readonly asWritten = new Map<string, Sheet>();
  private readonly named = new Map<string, NameModel>();
  private readonly onSheet = new Map<string, NameModel[]>();
  private readonly ofOneCell = new Map<string, string>();

  constructor(book: BookSnapshot) {
    this.names = book.names;
    this.dayShift = book.dayShift ?? 0;
    for (const sheet of book.sheets) {
      const corner = readArea(splitSheet(sheet.from).address) ?? { row: 0, column: 0 };
      const placed = { ...sheet, ...corner };
      this.sheets.set(sheet.name.toLowerCase(), placed);
      this.asWritten.set(sheet.name, placed);
    }
    for (const model of book.names) {
      this.named.set(model.name.toLowerCase(), model);
      const sheet = model.sheet.toLowerCase();
      const { row, column, rows, columns } = model.area;
      const cell = `${sheet}!${row},${column}`;
      if (rows * columns === 1 && !this.ofOneCell.has(cell)) this.ofOneCell.set(cell, model.name);
      this.onSheet.set(sheet, [...(this.onSheet.get(sheet) ?? []), model]);
    }
  }

  name(name: string): NameModel | undefined {
    return this.named.get(name.toLowerCase());
  }

  private sheetNamed(name: string): Sheet | undefined {
    return this.asWritten.get(name) ?? this.sheets.get(name.toLowerCase());
  }

  at({ sheet: name, row, column }: CellPlace): FoundCell {
    const sheet = this.sheetNamed(name);
    const r = sheet ? row - sheet.row : -1;
    const c = sheet ? column - sheet.column : -1;
    const value = sheet?.values[r]?.[c] ?? '';
    const typed = sheet?.formulas[r]?.[c];
    return typeof typed === 'string' && typed.startsWith('=')
      ? { sheet: name, row, column, value, formula: typed.slice(1) }
      : { sheet: name, row, column, value };
  }

  end(sheet: string): number {
    const found = this.sheetNamed(sheet);
    return found ? found.row + found.values.length : 0;
  }

  get sheetNames(): readonly string[] {
    return [...this.sheets.values()].map(({ name }) => name);
  }

  hasSheet(sheet: string): boolean {
    return this.sheetNamed(sheet) !== undefined;
  }

  /** Names of cells of one sheet. */
  namesOn(sheet: string): readonly NameModel[] {
    return this.onSheet.get(sheet.toLowerCase()) ?? [];
  }

  /** The name that stands for this one cell alone. */
  nameOf({ sheet, row, column }: CellPlace): string | undefined {
    return this.ofOneCell.get(`${sheet.toLowerCase()}!${row},${column}`);
  }

  /** Columns of a sheet up to the last that holds something. */
  width(sheet: string): number {
    const found = this.sheetNamed(sheet);
    return found ? found.column + (found.values[0]?.length ?? 0) : 0;
  }

  /** The block that a formula fills and this cell is part of; undefined outside of any. */
  blockAt({ sheet, row, column }: CellPlace): Area | undefined {
    const blocks = this.sheetNamed(sheet)?.blocks;
    return blocks?.find((block) => covers(block, row, column));
  }

  /** The number format that the file gives a cell. */
  formatAt({ sheet, row, column }: CellPlace): string | undefined {
    return this.sheetNamed(sheet)?.formats?.get(cellAddress(row, column));
  }
}
