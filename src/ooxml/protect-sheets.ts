import type { Place } from '../plan/addresses';
import { changeCells } from './change-cells';
import type { Package } from './package';
import { childNamed } from './read-xml';
import { readSheetCells } from './sheet-cells';
import { StyleAdditions } from './style-additions';
import type { WorkbookParts } from './workbook-parts';
import { element } from './write-xml';

/** Elements of a sheet behind which its protection may stand (ECMA-376, part 1, 18.3.1.99), the last first. */
const BEFORE = ['sheetCalcPr', 'sheetData'];

/**
 * Leaves only some cells of each sheet open; no password is asked for to lift that. Widths, heights and filters
 * can still be changed. `openCells` by the name of the sheet; a sheet that is protected already stays as it is.
 */
export function protectSheets(
  file: Package,
  book: WorkbookParts,
  openCells: ReadonlyMap<string, readonly Place[]>,
): void {
  const styles = new StyleAdditions(file, book.part);
  for (const sheet of book.sheets) {
    const places = openCells.get(sheet.name) ?? [];
    const cells = readSheetCells(file, sheet.part);
    const known = new Map(
      cells.rows.flatMap((row) =>
        row.cells.map((cell) => [`${cell.row},${cell.column}`, cell] as const),
      ),
    );
    const changes = places.map(({ row, column }) => {
      const base = Number(known.get(`${row},${column}`)?.element.attributes['s'] ?? 0);
      return { row, column, style: styles.changed(base, { locked: false }) };
    });
    changeCells(file, sheet, changes, {
      dynamicMark: () => undefined,
      formulaRemoved: () => undefined,
      valueMissing: () => undefined,
    });
    const root = file.root(sheet.part);
    if (childNamed(root, 'sheetProtection')) continue;
    const after = BEFORE.map((name) => childNamed(root, name)).find(Boolean);
    if (!after) continue;
    const text = element(`${root.prefix}sheetProtection`, {
      sheet: 1,
      objects: 1,
      scenarios: 1,
      formatColumns: 0,
      formatRows: 0,
      sort: 0,
      autoFilter: 0,
    });
    file.edit(sheet.part, [{ start: after.end, end: after.end, text }]);
  }
  styles.write();
}
