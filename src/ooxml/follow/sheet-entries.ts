import type { Package } from '../package';
import { childNamed, childrenNamed, type XmlElement } from '../read-xml';
import type { WorkbookParts } from '../workbook-parts';
import { XmlEdits } from './xml-edits';

/** A sheet as the workbook part lists it. */
export interface SheetEntry {
  readonly list: XmlElement;
  readonly element: XmlElement;
  readonly name: string;
  readonly target: string;
}

/** All entries in their order, chart sheets and others among them. */
export function sheetEntries(file: Package, book: WorkbookParts): SheetEntry[] {
  const list = childNamed(file.root(book.part), 'sheets');
  if (!list) return [];
  const links = new Map(file.relationships(book.part).map(({ id, target }) => [id, target]));
  return childrenNamed(list, 'sheet').map((element) => {
    const id = Object.entries(element.attributes).find(([key]) => /(^|:)id$/.test(key))?.[1] ?? '';
    return {
      list,
      element,
      name: element.attributes['name'] ?? '',
      target: links.get(id) ?? '',
    };
  });
}

/** What calls sheets by their place in the list: names for one sheet, and the sheet that is in front. */
export function reindexed(
  edits: XmlEdits,
  before: readonly SheetEntry[],
  after: readonly SheetEntry[],
): void {
  const placeOf = (was: string | undefined): number =>
    after.findIndex((entry) => entry === before[Number(was)]);
  const list = childNamed(edits.root, 'definedNames');
  const gone: XmlElement[] = [];
  for (const name of childrenNamed(list, 'definedName')) {
    const was = name.attributes['localSheetId'];
    if (was === undefined) continue;
    const now = placeOf(was);
    if (now < 0) gone.push(name);
    else if (String(now) !== was) edits.set(name, 'localSheetId', now);
  }
  if (list) edits.removeFrom(list, gone);
  for (const view of childrenNamed(childNamed(edits.root, 'bookViews'), 'workbookView')) {
    for (const attribute of ['activeTab', 'firstSheet']) {
      const was = view.attributes[attribute];
      if (was === undefined) continue;
      const now = String(Math.max(0, placeOf(was)));
      if (now !== was) edits.set(view, attribute, now);
    }
  }
}

/** Hides sheets, by their names, or shows them. */
export function showSheets(
  file: Package,
  book: WorkbookParts,
  shown: ReadonlyMap<string, boolean>,
): void {
  if (shown.size === 0) return;
  const edits = new XmlEdits(file, book.part);
  for (const { name, element } of sheetEntries(file, book)) {
    const isShown = shown.get(name);
    if (isShown !== undefined) edits.set(element, 'state', isShown ? undefined : 'hidden');
  }
  edits.write();
}

/** Puts the sheets into another order, by their names. Chart sheets and others keep to the sheet before them. */
export function orderSheets(file: Package, book: WorkbookParts, names: readonly string[]): void {
  const entries = sheetEntries(file, book);
  const isGrid = new Set(book.sheets.map(({ part }) => part));
  const groups: SheetEntry[][] = [[]];
  for (const entry of entries) {
    if (isGrid.has(entry.target)) groups.push([entry]);
    else groups.at(-1)?.push(entry);
  }
  const place = (group: readonly SheetEntry[]): number =>
    group[0] && isGrid.has(group[0].target) ? names.indexOf(group[0].name) : -1;
  const wanted = groups
    .slice()
    .sort((a, b) => place(a) - place(b))
    .flat();
  if (wanted.every((entry, i) => entry === entries[i])) return;
  const edits = new XmlEdits(file, book.part);
  const xml = file.text(book.part);
  entries.forEach(({ element }, i) => {
    const other = wanted[i]?.element;
    if (other && other !== element) edits.replace(element, xml.slice(other.start, other.end));
  });
  reindexed(edits, entries, wanted);
  edits.write();
}
