import { tokenize, parse, type AstExpression, type Token } from '@borgar/fx';
import { columnNumber, covers, readArea, splitSheet } from '../plan/addresses';
import type { BookCells, CellPlace, FoundCell, SnapshotValue } from '../plan/book-snapshot';
import type { Area } from '../plan/workbook-model';

/** The cells of a workbook as somebody reads them who follows a figure back. */

export interface SheetArea {
  readonly sheet: string;
  readonly area: Area;
  /** The defined name that was written, where one was. */
  readonly name?: string;
}

export type Node = AstExpression;

const parsed = new Map<string, Node | undefined>();
const MAX_KEPT = 50_000;

/** A formula without its "=" taken apart; undefined where it cannot be read. */
export function treeOf(formula: string): Node | undefined {
  if (parsed.has(formula)) return parsed.get(formula);
  let tree: Node | undefined;
  try {
    tree = parse(tokenize(formula, { mergeRefs: true }) as Token[]) as unknown as Node;
  } catch {
    tree = undefined;
  }
  if (parsed.size > MAX_KEPT) parsed.clear();
  parsed.set(formula, tree);
  return tree;
}

/** A key for sets and maps. */
export const keyOf = ({ sheet, row, column }: CellPlace): string =>
  `${sheet.toLowerCase()}!${row},${column}`;

export const isSingle = ({ area }: SheetArea): boolean => area.rows * area.columns === 1;

export const firstOf = ({ sheet, area }: SheetArea): CellPlace => ({
  sheet,
  row: area.row,
  column: area.column,
});

/** "A:C" or "3:5", as far as the sheet is used. */
function beamArea(text: string, sheet: string, cells: BookCells): Area | undefined {
  const columns = /^\$?([A-Z]{1,3}):\$?([A-Z]{1,3})$/i.exec(text);
  if (columns) {
    const ends = [columnNumber(columns[1] ?? ''), columnNumber(columns[2] ?? '')];
    const column = Math.min(...ends);
    return { row: 0, column, rows: cells.end(sheet), columns: Math.max(...ends) - column + 1 };
  }
  const rows = /^\$?(\d+):\$?(\d+)$/.exec(text);
  if (!rows) return undefined;
  const ends = [Number(rows[1]) - 1, Number(rows[2]) - 1];
  const row = Math.min(...ends);
  return { row, column: 0, rows: Math.max(...ends) - row + 1, columns: cells.width(sheet) };
}

/** The cells that a reference or name means; undefined where it cannot be followed inside the workbook. */
export function areaOf(text: string, sheet: string, cells: BookCells): SheetArea | undefined {
  const known = cells.name(text);
  if (known) return { sheet: known.sheet, area: known.area, name: known.name };
  const split = splitSheet(text);
  const on = split.sheet ?? sheet;
  if (/[[\]]/.test(on) || !cells.hasSheet(on)) return undefined;
  const area = readArea(split.address) ?? beamArea(split.address, on, cells);
  return area && { sheet: on, area };
}

/** A cell with the formula that fills it, which may stand in the first cell of a block. */
export interface TracedCell extends FoundCell {
  /** Where the formula stands, if not in the cell itself. */
  readonly filledFrom?: CellPlace;
}

export function tracedCell(place: CellPlace, cells: BookCells): TracedCell {
  const cell = cells.at(place);
  if (cell.formula !== undefined) return cell;
  const block = cells.blockAt(place);
  if (!block) return cell;
  const from = { sheet: place.sheet, row: block.row, column: block.column };
  const { formula } = cells.at(from);
  return formula === undefined ? cell : { ...cell, formula, filledFrom: from };
}

/** Cells of an area that hold something, row by row. */
export function filledCells({ sheet, area }: SheetArea, cells: BookCells): TracedCell[] {
  const found: TracedCell[] = [];
  const bottom = Math.min(area.row + area.rows, cells.end(sheet));
  const right = Math.min(area.column + area.columns, cells.width(sheet));
  for (let row = area.row; row < bottom; row++) {
    for (let column = area.column; column < right; column++) {
      const cell = tracedCell({ sheet, row, column }, cells);
      if (cell.value !== '' || cell.formula !== undefined) found.push(cell);
    }
  }
  return found;
}

export const ERROR = /^#(?:VALUE!|N\/A|NUM!|NAME\?|REF!|DIV\/0!|NULL!|SPILL!|CALC!|BUSY!|ERROR)/;

export const isErrorValue = (value: SnapshotValue | undefined): boolean =>
  typeof value === 'string' && ERROR.test(value);

/** The smallest named block that a cell is part of, of more than one row: a column of a register or table. */
export function namedColumn(
  place: CellPlace,
  cells: BookCells,
): { name: string; area: Area } | undefined {
  let best: { name: string; area: Area } | undefined;
  for (const { name, sheet, area } of cells.namesOn(place.sheet)) {
    if (area.rows < 2 || sheet.toLowerCase() !== place.sheet.toLowerCase()) continue;
    if (!covers(area, place.row, place.column)) continue;
    if (!best || area.rows * area.columns < best.area.rows * best.area.columns)
      best = { name, area };
  }
  return best;
}
