import type { CellPosition, Model } from '@odoo/o-spreadsheet';
import type { ContentsOf, SheetContents } from '../sheet-contents';

/** So many steps of a part between two looks at whether it is enough. */
export const AT_A_TIME = 48;

/** A part of a sheet that is taken in step by step, or at once where something asks for it. */
class Part {
  private steps: Iterator<void> | undefined;

  constructor(private take: (() => Iterator<void>) | undefined) {}

  /** True once it is in. */
  advance(enough: () => boolean): boolean {
    while (this.take && !enough()) {
      this.steps ??= this.take();
      if (this.steps.next().done === true) this.drop();
    }
    return !this.take;
  }

  finish(): void {
    this.advance(() => false);
  }

  /** It is not needed any more, nor what it is made of. */
  drop(): void {
    this.take = undefined;
    this.steps = undefined;
  }
}

/** What a sheet is made of on the grid; each needs the cells. */
export type PartName = 'cells' | 'borders' | 'values' | 'heights' | 'tracked';

/** Has `whole[key]` taken in when it is first looked at. */
function onFirstLook(whole: object, key: string, part: Part): void {
  Object.defineProperty(whole, key, {
    configurable: true,
    enumerable: true,
    get(this: Record<string, unknown>): unknown {
      part.finish();
      return this[key];
    },
    set(this: object, value: unknown) {
      putInPlace(whole, key, value);
    },
  });
}

/** Puts a part that was taken in where the grid looks for it. */
export function putInPlace(whole: object, key: string, value: unknown): void {
  Object.defineProperty(whole, key, {
    configurable: true,
    enumerable: true,
    writable: true,
    value,
  });
}

/** An edited cell, and what it showed before. */
export interface LateEdit {
  readonly position: CellPosition;
  readonly was: object | undefined;
}

/** Takes the edits that were made before the whole workbook was in. */
interface LateEdits {
  /** Writes down what depends on what; true once that is done. */
  writeDown(enough: () => boolean): boolean;
  /** Everything that hangs on the cells is to be computed with the next command. */
  compute(positions: readonly CellPosition[]): void;
}

const NOTHING: SheetContents = { cells: {}, styles: {}, formats: {}, borders: {}, values: {} };

const placeOf = ({ sheetId, col, row }: CellPosition): string => `${sheetId}!${col},${row}`;

/**
 * A workbook that is opened with stored values, sheet by sheet. What is not in yet is taken in at once where
 * something looks at it, so that nobody can tell; edits wait until all is in, since what hangs on a cell is not
 * known before. The data of its sheets is their frame; what they hold is asked for by their ids: cells that are texts
 * by their addresses. Its sheets are as large as they say.
 */
export class Opening {
  private readonly sheets = new Map<string, Map<PartName, Part>>();
  private readonly pending = new Map<string, LateEdit>();
  private lateEdits: LateEdits | undefined;
  private isComplete = false;
  private contentsOf: ContentsOf | undefined;
  private readonly unpacked = new Map<string, SheetContents>();
  private workbook: object | undefined;
  private readonly late: CellPosition[] = [];

  /** With `isWhole` nobody looks at it before all is in. */
  constructor(
    contentsOf: ContentsOf,
    private readonly isWhole = false,
  ) {
    this.contentsOf = contentsOf;
  }

  /** Whether it is that of a workbook: of the first one that asks. */
  isOf(workbook: object): boolean {
    this.workbook ??= workbook;
    return this.workbook === workbook;
  }

  /** Whether nothing of it shows yet. */
  get isHidden(): boolean {
    return this.isWhole && !this.isComplete;
  }

  /** What a sheet holds, as long as it is not in. */
  contents(sheetId: string): SheetContents {
    const known = this.unpacked.get(sheetId);
    if (known) return known;
    const contents = this.contentsOf?.(sheetId) ?? NOTHING;
    this.unpacked.set(sheetId, contents);
    return contents;
  }

  /** Whether all is in and what depends on what is known. */
  get isReady(): boolean {
    return this.isComplete;
  }

  /** Whether there were edits whose consequences are not computed. */
  get hasPending(): boolean {
    return this.pending.size > 0;
  }

  takeEditsWith(late: LateEdits): void {
    this.lateEdits = late;
  }

  /** Says how a part of a sheet is taken in; the first look at `whole[key]` does so at once. */
  expect(
    sheetId: string,
    name: PartName,
    take: () => Iterator<void>,
    whole?: object,
    key = sheetId,
  ): void {
    const part = new Part(take);
    let parts = this.sheets.get(sheetId);
    if (!parts) this.sheets.set(sheetId, (parts = new Map()));
    parts.set(name, part);
    if (whole) onFirstLook(whole, key, part);
  }

  /** Whether a part is in, or is none that is taken in by turns. */
  isIn(sheetId: string, name: PartName): boolean {
    return (
      this.sheets
        .get(sheetId)
        ?.get(name)
        ?.advance(() => true) ?? true
    );
  }

  /** Whether the sheet was there when the workbook was opened. */
  isOpened(sheetId: string): boolean {
    return this.sheets.has(sheetId);
  }

  finishPart(sheetId: string, name: PartName): void {
    this.sheets.get(sheetId)?.get(name)?.finish();
  }

  /** Takes one part of every sheet in. */
  finishAll(name: PartName): void {
    for (const parts of this.sheets.values()) parts.get(name)?.finish();
  }

  /** Cells that have to be computed once all others have their values. */
  computeLater(cells: readonly CellPosition[]): void {
    for (const cell of cells) this.late.push(cell);
  }

  hasLate(): boolean {
    return this.late.length > 0;
  }

  /** So many of these cells, the last one first. */
  takeLate(count: number): readonly CellPosition[] {
    return this.late.splice(-count).reverse();
  }

  /** Everything is computed anew: what was stored counts no longer. */
  dropValues(): void {
    this.late.length = 0;
    for (const parts of this.sheets.values()) parts.get('values')?.drop();
    this.pending.clear();
  }

  /** Goes on until all is in, or until it is enough; true when all is in. */
  advance(enough: () => boolean): boolean {
    for (const [sheetId, parts] of this.sheets) {
      for (const part of parts.values()) if (!part.advance(enough)) return false;
      this.unpacked.delete(sheetId);
    }
    if (this.lateEdits && !this.lateEdits.writeDown(enough)) return false;
    this.isComplete = true;
    this.contentsOf = undefined;
    return true;
  }

  finish(): void {
    if (!this.isComplete) this.advance(() => false);
  }

  /** Keeps an edit until all is in, with what the cell showed before the first one. */
  keep(position: CellPosition, was: object | undefined): void {
    const place = placeOf(position);
    if (!this.pending.has(place)) this.pending.set(place, { position, was });
  }

  /** The edits that were kept. */
  edits(): readonly LateEdit[] {
    return [...this.pending.values()];
  }

  /** What hangs on the edits has been computed. */
  forgetEdits(): void {
    this.pending.clear();
  }

  /** Hands the edits over for the next command; all must be in. */
  handOver(): void {
    this.lateEdits?.compute(this.edits().map(({ position }) => position));
  }
}

/** Takes all in at once, and computes what was typed meanwhile. */
export function settle(model: Model, opening: Opening): void {
  opening.finish();
  if (!opening.hasPending) return;
  opening.handOver();
  model.dispatch('EVALUATE_CELLS', { cellIds: [] });
}
