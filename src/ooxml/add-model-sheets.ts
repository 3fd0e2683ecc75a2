import { storedCalls } from '../functions/stored-name';
import type { ComputedValues } from '../plan/computed-values';
import type { SheetModel, TableModel } from '../plan/workbook-model';
import { RefusedChange } from './cell-changes';
import { type Contents, contentsOf } from './cell-contents';
import { dynamicArrayMark } from './dynamic-arrays';
import { keepFarm } from './farm-part';
import { atOnce } from '../plan/in-steps';
import { OFFICE_RELATIONSHIPS, spreadsheetType } from './namespaces';
import { folderOf, type Package } from './package';
import { childNamed, childrenNamed } from './read-xml';
import { addingSheetPart, type SheetWriting } from './sheet-parts';
import { appendStyles } from './style-additions';
import { StyleBook } from './styles-xml';
import { insertedNames, readWorkbookParts, type WorkbookParts } from './workbook-parts';
import { printNames } from './workbook-xml';
import { element, textElement } from './write-xml';

/** Sheets that come into a file which was opened. */
export interface AddedSheets {
  readonly sheets: readonly SheetModel[];
  /** What they show, and what cells of other sheets show that their charts draw. */
  readonly values: ComputedValues;
  /** Of the plan that they come from: printed below each page. */
  readonly title: string;
  /** The farm's inputs as JSON, where they are kept with the sheets. */
  readonly farm?: string;
}

/** Contents of the added sheets; what charts draw from the others is what these show. */
function contentsWith(sheets: readonly SheetModel[], values: ComputedValues): Contents {
  const own = contentsOf({ sheets }, values);
  const names = new Set(sheets.map(({ name }) => name));
  return (sheet, row, column) => (names.has(sheet) ? own : values)(sheet, row, column);
}

function stylesFor(file: Package, workbook: string): [styles: StyleBook, write: () => void] {
  const part = file.related(workbook, 'styles')?.target;
  if (part === undefined || !file.has(part)) {
    const styles = new StyleBook();
    return [
      styles,
      () => {
        const fresh = `${folderOf(workbook)}styles.xml`;
        file.add(fresh, spreadsheetType('styles'), styles.xml());
        file.relate(workbook, 'styles', fresh);
      },
    ];
  }
  const root = file.root(part);
  const count = (list: string): number => childNamed(root, list)?.children.length ?? 0;
  const formats = childrenNamed(childNamed(root, 'numFmts'), 'numFmt');
  const styles = new StyleBook({
    fonts: count('fonts'),
    fills: count('fills'),
    borders: count('borders'),
    cellXfs: count('cellXfs'),
    dxfs: count('dxfs'),
    firstFormat: Math.max(
      164,
      ...formats.map((format) => Number(format.attributes['numFmtId']) + 1),
    ),
  });
  return [styles, () => appendStyles(file, part, withPrefix(styles.additions(), root.prefix))];
}

/** Elements as a part writes them whose names all begin with a prefix. */
function withPrefix(
  lists: ReadonlyMap<string, readonly string[]>,
  prefix: string,
): ReadonlyMap<string, readonly string[]> {
  if (prefix === '') return lists;
  const prefixed = (xml: string): string => xml.replace(/<(\/?)(?=\w)/g, `<$1${prefix}`);
  return new Map([...lists].map(([name, entries]) => [name, entries.map(prefixed)]));
}

/** A name that no table and no name of the file has. */
function freeName(book: WorkbookParts, wanted: string): string {
  const taken = new Set([...book.tables, ...book.names].map(({ name }) => name.toLowerCase()));
  let name = wanted;
  for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${wanted}_${n}`;
  return name;
}

function withFreeTables(book: WorkbookParts, sheet: SheetModel): SheetModel {
  const named = (table: TableModel): TableModel => ({ ...table, name: freeName(book, table.name) });
  return { ...sheet, tables: sheet.tables.map(named) };
}

/**
 * Adds sheets behind those of a file that was opened. Nothing of its own sheets changes; their looks come to those
 * of the file.
 */
export function addModelSheets(file: Package, added: AddedSheets): void {
  const book = readWorkbookParts(file);
  const { sheets: own, part: workbook } = book;
  const taken = own.find(({ name }) =>
    added.sheets.some((sheet) => sheet.name.toLowerCase() === name.toLowerCase()),
  );
  if (taken) throw new RefusedChange(`The file has a sheet called "${taken.name}" already.`);
  const sheets = added.sheets.map((sheet) => withFreeTables(book, sheet));
  const isLive = sheets.some(({ rows }) =>
    rows.some((row) => row.some((cell) => cell?.formula && storedCalls(cell.formula).length > 0)),
  );
  const [styles, writeStyles] = stylesFor(file, workbook);
  const writing: SheetWriting = {
    file,
    workbook,
    folder: folderOf(workbook),
    model: { sheets },
    contents: contentsWith(sheets, added.values),
    styles,
    keeping: { mark: isLive ? dynamicArrayMark(file, workbook) : undefined },
    tableIds: new Set(book.tables.map(({ part }) => Number(file.root(part).attributes['id'] ?? 0))),
  };
  const ids = sheets.map((sheet) =>
    atOnce(addingSheetPart(writing, sheet, { isFirst: false, title: added.title })),
  );
  writeStyles();
  enter(file, sheets, ids);
  if (added.farm !== undefined) keepFarm(file, workbook, added.farm);
}

/** Puts the sheets into the workbook's list, with the names by which they say how they are printed. */
function enter(file: Package, sheets: readonly SheetModel[], ids: readonly string[]): void {
  const { root, part } = readWorkbookParts(file);
  const list = childNamed(root, 'sheets');
  if (!list) throw new Error('The file names no sheets');
  const entries = childrenNamed(list, 'sheet');
  const highest = Math.max(0, ...entries.map(({ attributes }) => Number(attributes['sheetId'])));
  const xml = sheets
    .map(({ name }, i) =>
      element(`${root.prefix}sheet`, {
        'xmlns:r': OFFICE_RELATIONSHIPS,
        name,
        sheetId: highest + 1 + i,
        'r:id': ids[i],
      }),
    )
    .join('');
  const at = file.text(part).lastIndexOf('</', list.end - 1);
  file.edit(part, [{ start: at, end: at, text: xml }]);
  const names = sheets.flatMap((sheet, i) => printNames(sheet, entries.length + i));
  if (names.length === 0) return;
  const book = readWorkbookParts(file);
  const text = names
    .map((printName) =>
      textElement(`${root.prefix}definedName`, printName.text, {
        name: printName.name,
        localSheetId: printName.sheet,
      }),
    )
    .join('');
  file.edit(part, [insertedNames(book, file.text(part), text)]);
}
