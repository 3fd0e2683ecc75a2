/**
 * The workbook as plain data. The plan makes it from the farm; writers put it into a file, into Excel
 * or onto the workbench's grid. It knows no host. Rows and columns count from 0.
 */

/** The part a cell plays; each writer gives every look the same colours (see looks.ts). */
export type LookId =
  | 'text'
  | 'title'
  | 'lead'
  | 'heading'
  | 'columnHead'
  | 'label'
  | 'unit'
  | 'input'
  | 'preset'
  | 'computed'
  | 'result'
  | 'verdict'
  | 'caution'
  | 'source'
  | 'tick'
  | 'once';

export type FormatId =
  'general' | 'whole' | 'one' | 'two' | 'three' | 'percent' | 'date' | 'money' | 'text';

export interface CellModel {
  readonly value?: number | string | boolean;
  /** Without "=". Either live (GILL.…) or plain, never both: the plan was made one way. */
  readonly formula?: string;
  /** The block that a live formula fills, itself included. */
  readonly spill?: { readonly rows: number; readonly columns: number };
  readonly look: LookId;
  readonly format?: FormatId;
  /** A note on the cell, for a number that needs explaining. */
  readonly note?: string;
  /** Who wrote it, where it is not the plan's. */
  readonly noteBy?: string;
}

export interface Area {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

export interface NameModel {
  /** At least four letters, so that it looks like no cell. */
  readonly name: string;
  readonly sheet: string;
  readonly area: Area;
}

/** A register: head row first. Formulas inside use cell references, not table references. */
export interface TableModel {
  readonly name: string;
  readonly area: Area;
  readonly heads: readonly string[];
}

export interface ValidationModel {
  readonly area: Area;
  readonly rule:
    | { readonly kind: 'list'; readonly name: string }
    | { readonly kind: 'words'; readonly words: readonly string[] }
    | { readonly kind: 'number'; readonly min?: number; readonly max?: number }
    | { readonly kind: 'whole'; readonly min?: number; readonly max?: number }
    | { readonly kind: 'date' };
  /** Said when something else is typed: what would be right. */
  readonly message: string;
}

/** Marks result cells; the formula is for the area's first cell and never calls a GILL function. */
export interface ConditionModel {
  readonly area: Area;
  readonly formula: string;
  readonly mark: 'good' | 'watch' | 'bad';
}

export interface ChartModel {
  /** Of a scatter chart the categories are the numbers along the bottom. */
  readonly kind: 'line' | 'column' | 'stackedColumn' | 'area' | 'scatter';
  readonly title: string;
  readonly place: Area;
  readonly categories: { readonly sheet: string; readonly area: Area };
  readonly series: readonly {
    readonly name: string;
    readonly sheet: string;
    readonly area: Area;
  }[];
  readonly categoryTitle?: string;
  readonly valueTitle?: string;
}

export type Paper = 'A4' | 'Letter';

export interface SheetModel {
  readonly name: string;
  /** What the sheet answers, shown under its title and as help. */
  readonly question: string;
  /** Widths in characters. */
  readonly columnWidths: readonly number[];
  /** Sparse: rows[r]?.[c]. */
  readonly rows: readonly (readonly (CellModel | undefined)[])[];
  readonly merges: readonly Area[];
  /** Rows whose formulas give sentences of so many lines: as high at least, before anything is computed. */
  readonly minLines?: Readonly<Record<number, number>>;
  readonly tables: readonly TableModel[];
  readonly validations: readonly ValidationModel[];
  readonly conditions: readonly ConditionModel[];
  readonly charts: readonly ChartModel[];
  /** Columns that serve formulas alone: folded away, unfolded by whoever wants to look. */
  readonly folded?: { readonly column: number; readonly columns: number };
  readonly frozen: { readonly rows: number; readonly columns: number };
  /** Of the sheet's tab, such as "#3C6B22". */
  readonly tabColour?: string;
  readonly print: {
    /** What the sheet asks for; it fits both. A4 without it. */
    readonly paper?: Paper;
    readonly landscape: boolean;
    /** Rows repeated on each page: how many, 0 for none. */
    readonly headRows: number;
    /** First of these rows; the sheet's first without it. Pages before it go without. */
    readonly headFrom?: number;
    /** What is printed, each on pages of its own, beside the frozen columns; the whole sheet without it. */
    readonly areas?: readonly Area[];
    /** Pages side by side, for a sheet too wide for one; frozen columns are repeated. One without it. */
    readonly pagesWide?: number;
    /** Pages on top of each other; as many as it takes without it. */
    readonly pagesTall?: number;
  };
}

/** How many of the first columns are repeated on pages further to the right; 0 for none. */
export const repeatedColumns = ({ print, frozen }: Pick<SheetModel, 'print' | 'frozen'>): number =>
  (print.pagesWide ?? 1) > 1 || print.areas?.some(({ column }) => column >= frozen.columns)
    ? frozen.columns
    : 0;

/** The sheets for the paper that offices have where these units are in use. */
export const onPaperFor = (units: 'metric' | 'US', sheets: readonly SheetModel[]): SheetModel[] =>
  sheets.map((sheet) =>
    units === 'US' ? { ...sheet, print: { ...sheet.print, paper: 'Letter' } } : sheet,
  );

export interface WorkbookModel {
  readonly title: string;
  readonly formulas: 'live' | 'plain';
  /** ISO date that stands for "made on" in the file, so that the same farm gives the same bytes. */
  readonly made: string;
  readonly sheets: readonly SheetModel[];
  readonly names: readonly NameModel[];
  /** The farm file as JSON, kept inside the workbook so that the pane finds it again; a workbook of no farm has none. */
  readonly farm?: string;
}

/** The workbook of a farm. */
export interface PlanModel extends WorkbookModel {
  readonly farm: string;
}
