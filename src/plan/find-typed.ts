import { tokenize } from '@borgar/fx';
import { readArea } from './addresses';
import type { CellPlace, Cells, FoundCell } from './book-snapshot';
import type { Typed, TypedColumn, TypedFigure, TypedRegister } from './typed-cells';

/**
 * Where the typed cells of a plan stand in a workbook that has lived: rows and columns may have been put in,
 * and it may have been made by an earlier version. Names find them.
 */

export interface FoundFigure {
  readonly kind: 'figure';
  readonly typed: TypedFigure;
  /** Undefined where the workbook has no such name. */
  readonly cell: FoundCell | undefined;
}

export interface FoundRegister {
  readonly kind: 'register';
  readonly typed: TypedRegister;
  /** Where each column stands; undefined where the workbook has none. */
  readonly columns: readonly (number | undefined)[];
  readonly sheet: string | undefined;
  readonly rows: readonly FoundRow[];
}

export interface FoundRow {
  /** Counts from the first row that the plan's formulas look at. */
  readonly index: number;
  /** As the columns of the register. */
  readonly cells: readonly (FoundCell | undefined)[];
}

/** Rows above the first that counts, where somebody put one in below the heads. */
const MAX_ROWS_ABOVE = 50;

/** The first cell of its own sheet that a formula looks at. */
function firstReference(formula: string | undefined): { row: number; column: number } | undefined {
  if (formula === undefined) return undefined;
  for (const token of tokenize(formula, { mergeRefs: true })) {
    const area = token.type === 'range' ? readArea(token.value) : undefined;
    if (area) return area;
  }
  return undefined;
}

/** A formula that looks at one cell alone, as one that turns it into other units does. */
const looksAtOne = (formula: string | undefined): boolean => {
  const tokens = formula === undefined ? [] : tokenize(formula, { mergeRefs: true });
  const cells = tokens.filter(({ type }) => type === 'range').map(({ value }) => value);
  return new Set(cells).size === 1 && !tokens.some(({ type }) => type === 'range_named');
};

/** The column of the typed cells that belong to a name's cells. */
function columnOf(
  book: Cells,
  { beside, quantity, computed }: TypedColumn,
  named: CellPlace,
  rows: number,
): number {
  if (beside >= 0 || quantity === undefined) return named.column + beside;
  // A metric figure says in its formula where it is typed, however many columns were put between.
  for (let i = 0; i < rows; i++) {
    const cell = book.at({ ...named, row: named.row + i });
    if (computed && !looksAtOne(cell.formula)) continue;
    const typed = firstReference(cell.formula);
    if (typed && typed.row === cell.row && typed.column < cell.column) return typed.column;
  }
  return named.column + beside;
}

function findFigure(book: Cells, typed: TypedFigure, suffix: string): FoundFigure {
  const name = book.name(typed.name + suffix);
  if (!name) return { kind: 'figure', typed, cell: undefined };
  const place = { sheet: name.sheet, row: name.area.row, column: name.area.column };
  const column = columnOf(book, typed, place, 1);
  return { kind: 'figure', typed, cell: book.at({ ...place, column }) };
}

const isBlank = (cell: FoundCell | undefined): boolean =>
  cell === undefined || (cell.value === '' && cell.formula === undefined);

function findRegister(book: Cells, typed: TypedRegister, suffix: string): FoundRegister {
  const names = typed.columns.map(({ name }) => book.name(name + suffix));
  const first = names.find((name) => name !== undefined);
  if (!first) {
    return {
      kind: 'register',
      typed,
      columns: names.map(() => undefined),
      sheet: undefined,
      rows: [],
    };
  }
  const { sheet, area } = first;
  const columns = typed.columns.map((column, i) => {
    const name = names[i];
    return (
      name && columnOf(book, column, { sheet, row: area.row, column: name.area.column }, area.rows)
    );
  });
  const rowAt = (row: number): FoundRow => ({
    index: row - area.row,
    cells: columns.map((column) =>
      column === undefined ? undefined : book.at({ sheet, row, column }),
    ),
  });
  const isHead = ({ cells }: FoundRow): boolean =>
    cells.some((cell, i) => cell?.value === typed.columns[i]?.label);
  const rows: FoundRow[] = [];
  const above: FoundRow[] = [];
  for (let row = area.row - 1; typed.open && row >= Math.max(0, area.row - MAX_ROWS_ABOVE); row--) {
    const found = rowAt(row);
    if (isHead(found)) {
      rows.push(...above.reverse());
      break;
    }
    above.push(found);
  }
  for (let row = area.row; row < area.row + area.rows; row++) rows.push(rowAt(row));
  if (typed.open) {
    const end = book.end(sheet);
    for (let row = area.row + area.rows; row < end; row++) {
      const found = rowAt(row);
      if (found.cells.every(isBlank)) break;
      rows.push(found);
    }
  }
  return { kind: 'register', typed, columns, sheet, rows };
}

export interface FoundTyped {
  readonly figures: readonly FoundFigure[];
  readonly registers: readonly FoundRegister[];
}

/** Finds the typed figures and registers of a plan; `suffix` is what its names end with in this workbook. */
export function findTyped(book: Cells, typed: readonly Typed[], suffix: string): FoundTyped {
  return {
    figures: typed.flatMap((entry) =>
      entry.kind === 'figure' ? [findFigure(book, entry, suffix)] : [],
    ),
    registers: typed.flatMap((entry) =>
      entry.kind === 'register' ? [findRegister(book, entry, suffix)] : [],
    ),
  };
}
