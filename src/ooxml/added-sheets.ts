import { cellAddress } from '../plan/addresses';
import { addPart } from './dynamic-arrays';
import { UnreadableFile, writePart, type Parts } from './package';
import { readWorkbookParts, type WorkbookParts } from './workbook-parts';
import { childNamed, escapeAttribute, escapeXml, spliced } from './read-xml';

const SHEET_KIND = {
  type: 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet',
  contentType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml',
};

/** Cells of a sheet that is added: a value, or a formula without a value. */
export type AddedRows = readonly (readonly (
  { readonly value?: number | string | boolean; readonly formula?: string } | undefined
)[])[];

/** A sheet name that is free: the wanted one, or with a number behind it. */
export function freeSheetName(book: WorkbookParts, wanted: string): string {
  const taken = new Set(book.sheets.map((sheet) => sheet.name.toLowerCase()));
  let name = wanted;
  for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${wanted} ${n}`;
  return name;
}

function sheetXml(rows: AddedRows): string {
  const lines = Array.from(rows, (line, r) => {
    const cells = Array.from(line ?? [], (cell, c) => {
      const at = cellAddress(r, c);
      if (cell?.formula !== undefined) {
        return `<c r="${at}"><f>${escapeXml(cell.formula)}</f></c>`;
      }
      const value = cell?.value;
      if (value === undefined || value === '') return '';
      return typeof value === 'number'
        ? `<c r="${at}"><v>${value}</v></c>`
        : `<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${escapeXml(String(value))}</t></is></c>`;
    });
    return `<row r="${r + 1}">${cells.join('')}</row>`;
  });
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${lines.join('')}</sheetData></worksheet>`;
}

function freePart(parts: Parts, workbook: string): string {
  const folder = workbook.slice(0, workbook.lastIndexOf('/') + 1);
  for (let n = 1; ; n++) {
    const part = `${folder}worksheets/added${n}.xml`;
    if (!parts.has(part)) return part;
  }
}

/** Adds a sheet behind the others. */
export function addSheet(parts: Parts, name: string, rows: AddedRows): void {
  const before = readWorkbookParts(parts);
  const id = addPart(parts, before.part, freePart(parts, before.part), sheetXml(rows), SHEET_KIND);
  const list = childNamed(before.root, 'sheets');
  if (!list) throw new UnreadableFile('The file is damaged: it names no sheets.');
  const ids = list.children.map((one) => Number(one.attributes['sheetId'] ?? 0));
  const { prefix } = before.root;
  const element = `<${prefix}sheet xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" name="${escapeAttribute(name)}" sheetId="${Math.max(0, ...ids) + 1}" r:id="${id}"/>`;
  const at = before.xml.lastIndexOf('</', list.end - 1);
  writePart(parts, before.part, spliced(before.xml, [{ start: at, end: at, text: element }]));
}
