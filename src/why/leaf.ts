import type { LookupTable } from '../functions/lookup';
import { cropTable } from '../functions/crop-table';
import { cropFigures } from '../functions/crop-sources';
import { speciesFigures } from '../functions/fish-sources';
import { speciesTable } from '../functions/species-table';
import type { BookCells, FoundCell } from '../plan/book-snapshot';
import { cellWords } from './cell-words';
import { sourceLine } from '../functions/source-words';
import { keyOf, namedColumn } from './traced-cells';

/** Where a chain ends: what a cell without a formula is. */

export type LeafKind = 'typed' | 'preset' | 'table' | 'workings' | 'words' | 'blank';

export interface Leaf {
  readonly kind: LeafKind;
  /** In words: "typed", "from the table of crops: FAO 589 …". */
  readonly says: string;
}

/** What a plan brings along in a cell, as the cell shows it; undefined for a cell that is only typed. */
export interface TypedKind {
  readonly usual?: number | string;
  readonly isPreset: boolean;
  /** A figure that the plan writes for itself, such as the number of a line. */
  readonly isWorking?: boolean;
}

const same = (a: unknown, b: unknown): boolean =>
  typeof a === 'number' && typeof b === 'number'
    ? Math.abs(a - b) <= 1e-9 * Math.max(1e-12, Math.abs(a), Math.abs(b))
    : String(a).toLowerCase() === String(b).toLowerCase();

function tableLeaf<R>(
  table: LookupTable<R>,
  wholeTable: string,
  cell: FoundCell,
  column: { name: string; area: { row: number } },
  cells: BookCells,
): Leaf | undefined {
  const [, fact] = new RegExp(`^${table.prefix}_(.+?)(?:_\\d+)?$`, 'i').exec(column.name) ?? [];
  const names = cells.name(`${table.prefix}_name`);
  if (fact === undefined || !names || names.sheet !== cell.sheet) return undefined;
  if (cell.row < names.area.row || cell.row >= names.area.row + names.area.rows) {
    return { kind: 'table', says: `from the table ${table.sheet}` };
  }
  const name = cells.at({ ...cell, column: names.area.column }).value;
  const row = typeof name === 'string' ? table.book.find(name) : undefined;
  const usual =
    row === undefined
      ? undefined
      : table.columns
          .find((factColumn) => factColumn.fact.toLowerCase() === fact.toLowerCase())
          ?.of(row);
  if (usual !== undefined && !same(usual, cell.value)) {
    const was = usual === '' ? 'has no figure' : `has ${usual}`;
    return { kind: 'typed', says: `typed over the table ${table.sheet}, which ${was}` };
  }
  const bare = fact.replace(/_(?:min|max)$/, '');
  const origin =
    cells.name(`${table.prefix}_${fact}_source`) ?? cells.name(`${table.prefix}_${bare}_source`);
  const source = origin && cells.at({ ...cell, column: origin.area.column }).value;
  // Words that tell the rows apart have no publication of their own.
  if (typeof cell.value === 'string' && source === undefined)
    return { kind: 'table', says: `from the table ${table.sheet}` };
  const says = typeof source === 'string' && source !== '' ? source : wholeTable;
  return { kind: 'table', says: `from the table ${table.sheet}: ${says}` };
}

/** What a cell without a formula is, and on whose word it stands. */
export function leafOf(
  cell: FoundCell,
  cells: BookCells,
  typed: ReadonlyMap<string, TypedKind>,
): Leaf {
  if (cell.value === '') return { kind: 'blank', says: 'blank' };
  const known = typed.get(keyOf(cell));
  const { remark } = cellWords(cell, cells);
  const behind = remark === '' ? '' : `: ${remark}`;
  if (known?.isPreset) {
    if (known.usual === undefined) return { kind: 'typed', says: `typed${behind}` };
    return same(known.usual, cell.value)
      ? { kind: 'preset', says: `brought along by the plan${behind}` }
      : {
          kind: 'typed',
          says: `typed over what the plan brings along (${known.usual})${behind}`,
        };
  }
  if (known && !known.isWorking) return { kind: 'typed', says: `typed${behind}` };
  const column = namedColumn(cell, cells);
  const inTable =
    column &&
    (tableLeaf(cropTable, sourceLine(cropFigures), cell, column, cells) ??
      tableLeaf(speciesTable, sourceLine(speciesFigures), cell, column, cells));
  if (inTable) return inTable;
  if (known) return { kind: 'workings', says: 'a figure of the workings of the plan' };
  if (typeof cell.value === 'number') return { kind: 'typed', says: `typed${behind}` };
  return { kind: 'words', says: 'words in the cell' };
}

/** Cells that a person may type a number into and see what it does. */
export const isTypedNumber = (
  cell: FoundCell,
  cells: BookCells,
  typed: ReadonlyMap<string, TypedKind>,
): boolean =>
  typeof cell.value === 'number' &&
  cell.formula === undefined &&
  cells.blockAt(cell) === undefined &&
  // Where a spelling finds its line in a table is no figure.
  !/^(?:Crop|Fish)_row(?:_\d+)?$/i.test(namedColumn(cell, cells)?.name ?? '') &&
  !['words', 'workings'].includes(leafOf(cell, cells, typed).kind);
