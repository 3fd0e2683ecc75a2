/** Typed cells of a planning workbook get other values; its registers grow where more rows are typed than they have. */
import { placeAddress } from '../plan/addresses';
import type { CellChange } from './cell-changes';
import { changeWorkbook } from './change-workbook';
import { growTable, rowsBelow, tableReaching } from './grown-table';
import { Package } from './package';
import { readSheetCells } from './sheet-cells';
import { calculateOnOpening } from './spare-parts';
import { readWorkbookParts } from './workbook-parts';

interface TypedValue {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly value: string | number | undefined;
}

/**
 * The file with the changes in it. What formulas gave before is taken out, since it may be otherwise now: the file is
 * computed when it is opened. `typed` names the cells whose values stay even where a formula gives them.
 */
export function typedIntoBook(
  bytes: Uint8Array,
  values: readonly TypedValue[],
  typed: readonly Omit<TypedValue, 'value'>[],
): Uint8Array {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const cells = new Map<string, readonly CellChange[]>();
  const grow: (() => void)[] = [];
  for (const sheet of book.sheets) {
    const own = values.filter((value) => value.sheet.toLowerCase() === sheet.name.toLowerCase());
    const kept = new Set(
      typed
        .filter((place) => place.sheet.toLowerCase() === sheet.name.toLowerCase())
        .map(placeAddress),
    );
    const changes = new Map<string, CellChange>();
    for (const { formula, row, column } of readSheetCells(file, sheet.part).rows.flatMap(
      (line) => line.cells,
    )) {
      const place = { row, column };
      if (formula === undefined || kept.has(placeAddress(place))) continue;
      changes.set(placeAddress(place), { ...place, cell: { kind: 'result', value: undefined } });
    }
    const last = Math.max(0, ...own.map(({ row }) => row));
    const table = tableReaching(book.tables, sheet.name, last);
    if (table && own.length > 0) {
      for (const cell of rowsBelow(file, sheet, table, last)) changes.set(placeAddress(cell), cell);
      grow.push(() => growTable(file, sheet, table, last));
    }
    for (const { row, column, value } of own) {
      const place = { row, column };
      const before = changes.get(placeAddress(place));
      changes.set(placeAddress(place), { ...before, ...place, cell: { kind: 'value', value } });
    }
    if (changes.size > 0) cells.set(sheet.name, [...changes.values()]);
  }
  changeWorkbook(file, { cells });
  for (const one of grow) one();
  calculateOnOpening(file, book.part);
  return file.bytes();
}
