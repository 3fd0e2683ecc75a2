import { placeAddress, areaAddress, type Place } from '../plan/addresses';
import { boundCalls } from '../functions/gill-calls';
import { cellSplices, type NewContent } from '../ooxml/cell-splices';
import { dynamicArrayMark } from '../ooxml/dynamic-arrays';
import { Package } from '../ooxml/package';
import { readSheetCells } from '../ooxml/sheet-cells';
import { removeCalculationOrder } from '../ooxml/spare-parts';
import { readWorkbookParts } from '../ooxml/workbook-parts';

export interface Repaired {
  readonly sheet: string;
  readonly where: string;
  readonly was: string;
  readonly now: string;
}

/**
 * Mends GILL formulas that lost their binding on the way (bare names, "[2]!" and other prefixes), so that
 * they bind again where Gillbed is installed. Throws UnreadableFile with a sentence.
 */
export function repair(bytes: Uint8Array): { bytes: Uint8Array; repaired: readonly Repaired[] } {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const repaired: Repaired[] = [];
  let mark: string | undefined;
  for (const sheet of book.sheets) {
    const cells = readSheetCells(file, sheet.part);
    const contents = new Map<string, Place & { content: NewContent }>();
    for (const row of cells.rows) {
      for (const cell of row.cells) {
        const was = cell.formula;
        if (was === undefined) continue;
        const now = boundCalls(was);
        if (now === was) continue;
        mark ??= dynamicArrayMark(file, book.part) ?? '';
        const area = cell.area ?? { row: cell.row, column: cell.column, rows: 1, columns: 1 };
        contents.set(placeAddress(cell), {
          row: cell.row,
          column: cell.column,
          content: { kind: 'array', text: now, reference: areaAddress(area), cm: mark },
        });
        repaired.push({
          sheet: sheet.name,
          where: placeAddress(cell),
          was: `=${was}`,
          now: `=${now}`,
        });
      }
    }
    file.edit(sheet.part, cellSplices(cells, contents));
  }
  if (repaired.length > 0) removeCalculationOrder(file);
  return { bytes: file.bytes(), repaired };
}
