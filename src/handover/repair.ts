import { addressOf, referenceOf, type Place } from '../ooxml/addresses';
import { storedName } from '../functions/stored-name';
import { mayCallGill, rewriteCalls } from '../functions/gill-calls';
import { cellSplices, type NewContent } from '../ooxml/cell-splices';
import { dynamicArrayMark } from '../ooxml/dynamic-arrays';
import { closePackage, openPackage, readPart, writePart } from '../ooxml/package';
import { readSheetCells } from '../ooxml/sheet-cells';
import { removeCalculationOrder } from '../ooxml/spare-parts';
import { readWorkbookParts } from '../ooxml/workbook-parts';
import { spliced } from '../ooxml/read-xml';

export interface Repaired {
  readonly sheet: string;
  readonly where: string;
  readonly was: string;
  readonly now: string;
}

/** A formula with every GILL call under the name that Excel stores. */
export const boundFormula = (formula: string): string =>
  mayCallGill(formula)
    ? rewriteCalls(formula, (call) => `${storedName(call.card.id)}(${call.args.join(',')})`)
    : formula;

/**
 * Mends GILL formulas that lost their binding on the way (bare names, "[2]!" and other prefixes), so that
 * they bind again where Gillbed is installed. Throws UnreadableFile with a sentence.
 */
export function repair(bytes: Uint8Array): { bytes: Uint8Array; repaired: readonly Repaired[] } {
  const parts = openPackage(bytes);
  const book = readWorkbookParts(parts);
  const repaired: Repaired[] = [];
  let mark: string | undefined;
  for (const sheet of book.sheets) {
    const cells = readSheetCells(readPart(parts, sheet.part), sheet.part);
    const contents = new Map<string, Place & { content: NewContent }>();
    for (const row of cells.rows) {
      for (const cell of row.cells) {
        const was = cell.formula;
        if (was === undefined) continue;
        const now = boundFormula(was);
        if (now === was) continue;
        mark ??= dynamicArrayMark(parts, book.part) ?? '';
        const area = cell.area ?? { row: cell.row, column: cell.column, rows: 1, columns: 1 };
        contents.set(addressOf(cell), {
          row: cell.row,
          column: cell.column,
          content: { kind: 'array', text: now, reference: referenceOf(area), cm: mark },
        });
        repaired.push({
          sheet: sheet.name,
          where: addressOf(cell),
          was: `=${was}`,
          now: `=${now}`,
        });
      }
    }
    if (contents.size > 0) {
      writePart(parts, sheet.part, spliced(cells.xml, cellSplices(cells, contents)));
    }
  }
  if (repaired.length > 0) removeCalculationOrder(parts);
  return { bytes: closePackage(parts), repaired };
}
