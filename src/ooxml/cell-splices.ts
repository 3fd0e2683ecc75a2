import { placeAddress, type Place } from '../plan/addresses';
import type { SheetCell, SheetCells } from './sheet-cells';
import type { Splice } from './read-xml';
import { escapeAttribute, escapeText } from './write-xml';

/** What a cell is to hold from now on; a stored value it has stays. */
export type NewContent =
  | { readonly kind: 'formula'; readonly text: string }
  | {
      readonly kind: 'array';
      readonly text: string;
      readonly reference: string;
      readonly cm: string;
    }
  | { readonly kind: 'value' };

function formulaElement(prefix: string, content: NewContent): string {
  if (content.kind === 'value') return '';
  const text = escapeText(content.text);
  if (content.kind === 'formula') return `<${prefix}f>${text}</${prefix}f>`;
  return `<${prefix}f t="array" ref="${content.reference}">${text}</${prefix}f>`;
}

/** The cell's element written anew with other content. */
function rewritten(xml: string, cell: SheetCell, content: NewContent): string {
  const { element } = cell;
  const { prefix } = element;
  const attributes = Object.entries(element.attributes).filter(([name]) => name !== 'cm');
  if (content.kind === 'array' && content.cm !== '') attributes.push(['cm', content.cm]);
  const open = attributes.map(([name, value]) => ` ${name}="${escapeAttribute(value)}"`).join('');
  const rest = element.children
    .filter((child) => child.name !== 'f')
    .map((child) => xml.slice(child.start, child.end))
    .join('');
  return `<${prefix}c${open}>${formulaElement(prefix, content)}${rest}</${prefix}c>`;
}

/**
 * The changes that give cells of a sheet other content, new cells and rows included. `contents` is keyed
 * by address.
 */
export function cellSplices(
  sheet: SheetCells,
  contents: ReadonlyMap<string, Place & { content: NewContent }>,
): Splice[] {
  const { xml, sheetData } = sheet;
  const { prefix } = sheetData;
  const splices: Splice[] = [];
  const fresh = new Map<number, { place: Place; content: NewContent }[]>();
  const existing = new Map<string, SheetCell>();
  for (const row of sheet.rows)
    for (const cell of row.cells) existing.set(placeAddress(cell), cell);
  for (const [address, { content, ...place }] of contents) {
    const cell = existing.get(address);
    if (cell) {
      splices.push({
        start: cell.element.start,
        end: cell.element.end,
        text: rewritten(xml, cell, content),
      });
    } else if (content.kind !== 'value') {
      fresh.set(place.row, [...(fresh.get(place.row) ?? []), { place, content }]);
    }
  }
  for (const [rowNumber, list] of [...fresh].sort(([a], [b]) => a - b)) {
    list.sort((a, b) => a.place.column - b.place.column);
    const text = ({ place, content }: { place: Place; content: NewContent }): string =>
      `<${prefix}c r="${placeAddress(place)}">${formulaElement(prefix, content)}</${prefix}c>`;
    const row = sheet.rows.find((row) => row.row === rowNumber);
    if (row && !row.element.selfClosing) {
      for (const insert of list) {
        const next = row.cells.find((cell) => cell.column > insert.place.column);
        const at = next ? next.element.start : xml.lastIndexOf('</', row.element.end - 1);
        splices.push({ start: at, end: at, text: text(insert) });
      }
      continue;
    }
    const whole = list.map(text).join('');
    if (row) {
      const open = xml.slice(row.element.start, row.element.openEnd).replace(/\s*\/>$/, '>');
      splices.push({
        start: row.element.start,
        end: row.element.end,
        text: `${open}${whole}</${prefix}row>`,
      });
      continue;
    }
    const next = sheet.rows.find((row) => row.row > rowNumber);
    const line = `<${prefix}row r="${rowNumber + 1}">${whole}</${prefix}row>`;
    const at = next ? next.element.start : xml.lastIndexOf('</', sheetData.end - 1);
    splices.push({ start: at, end: at, text: line });
  }
  return splices;
}
