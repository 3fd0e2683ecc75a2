import { tokenize } from '@borgar/fx';
import { lookupTables } from '../functions/lookup-tables';
import { cellAddress, fullAddress } from '../plan/addresses';
import { lookupSheet } from '../plan/lookup-sheet';
import type { NameModel, SheetModel } from '../plan/model';
import { addPart } from './dynamic-arrays';
import { UnreadableFile, writePart, type Parts } from './package';
import { readWorkbookParts, type WorkbookParts } from './workbook-parts';
import { childNamed, escapeAttribute, escapeXml, spliced } from './xml';

const SHEET_KIND = {
  type: 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet',
  contentType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml',
};
const SHEET_NAME = 'Lookup tables';

/** Everything that plain formulas look up, side by side on one sheet. */
function tablesOnOneSheet(name: string): { sheet: SheetModel['rows']; names: NameModel[] } {
  const rows: (SheetModel['rows'][number][number] | undefined)[][] = [];
  const names: NameModel[] = [];
  let from = 0;
  for (const table of lookupTables) {
    const made = lookupSheet(table, {
      title: `${table.sheet}: figures that the formulas of this workbook look up`,
      question: 'Defaults from publications and usual practice; type over what you know better.',
    });
    made.sheet.rows.forEach((line, r) => {
      const target = (rows[r] ??= []);
      line.forEach((cell, c) => {
        target[from + c] = cell;
      });
    });
    for (const one of made.names) {
      names.push({ ...one, sheet: name, area: { ...one.area, column: one.area.column + from } });
    }
    from += made.sheet.columnWidths.length + 1;
  }
  return { sheet: rows, names };
}

function sheetXml(rows: SheetModel['rows']): string {
  const lines = Array.from(rows, (line, r) => {
    const cells = Array.from(line ?? [], (cell, c) => {
      const value = cell?.value;
      if (value === undefined || value === '') return '';
      const at = cellAddress(r, c);
      return typeof value === 'number'
        ? `<c r="${at}"><v>${value}</v></c>`
        : `<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${escapeXml(String(value))}</t></is></c>`;
    });
    return `<row r="${r + 1}">${cells.join('')}</row>`;
  });
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${lines.join('')}</sheetData></worksheet>`;
}

/** Names in these formulas that belong to a lookup table. */
function neededNames(formulas: readonly string[], known: ReadonlySet<string>): Set<string> {
  const needed = new Set<string>();
  for (const formula of formulas) {
    for (const token of tokenize(formula.replace(/^=/, ''), { mergeRefs: true })) {
      if (token.type === 'range_named' && known.has(token.value)) needed.add(token.value);
    }
  }
  return needed;
}

/** A sheet name that is free: "Lookup tables", "Lookup tables 2", … */
function freeName(book: WorkbookParts): string {
  const taken = new Set(book.sheets.map((sheet) => sheet.name.toLowerCase()));
  let name = SHEET_NAME;
  for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${SHEET_NAME} ${n}`;
  return name;
}

function freePart(parts: Parts, workbook: string): string {
  const folder = workbook.slice(0, workbook.lastIndexOf('/') + 1);
  for (let n = 1; ; n++) {
    const part = `${folder}worksheets/lookup-tables${n}.xml`;
    if (!parts.has(part)) return part;
  }
}

/** Puts the names into the workbook part; the file format wants them right after the sheets. */
function addNames(parts: Parts, names: readonly NameModel[]): void {
  const book = readWorkbookParts(parts);
  const { prefix } = book.root;
  const elements = names
    .map(
      (one) =>
        `<${prefix}definedName name="${one.name}">${escapeXml(fullAddress(one.sheet, one.area))}</${prefix}definedName>`,
    )
    .join('');
  const list = childNamed(book.root, 'definedNames');
  const after = ['externalReferences', 'functionGroups', 'sheets']
    .map((name) => childNamed(book.root, name))
    .find(Boolean);
  const at = list && !list.selfClosing ? book.xml.lastIndexOf('</', list.end) : (after?.end ?? 0);
  const text =
    list && !list.selfClosing
      ? elements
      : `<${prefix}definedNames>${elements}</${prefix}definedNames>`;
  const drop = list?.selfClosing ? [{ start: list.start, end: list.end, text: '' }] : [];
  writePart(parts, book.part, spliced(book.xml, [...drop, { start: at, end: at, text }]));
}

function addSheet(parts: Parts, name: string, xml: string): void {
  const before = readWorkbookParts(parts);
  const id = addPart(parts, before.part, freePart(parts, before.part), xml, SHEET_KIND);
  const list = childNamed(before.root, 'sheets');
  if (!list) throw new UnreadableFile('The file is damaged: it names no sheets.');
  const ids = list.children.map((one) => Number(one.attributes['sheetId'] ?? 0));
  const { prefix } = before.root;
  const element = `<${prefix}sheet xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" name="${escapeAttribute(name)}" sheetId="${Math.max(0, ...ids) + 1}" r:id="${id}"/>`;
  const at = before.xml.lastIndexOf('</', list.end);
  writePart(parts, before.part, spliced(before.xml, [{ start: at, end: at, text: element }]));
}

/**
 * Adds the one sheet with the tables that these plain formulas look up, unless the workbook has them
 * already. Gives a sentence on what was added.
 */
export function addLookupTables(parts: Parts, formulas: readonly string[]): string | undefined {
  const book = readWorkbookParts(parts);
  const name = freeName(book);
  const tables = tablesOnOneSheet(name);
  const needed = neededNames(formulas, new Set(tables.names.map((one) => one.name)));
  if (needed.size === 0) return undefined;
  const there = new Set(book.names.map((one) => one.name));
  if ([...needed].every((one) => there.has(one))) return undefined;
  const clash = tables.names.find((one) => there.has(one.name));
  if (clash) {
    throw new UnreadableFile(
      `The workbook has a name ${clash.name} of its own, which the plain formulas need for a table; rename it and try again.`,
    );
  }

  addSheet(parts, name, sheetXml(tables.sheet));
  addNames(parts, tables.names);
  return `The sheet "${name}" was added: it holds the crop and fish figures that the formulas look up.`;
}
