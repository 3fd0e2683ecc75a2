import { tokenize } from '@borgar/fx';
import { lookupTables } from '../functions/lookup-tables';
import { fullAddress } from '../plan/addresses';
import { lookupSheet } from '../plan/lookup-sheet';
import type { NameModel, SheetModel } from '../plan/workbook-model';
import { addSheet, freeSheetName } from '../ooxml/added-sheets';
import type { Package } from '../ooxml/package';
import { readWorkbookParts } from '../ooxml/workbook-parts';
import { childNamed } from '../ooxml/read-xml';
import { UnreadableFile } from '../ooxml/unreadable-file';
import { textElement } from '../ooxml/write-xml';

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
    for (const model of made.names) {
      names.push({
        ...model,
        sheet: name,
        area: { ...model.area, column: model.area.column + from },
      });
    }
    from += made.sheet.columnWidths.length + 1;
  }
  return { sheet: rows, names };
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

/** Puts the names into the workbook part; the file format wants them right after the sheets. */
function addNames(file: Package, names: readonly NameModel[]): void {
  const book = readWorkbookParts(file);
  const { prefix } = book.root;
  const elements = names
    .map(({ name, sheet, area }) =>
      textElement(`${prefix}definedName`, fullAddress(sheet, area), { name }),
    )
    .join('');
  const list = childNamed(book.root, 'definedNames');
  const after = ['externalReferences', 'functionGroups', 'sheets']
    .map((name) => childNamed(book.root, name))
    .find(Boolean);
  const at =
    list && !list.selfClosing
      ? file.text(book.part).lastIndexOf('</', list.end - 1)
      : (after?.end ?? 0);
  const text =
    list && !list.selfClosing
      ? elements
      : `<${prefix}definedNames>${elements}</${prefix}definedNames>`;
  const drop = list?.selfClosing ? [{ start: list.start, end: list.end, text: '' }] : [];
  file.edit(book.part, [...drop, { start: at, end: at, text }]);
}

/**
 * Adds the one sheet with the tables that these plain formulas look up, unless the workbook has them
 * already. Gives a sentence on what was added.
 */
export function addLookupTables(
  file: Package,
  formulas: readonly string[],
  folded: boolean,
): string[] {
  const book = readWorkbookParts(file);
  const name = freeSheetName(book, SHEET_NAME);
  const tables = tablesOnOneSheet(name);
  const needed = neededNames(formulas, new Set(tables.names.map((name) => name.name)));
  if (needed.size === 0) return [];
  const there = new Set(book.names.map((name) => name.name));
  if ([...needed].every((text) => there.has(text))) return [];
  const clash = tables.names.find((name) => there.has(name.name));
  if (clash) {
    throw new UnreadableFile(
      `The workbook has a name ${clash.name} of its own, which the plain formulas need for a table; rename it and try again.`,
    );
  }

  addSheet(file, name, tables.sheet, { folded });
  addNames(file, tables.names);
  return [
    `The sheet "${name}" was added: it holds the crop and fish figures that the formulas look up.`,
  ];
}
