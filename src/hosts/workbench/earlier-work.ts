import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { quietly } from '../../engine/quietly';
import type { Steps } from '../../plan/in-steps';
import { type CellsOfSheet, type Columns, type GridThen, gridNow } from './cells-then';
import { type PackedThen, unpackingThen } from './packed-then';

/** The cells of a sheet as builds of the page kept them that had lists by row. */
type CellsByRow = Pick<CellsOfSheet, 'contents' | 'styles' | 'formats' | 'hasFormulas'>;

/** What was on the grid when its file was opened, as some build of the page kept it in the browser. */
export type KeptGrid =
  | { readonly texts: PackedThen }
  | WorkbookData
  | {
      readonly frame: WorkbookData;
      readonly cells: Readonly<Record<string, CellsOfSheet | CellsByRow>>;
    };

function byColumn<Entry>(rows: Columns<Entry>): Columns<Entry> {
  const columns: Columns<Entry> = [];
  rows.forEach((entries, row) =>
    entries.forEach((entry, column) => ((columns[column] ??= [])[row] = entry)),
  );
  return columns;
}

/** What was on the grid when its file was opened, from what any build of the page kept; in steps. */
export function* readingThen(kept: KeptGrid): Steps<GridThen> {
  if ('texts' in kept) return yield* unpackingThen(kept.texts);
  // At first the grid's own data were kept.
  if (!('frame' in kept)) return yield* gridNow(quietly(() => new Model(kept)));
  const cells: Record<string, CellsOfSheet> = {};
  for (const [sheetId, sheet] of Object.entries(kept.cells)) {
    yield 0;
    if ('byColumn' in sheet) {
      cells[sheetId] = sheet;
      continue;
    }
    const [contents, styles, formats] = [
      byColumn(sheet.contents),
      byColumn(sheet.styles),
      byColumn(sheet.formats),
    ];
    cells[sheetId] = { ...sheet, contents, styles, formats, byColumn: true };
  }
  return { frame: kept.frame, cells };
}
