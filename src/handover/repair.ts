import { placeAddress, areaAddress, type Place } from '../plan/addresses';
import { boundCalls, unknownCalls, unknownSentence } from '../functions/gill-calls';
import { cellSplices, type NewContent } from '../ooxml/cell-splices';
import { dynamicArrayMark } from '../ooxml/dynamic-arrays';
import { XmlEdits } from '../ooxml/follow/xml-edits';
import { callingSheets, type CallingSheets } from './calling-sheets';
import { otherFormulas } from './other-formulas';
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

/** A formula with a GILL name that Gillbed does not have: it stays as it is. */
export interface Unknown {
  readonly sheet: string;
  readonly where: string;
  readonly why: string;
}

/** Formulas outside of cells that lost their binding: columns and totals of tables, rules, names. */
function repairOthers(
  file: Package,
  frames: CallingSheets['frames'],
  repaired: Repaired[],
  unknown: Unknown[],
): void {
  const book = readWorkbookParts(file);
  const edits = new Map<string, XmlEdits>();
  for (const { part, sheet, label, element, attribute, text } of otherFormulas(
    file,
    book,
    frames,
  )) {
    const names = unknownCalls(text);
    if (names.length > 0) unknown.push({ sheet, where: label, why: unknownSentence(names) });
    const now = boundCalls(text);
    if (now === text) continue;
    const edit = edits.get(part) ?? new XmlEdits(file, part);
    edits.set(part, edit);
    if (attribute === undefined) edit.setText(element, now);
    else edit.set(element, attribute, now);
    repaired.push({ sheet, where: label, was: `=${text}`, now: `=${now}` });
  }
  for (const edit of edits.values()) edit.write();
}

/**
 * Mends GILL formulas that lost their binding on the way (bare names, "[2]!" and other prefixes), so that
 * they bind again where Gillbed is installed. Throws UnreadableFile with a sentence.
 */
export function repair(bytes: Uint8Array): {
  readonly bytes: Uint8Array;
  readonly repaired: readonly Repaired[];
  readonly unknown: readonly Unknown[];
} {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const repaired: Repaired[] = [];
  const unknown: Unknown[] = [];
  let mark: string | undefined;
  const { calling, frames } = callingSheets(file, book);
  for (const sheet of calling) {
    const cells = readSheetCells(file, sheet.part);
    const contents = new Map<string, Place & { content: NewContent }>();
    for (const row of cells.rows) {
      for (const cell of row.cells) {
        const was = cell.formula;
        if (was === undefined) continue;
        const names = unknownCalls(was);
        if (names.length > 0) {
          const where = placeAddress(cell);
          unknown.push({ sheet: sheet.name, where, why: unknownSentence(names) });
        }
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
  repairOthers(file, frames, repaired, unknown);
  if (repaired.length > 0) removeCalculationOrder(file);
  return { bytes: file.bytes(), repaired, unknown };
}
