import { cellAddress } from '../plan/addresses';
import { OFFICE_RELATIONSHIPS, SPREADSHEET, spreadsheetType } from './namespaces';
import { folderOf, type Package } from './package';
import { childNamed } from './read-xml';
import { UnreadableFile } from './unreadable-file';
import { readWorkbookParts, type WorkbookParts } from './workbook-parts';
import { element, textElement, xmlPart } from './write-xml';

/** A value, or a formula with what it gives, where that is known. */
interface AddedCell {
  readonly value?: number | string | boolean;
  readonly formula?: string;
}

/** Cells of a sheet that is added. */
export type AddedRows = readonly (readonly (AddedCell | undefined)[] | undefined)[];

/** A sheet name that is free: the wanted one, or with a number behind it. */
export function freeSheetName(book: WorkbookParts, wanted: string): string {
  const taken = new Set(book.sheets.map((sheet) => sheet.name.toLowerCase()));
  let name = wanted;
  for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${wanted} ${n}`;
  return name;
}

function cellXml(cell: AddedCell | undefined, row: number, column: number): string {
  const r = cellAddress(row, column);
  const value = cell?.value;
  if (cell?.formula !== undefined) {
    const inner = [
      textElement('f', cell.formula),
      ...(value === undefined
        ? []
        : [textElement('v', String(typeof value === 'boolean' ? Number(value) : value))]),
    ];
    const type = typeof value === 'string' ? 'str' : typeof value === 'boolean' ? 'b' : undefined;
    return element('c', { r, ...(type && { t: type }) }, inner);
  }
  if (value === undefined || value === '') return '';
  if (typeof value === 'number') return element('c', { r }, textElement('v', String(value)));
  const text = textElement('t', String(value), { 'xml:space': 'preserve' });
  return element('c', { r, t: 'inlineStr' }, element('is', {}, text));
}

function sheetXml(rows: AddedRows): string {
  // Rows may have gaps, which stand in the file as empty ones.
  const lines = Array.from(rows, (line, r) =>
    element(
      'row',
      { r: r + 1 },
      Array.from(line ?? [], (cell, c) => cellXml(cell, r, c)),
    ),
  );
  return xmlPart(element('worksheet', { xmlns: SPREADSHEET }, element('sheetData', {}, lines)));
}

function freePart(file: Package, workbook: string): string {
  for (let n = 1; ; n++) {
    const part = `${folderOf(workbook)}worksheets/added${n}.xml`;
    if (!file.has(part)) return part;
  }
}

/** Adds a sheet behind the others; a folded one is hidden until somebody unhides it. */
export function addSheet(
  file: Package,
  name: string,
  rows: AddedRows,
  { folded = false }: { readonly folded?: boolean } = {},
): void {
  const { part: workbook, root } = readWorkbookParts(file);
  const list = childNamed(root, 'sheets');
  if (!list) throw new UnreadableFile('The file is damaged: it names no sheets.');
  const part = freePart(file, workbook);
  file.add(part, spreadsheetType('worksheet'), sheetXml(rows));
  const ids = list.children.map((child) => Number(child.attributes['sheetId'] ?? 0));
  const entry = element(`${root.prefix}sheet`, {
    'xmlns:r': OFFICE_RELATIONSHIPS,
    name,
    sheetId: Math.max(0, ...ids) + 1,
    ...(folded && { state: 'hidden' }),
    'r:id': file.relate(workbook, 'worksheet', part),
  });
  const at = file.text(workbook).lastIndexOf('</', list.end - 1);
  file.edit(workbook, [{ start: at, end: at, text: entry }]);
}
