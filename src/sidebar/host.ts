import type { OpenSheet } from '../check/open-sheet';
import type { LongerTable } from '../ooxml/longer-tables';
import type { Recalculator } from '../why/why';
import type { BookSnapshot, CellPlace, Cells } from '../plan/book-snapshot';
import type { WorkbookModel } from '../plan/workbook-model';

export type { OpenSheet };

export interface Selection {
  readonly sheet: string;
  /** Without the sheet: "B5:D9". */
  readonly address: string;
  readonly values: readonly (readonly (string | number | boolean)[])[];
}

/** A cell that gets a value; undefined empties it. */
export interface EnteredCell {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly value: string | number | undefined;
}

export interface BuildReport {
  /** Names of the sheets that were made, in order; they differ from the plan's where a name was taken. */
  readonly sheets: readonly string[];
  /** What did not go as wished although the plan stands, in sentences. */
  readonly notes?: readonly string[];
}

/** What the sidebar needs of the spreadsheet that it stands beside. */
export interface Host {
  readonly kind: 'excel' | 'workbench';
  /** What cannot be done here, in sentences; empty where all works. */
  readonly limits: readonly string[];
  /** What runs here, and in which version. */
  readonly about?: string;
  /** Whether the spreadsheet is dark; undefined where it does not say, and the system's own is followed. */
  dark(): boolean | undefined;
  /** Calls back when `dark` may answer otherwise than before. */
  onDark(listener: () => void): void;
  /** Said before a build: what cannot be undone. */
  readonly buildWarning: string;
  /**
   * Writes the plan into new sheets. Never touches what is there; removes what it made where it fails or
   * is cancelled. `progress` gets a share from 0 to 1, and in words what is being done.
   */
  build(
    plan: WorkbookModel,
    progress: (share: number, doing?: string) => void,
    cancel: AbortSignal,
  ): Promise<BuildReport>;
  /** Takes a sheet out of the workbook, with all that stands on it. */
  removeSheet(name: string): Promise<void>;
  /** Whether the open workbook holds a plan, from whose cells a farm is read. */
  holdsPlan(): Promise<boolean>;
  /** The farm that was kept inside the workbook, as JSON text. */
  readFarm(): Promise<string | undefined>;
  selection(): Promise<Selection>;
  /**
   * The cells at an address such as "C2:C50" or "B:B", on the sheet in front where none is named. Whole
   * columns are read only as far as they are used. Throws a sentence where there is no such sheet or cell.
   */
  read(sheet: string | undefined, address: string): Promise<Selection>;
  /** Calls back with every new selection; the returned function ends that. */
  onSelection(listener: (selection: Selection) => void): () => void;
  /** Puts a formula (with "=") into the first cell of the selection, or fills it beside a column. */
  putFormula(
    sheet: string,
    address: string,
    formulas: readonly (readonly string[])[],
  ): Promise<void>;
  /** Enters formulas (with "=") into cells of one sheet, all in one round trip. */
  putFormulas(
    sheet: string,
    cells: readonly { readonly address: string; readonly formula: string }[],
  ): Promise<void>;
  /** Whether tables can be made longer in the open workbook. */
  readonly lengthensTables: boolean;
  /** Enters values into cells, texts as texts, once the tables reach down to them. */
  enter(cells: readonly EnteredCell[], longer: readonly LongerTable[]): Promise<void>;
  /**
   * The open workbook's cells and names, as the farm is read from it. Where a program tells of every edit, only what
   * was edited since the last time is read, and `again`: cells whose own formulas may show something else.
   */
  book(again?: readonly CellPlace[]): Promise<Cells | BookSnapshot>;
  /** Calls back once cells may hold something else than before; the returned function ends that. */
  onChange(listener: () => void): () => void;
  goTo(sheet: string, address: string): Promise<void>;
  /** Every sheet's used cells, for the checks. */
  readSheets(): Promise<readonly OpenSheet[]>;
  /** The workbook's own bytes, for the hand-over and for what stands behind a figure. */
  fileBytes(): Promise<Uint8Array>;
  /** Computes a part of a workbook anew, beside the open one; absent where the program cannot do that. */
  recalculator?(): Promise<Recalculator>;
  /** Opens a file as a new workbook, or downloads it where that cannot be done. */
  openCopy(name: string, bytes: Uint8Array): Promise<'opened' | 'downloaded'>;
}
