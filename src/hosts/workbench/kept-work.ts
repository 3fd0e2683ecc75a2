import type { WorkbookData } from '@odoo/o-spreadsheet';
import type { StoredValues } from '../../engine/patches/open-with-stored-values';
import type { KeptGrid } from './earlier-work';
import type { PackedSheets, SheetTexts } from './packed-sheets';
import type { OpenedWorkbook } from './save-into-file';
import type { Plans } from './workbook-from';

/** The sheets of a workbook with what their formulas gave. */
export interface StoredWork {
  /**
   * The build of the page that computed it: another one may compute something else. Left out where a formula may give
   * something else by now: then there are no values.
   */
  readonly program?: string;
  readonly sheets: PackedSheets;
}

/** A file as it was read. */
export interface FreshFile {
  readonly bytes: Uint8Array;
  readonly stored: StoredValues;
  /** Kinds of things of the file that the grid does not show. */
  readonly unseen: readonly string[];
}

/** What is on the workbench. */
export interface Work {
  /** The whole of it, or the frame alone where its sheets are stored. */
  readonly data: Partial<WorkbookData>;
  readonly stored?: StoredWork;
  /** The file that it was opened from, into which it is saved. */
  readonly opened?: Omit<OpenedWorkbook, 'before'> & { readonly before: KeptGrid };
  /** Kinds of things of that file that the grid does not show. */
  readonly unseen?: readonly string[];
  /** A file whose formulas have not been looked at yet. */
  readonly fresh?: FreshFile;
  /** The farm from which its plan was made, as JSON. */
  readonly farm?: string;
  /** The plans whose sheets are in it, by the prefix of their ids. */
  readonly plans?: Plans;
  /** The demo plan as it came, not yet touched: it may be replaced without asking. */
  readonly untouchedDemo?: boolean;
}

/** Work that stands on the grid. */
export interface ShownWork extends Work {
  readonly opened?: OpenedWorkbook;
}

/** The same as it is kept. */
export interface WorkToKeep extends ShownWork {
  readonly stored: StoredWork & { readonly sheets: Readonly<Record<string, SheetTexts>> };
}
