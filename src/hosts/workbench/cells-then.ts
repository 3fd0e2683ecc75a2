import type { CellPosition, Model, Style, WorkbookData } from '@odoo/o-spreadsheet';
import { type Ids, Palette, zonesOf } from '../../engine/grid-data';
import { exportedFrame, spelled } from '../../engine/patches/exported-data';
import type { StoredResult } from '../../engine/patches/open-with-stored-values';
import { quietly } from '../../engine/quietly';
import { computeNothing } from '../../engine/what-takes-long';
import { RefusedChange } from '../../ooxml/cell-changes';
import { type LinesStep, movedPlace } from '../../ooxml/follow/file-step';
import { partly, type Steps } from '../../plan/in-steps';
import { cellAddress, type Place } from '../../plan/addresses';
import { type CellGetters, followUnread, unreadFormulas } from './follow-unread';
import { fileSteps, type GridStep } from './grid-steps';
import { wholeModel } from './laying-out';

/** Entries by column and row, from 0: of columns there are few, and a list of its own costs more than its entries. */
export type Columns<Entry> = (Entry | undefined)[][];

/** The cells of a sheet of the grid at some moment: texts and looks are those that the grid itself holds. */
export interface CellsOfSheet {
  readonly contents: Columns<string>;
  readonly styles: Columns<Style>;
  readonly formats: Columns<string>;
  readonly hasFormulas: boolean;
  /** Earlier builds of the page had lists by row (earlier-work.ts). */
  readonly byColumn: true;
}

/** A workbook of the grid at some moment. */
export interface GridThen {
  /** All but the cells. */
  readonly frame: WorkbookData;
  readonly cells: Readonly<Record<string, CellsOfSheet>>;
}

interface Cell {
  readonly id: number;
  readonly isFormula: boolean;
  readonly content?: string;
  readonly style?: Style;
  readonly format?: string;
  readonly compiledFormula?: { toFormulaString(getters: object): string };
}

/** So many cells are looked at in one step. */
const CELLS = 1_000;

/** A cell's content as the grid would read it again; undefined where it only has a look. */
export function contentOnGrid(cell: Cell | undefined, getters: object): string | undefined {
  const text = cell?.isFormula
    ? cell.compiledFormula?.toFormulaString(getters)
    : spelled(cell?.content ?? '');
  return text === '' ? undefined : text;
}

/** A text in one piece: the grid puts formulas together, and all pieces of which they were made are held. */
function inOnePiece(text: string | undefined): string | undefined {
  // To be read as a number, a text is put in order first.
  if (text !== undefined) Number(text);
  return text;
}

/** Looks at every cell of a sheet of the grid, in steps. */
export function* eachCell(
  { getters }: Model,
  sheetId: string,
  look: (cell: Cell, position: CellPosition) => void,
): Steps<void> {
  const cells = getters.getCells(sheetId) as readonly Cell[];
  for (let n = 0; n < cells.length; n++) {
    const cell = cells[n] as Cell;
    look(cell, getters.getCellPosition(cell.id));
    if (n % CELLS === 0) yield n / cells.length;
  }
}

/** Looks at every entry, in steps. */
export function* eachEntry<Entry>(
  columns: Columns<Entry>,
  look: (entry: Entry, row: number, column: number) => void,
): Steps<void> {
  let seen = 0;
  for (const [column, entries = []] of columns.entries()) {
    for (let row = 0; row < entries.length; row++) {
      const entry = entries[row];
      if (entry !== undefined) look(entry, row, column);
      seen += 1;
      if (seen % CELLS === 0) yield column / columns.length;
    }
  }
}

export const entryAt = <Entry>(columns: Columns<Entry>, row: number, column: number) =>
  columns[column]?.[row];

function put<Entry>(
  columns: Columns<Entry>,
  row: number,
  column: number,
  entry: Entry | undefined,
): void {
  if (entry !== undefined) (columns[column] ??= [])[row] = entry;
}

/** Lists that are as long as what they hold: while they grow they take room for more. */
const tight = <Entry>(columns: Columns<Entry>): Columns<Entry> =>
  Array.from(columns, (entries = []) => entries.slice());

