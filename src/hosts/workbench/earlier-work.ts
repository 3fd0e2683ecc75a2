import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { quietly } from '../../engine/quietly';
import { atOnce } from '../../plan/in-steps';
import { type CellsOfSheet, type Columns, type GridThen, gridNow } from './cells-then';

/** The cells of a sheet as builds of the page kept them that had lists by row. */
type CellsByRow = Pick<CellsOfSheet, 'contents' | 'styles' | 'formats' | 'hasFormulas'>;

/** What was on the grid when its file was opened, as some build of the page kept it in the browser. */
export type KeptGrid =
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

/** What was on the grid when its file was opened, from what any build of the page kept. */
export function gridThen(kept: KeptGrid): GridThen {
  // At first the grid's own data were kept.
  if (!('frame' in kept)) return atOnce(gridNow(quietly(() => new Model(kept))));
  const cells = Object.entries(kept.cells).map(([sheetId, sheet]): [string, CellsOfSheet] => {
    if ('byColumn' in sheet) return [sheetId, sheet];
    const [contents, styles, formats] = [
      byColumn(sheet.contents),
      byColumn(sheet.styles),
      byColumn(sheet.formats),
    ];
    return [sheetId, { ...sheet, contents, styles, formats, byColumn: true }];
  });
  return { frame: kept.frame, cells: Object.fromEntries(cells) };
}
