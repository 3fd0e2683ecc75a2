import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { addressesOf } from '../../engine/listed-cells';
import type { KeptFormulas } from '../../engine/patches/kept-formulas';
import type { StoredValues } from '../../engine/patches/open-with-stored-values';
import { AT_A_TIME, Opening } from '../../engine/patches/opening';
import { type ContentsOf, takenApart } from '../../engine/sheet-contents';
import { quietly } from '../../engine/quietly';
import type { Steps } from '../../plan/in-steps';
import type { GuardedFile, OnRefused } from './file-guard';

export interface GridOptions {
  readonly storedValues?: StoredValues | undefined;
  /** What the sheets hold, where they come in one after another and the data is their frame. */
  readonly contentsOf?: ContentsOf | undefined;
  readonly keptFormulas?: KeptFormulas | undefined;
  /** The file that is on the grid, which has to follow what is done to its frame. */
  readonly file?: GuardedFile | undefined;
  /** Told why the grid does not do something to a file that was opened. */
  readonly onRefused?: OnRefused | undefined;
}

/** The grid's model of a workbook, and what of it is not in yet. */
export interface GridModel {
  readonly model: Model;
  readonly opening?: Opening | undefined;
}

function modelOf(
  data: Partial<WorkbookData>,
  opening: Opening | undefined,
  options: Omit<GridOptions, 'contentsOf'>,
): GridModel {
  const custom = { opening, ...options };
  return { model: quietly(() => new Model(data, { custom })), opening };
}

/** The model of a workbook; its sheets come in when they are looked at, where they are given apart. */
export const modelInTurn = (
  data: Partial<WorkbookData>,
  { contentsOf, ...options }: GridOptions,
): GridModel => modelOf(data, contentsOf && new Opening(contentsOf), options);

/** So many steps of the grid between two words of how far it is. */
const BATCH = 16;

/** About so many steps: cells, values and dependencies come in a few at a time, heights row by row. */
function expected(frame: Partial<WorkbookData>, contentsOf: ContentsOf): number {
  let steps = 1;
  for (const { id, rowNumber } of frame.sheets ?? []) {
    const { cells = {} } = contentsOf(id) ?? {};
    steps += rowNumber + (3 * addressesOf(cells).length) / AT_A_TIME;
  }
  return steps;
}

/** The model of a workbook of which formulas have stored values, with all of its sheets in. */
export function* wholeModel(
  data: Partial<WorkbookData>,
  { storedValues = {}, contentsOf, ...options }: GridOptions,
): Steps<GridModel> {
  yield 0;
  const { frame, contents } = contentsOf
    ? { frame: data, contents: contentsOf }
    : apart(data, storedValues);
  const all = expected(frame, contents);
  yield 0;
  const opening = new Opening(contents, true);
  const grid = modelOf(frame, opening, options);
  let taken = 0;
  const enough = (): boolean => ++taken % BATCH === 0;
  while (!quietly(() => opening.advance(enough))) yield Math.min(taken / all, 1);
  return grid;
}

function apart(data: Partial<WorkbookData>, values: StoredValues) {
  const { frame, contents } = takenApart(data, values);
  return { frame, contents: (sheetId: string) => contents.get(sheetId) };
}