function* cellsOf(model: Model, sheetId: string): Steps<CellsOfSheet> {
  const [contents, styles, formats]: [Columns<string>, Columns<Style>, Columns<string>] = [
    [],
    [],
    [],
  ];
  let hasFormulas = false;
  yield* eachCell(model, sheetId, (cell, { row, col }) => {
    const content = contentOnGrid(cell, model.getters);
    put(contents, row, col, cell.isFormula ? inOnePiece(content) : content);
    put(styles, row, col, cell.style);
    put(formats, row, col, cell.format);
    hasFormulas ||= cell.isFormula;
  });
  return {
    contents: tight(contents),
    styles: tight(styles),
    formats: tight(formats),
    hasFormulas,
    byColumn: true,
  };
}

/** What is on the grid now. */
export function* gridNow(model: Model): Steps<GridThen> {
  const ids = model.getters.getSheetIds();
  const cells: Record<string, CellsOfSheet> = {};
  for (const [n, id] of ids.entries()) {
    cells[id] = yield* partly(cellsOf(model, id), n / ids.length, (n + 1) / ids.length);
  }
  return { frame: exportedFrame(model), cells };
}

/** A value for formulas that nobody looks at: they need not be computed. */
const UNSEEN: StoredResult = { value: '' };

/** The grid as it was then without what was typed, for a model in which the steps are done once more. */
function* dataOf({ frame, cells }: GridThen): Steps<{
  data: WorkbookData;
  storedValues: Record<string, Record<string, StoredResult>>;
}> {
  const [styles, formats] = [new Palette<Style>(), new Palette<string>()];
  const storedValues: Record<string, Record<string, StoredResult>> = {};
  const sheets: WorkbookData['sheets'] = [];
  for (const sheet of frame.sheets) {
    const then = cells[sheet.id];
    const formulas: Record<string, string> = {};
    const stored: Record<string, StoredResult> = (storedValues[sheet.id] = {});
    const [styled, formatted] = [[], []] as [Ids, Ids];
    if (then) {
      yield* eachEntry(then.contents, (content, row, column) => {
        if (!content.startsWith('=')) return;
        const address = cellAddress(row, column);
        formulas[address] = content;
        stored[address] = UNSEEN;
      });
      yield* eachEntry(then.styles, (style, row, column) => {
        (styled[column] ??= [])[row] = styles.idOf(style);
      });
      yield* eachEntry(then.formats, (format, row, column) => {
        (formatted[column] ??= [])[row] = formats.idOf(format);
      });
    }
    sheets.push({
      ...sheet,
      cells: formulas,
      styles: zonesOf(styled),
      formats: zonesOf(formatted),
    });
  }
  const data = { ...frame, sheets, styles: styles.entries, formats: formats.entries };
  return { data: data as WorkbookData, storedValues };
}

const linesOf = (steps: readonly GridStep[], sheetId: string): LinesStep[] =>
  steps
    .filter((step) => step.sheetId === sheetId)
    .flatMap((step) => fileSteps(step, sheetId))
    .filter((step): step is LinesStep => step.kind === 'lines');

/** The grid as it was then, with the frame that steps have given it since. */
export function* gridAfter(then: GridThen, steps: readonly GridStep[]): Steps<GridThen> {
  if (steps.length === 0) return then;
  const { data, storedValues } = yield* partly(dataOf(then), 0, 0.1);
  const { model } = yield* partly(wholeModel(data, { storedValues }), 0.1, 0.4);
  computeNothing(model);
  const getters = model.getters as unknown as CellGetters;
  for (const step of steps) {
    const { type, ...payload } = step;
    const unread = unreadFormulas(getters);
    const done = quietly(() => model.dispatch(type as never, payload as never));
    if (!done.isSuccessful) {
      throw new RefusedChange(
        'What was done to the lines and sheets of the file could not be followed once more while it was saved.',
      );
    }
    followUnread(getters, unread, step, (cell) => model.dispatch('UPDATE_CELL', cell));
    yield 0.5;
  }
  const after = yield* partly(gridNow(model), 0.5, 0.8);
  // What was typed moves along with its lines, which needs no model.
  for (const [sheetId, { contents }] of Object.entries(after.cells)) {
    const lines = linesOf(steps, sheetId);
    const typed = then.cells[sheetId]?.contents ?? [];
    const entries = eachEntry(typed, (content, row, column) => {
      if (content.startsWith('=')) return;
      let place: Place | undefined = { row, column };
      for (const step of lines) place = place && movedPlace(place, step);
      if (place) put(contents, place.row, place.column, content);
    });
    yield* partly(entries, 0.8, 1);
  }
  return after;
}
