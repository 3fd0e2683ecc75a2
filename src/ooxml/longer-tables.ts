/** Which tables of a workbook have to grow for cells that are to be typed below them, and how their formulas go on. */
import type { Place } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { rowsBelow, tableReaching } from './grown-table';
import { Package } from './package';
import { readWorkbookParts } from './workbook-parts';

export interface LongerTable {
  readonly sheet: string;
  readonly name: string;
  /** As it is now, its heads with it. */
  readonly area: Area;
  readonly lastRow: number;
  /** Of the rows to come, without "="; all other cells of these rows are typed. */
  readonly formulas: readonly (Place & { readonly formula: string })[];
}

/** Throws RefusedChange where a table cannot grow. */
export function longerTables(
  bytes: Uint8Array,
  places: readonly (Place & { readonly sheet: string })[],
): LongerTable[] {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  return book.sheets.flatMap((sheet): LongerTable[] => {
    const own = places.filter((place) => place.sheet.toLowerCase() === sheet.name.toLowerCase());
    if (own.length === 0) return [];
    const lastRow = Math.max(...own.map(({ row }) => row));
    const table = tableReaching(book.tables, sheet.name, lastRow);
    if (!table || lastRow < table.area.row + table.area.rows) return [];
    const formulas = rowsBelow(file, sheet, table, lastRow).flatMap(({ row, column, cell }) =>
      cell?.kind === 'formula' ? [{ row, column, formula: cell.formula }] : [],
    );
    return [{ sheet: sheet.name, name: table.name, area: table.area, lastRow, formulas }];
  });
}
