import type { NameModel } from '../plan/workbook-model';
import { fullAddress, placeAddress, readArea } from '../plan/addresses';
import { changingCells } from './change-cells';
import { type CellChange, RefusedChange } from './cell-changes';
import { dynamicArrayMark } from './dynamic-arrays';
import { atOnce, type Steps } from '../plan/in-steps';
import type { Package } from './package';
import { childNamed, childrenNamed, type Splice } from './read-xml';
import { calculateOnOpening, removeCalculationOrder } from './spare-parts';
import { insertedNames, readWorkbookParts, type TablePart } from './workbook-parts';
import { cellText, escapeAttribute, escapeText, textElement } from './write-xml';

/** What changes in a workbook that was opened. */
export interface WorkbookChanges {
  /** Cells by the name of their sheet in the file. */
  readonly cells?: ReadonlyMap<string, readonly CellChange[]>;
  /** Names for the whole workbook that come in, or stand for another range from now on. */
  readonly names?: readonly NameModel[];
  /** Names for the whole workbook that go. */
  readonly namesGone?: readonly string[];
}

/** A table's head is written twice: in its cell and in the table. */
function changeHeads(
  file: Package,
  table: TablePart,
  changes: readonly CellChange[],
): readonly CellChange[] {
  const root = file.root(table.part);
  if (root.attributes['headerRowCount'] === '0') return changes;
  const columns = childrenNamed(childNamed(root, 'tableColumns'), 'tableColumn');
  const splices: Splice[] = [];
  const heads = [...table.columns];
  const out = changes.map((change): CellChange => {
    const at = change.column - table.area.column;
    const column = columns[at];
    const { cell } = change;
    if (change.row !== table.area.row || !column || !cell || cell.kind === 'result') return change;
    const where = `${table.sheet}!${placeAddress(change)}`;
    const head = cell.kind === 'value' ? String(cell.value ?? '') : '';
    if (head === '') {
      throw new RefusedChange(
        `${where} is a head of the table ${table.name}, which needs a text: write one, without "=".`,
      );
    }
    if (head === heads[at]) return change;
    if (heads.some((other, i) => i !== at && other.toLowerCase() === head.toLowerCase())) {
      throw new RefusedChange(
        `The table ${table.name} has a column "${head}" already; write another head into ${where}.`,
      );
    }
    refuseReadHead(file, table, heads[at] ?? '', where);
    heads[at] = head;
    const open = file.text(table.part).slice(column.start, column.openEnd);
    splices.push({
      start: column.start,
      end: column.openEnd,
      text: open.replace(
        /(\sname=)(?:"[^"]*"|'[^']*')/,
        () => ` name="${escapeAttribute(cellText(head))}"`,
      ),
    });
    return { ...change, cell: { kind: 'value', value: head } };
  });
  file.edit(table.part, splices);
  return out;
}

/** Formulas may call a column by its head. */
function refuseReadHead(file: Package, table: TablePart, head: string, where: string): void {
  const inFormula = head.replace(/[[\]#'@]/g, "'$&");
  const reader = file.names.find((part) => {
    if (!part.endsWith('.xml')) return false;
    const text = file.readableText(part) ?? '';
    return text.includes(`[${inFormula}]`) || text.includes(`[@${inFormula}]`);
  });
  if (reader === undefined) return;
  throw new RefusedChange(
    `Formulas read the column "${head}" of the table ${table.name} by its head in ${where}; give the head another text in the program that made the file.`,
  );
}

/** Cells that a pivot table fills are its own: it would write over them. */
function refusePivotCells(
  file: Package,
  sheet: { readonly name: string; readonly part: string },
  changes: readonly CellChange[],
): void {
  for (const { type, target } of file.relationships(sheet.part)) {
    if (!type.endsWith('/pivotTable') || !file.has(target)) continue;
    const ref = childNamed(file.root(target), 'location')?.attributes['ref'] ?? '';
    const area = readArea(ref);
    if (!area) continue;
    const inside = changes.find(
      ({ row, column, cell }) =>
        cell !== undefined &&
        row >= area.row &&
        row < area.row + area.rows &&
        column >= area.column &&
        column < area.column + area.columns,
    );
    if (!inside) continue;
    throw new RefusedChange(
      `${sheet.name}!${placeAddress(inside)} belongs to a pivot table (${ref}), which writes its cells itself; write beside it.`,
    );
  }
}

function changeNames(file: Package, { names = [], namesGone = [] }: WorkbookChanges): void {
  if (names.length === 0 && namesGone.length === 0) return;
  const book = readWorkbookParts(file);
  const { prefix } = book.root;
  const gone = new Set(namesGone.map((name) => name.toLowerCase()));
  const set = new Map(names.map((model) => [model.name.toLowerCase(), model]));
  const textFor = ({ sheet, area }: NameModel): string => fullAddress(sheet, area);
  const splices: Splice[] = [];
  const xml = file.text(book.part);
  const kept = new Set<string>();
  for (const { name, element } of book.names) {
    if (element.attributes['localSheetId'] !== undefined) continue;
    const key = name.toLowerCase();
    const other = set.get(key);
    if (gone.has(key)) {
      splices.push({ start: element.start, end: element.end, text: '' });
    } else if (other) {
      set.delete(key);
      const open = xml.slice(element.start, element.openEnd).replace(/\s*\/>$/, '>');
      const text = `${open}${escapeText(textFor(other))}</${element.prefix}definedName>`;
      splices.push({ start: element.start, end: element.end, text });
      kept.add(key);
    } else {
      kept.add(key);
    }
  }
  const added = [...set.values()]
    .map((definedName) =>
      textElement(`${prefix}definedName`, textFor(definedName), { name: definedName.name }),
    )
    .join('');
  const list = childNamed(book.root, 'definedNames');
  const isEmpty =
    list !== undefined &&
    added === '' &&
    childrenNamed(list, 'definedName').length === splices.filter(({ text }) => text === '').length;
  if (isEmpty) {
    file.edit(book.part, [{ start: list.start, end: list.end, text: '' }]);
    return;
  }
  if (added !== '') splices.push(insertedNames(book, xml, added));
  file.edit(book.part, splices);
}

/**
 * Writes changes into a workbook that was opened, in steps. What they do not touch stays byte for byte: other parts, and
 * in changed parts every other element. Throws RefusedChange with a sentence where the file cannot take a
 * change; the package is of no use then.
 */
export function* changingWorkbook(file: Package, changes: WorkbookChanges): Steps<void> {
  const book = readWorkbookParts(file);
  const seen = { formulaRemoved: false, valueMissing: false };
  const mark: { found?: string | undefined } = {};
  const writing = {
    dynamicMark: () => {
      if (!('found' in mark)) mark.found = dynamicArrayMark(file, book.part);
      return mark.found;
    },
    formulaRemoved: () => (seen.formulaRemoved = true),
    valueMissing: () => (seen.valueMissing = true),
  };
  for (const [name, list] of changes.cells ?? []) {
    const sheet = book.sheets.find((sheetPart) => sheetPart.name === name);
    if (!sheet) throw new Error(`The file has no sheet called "${name}"`);
    refusePivotCells(file, sheet, list);
    const tables = book.tables.filter((table) => table.sheet === name);
    const cells = tables.reduce((all, table) => changeHeads(file, table, all), list);
    yield* changingCells(file, sheet, cells, writing);
  }
  changeNames(file, changes);
  if (seen.formulaRemoved) removeCalculationOrder(file);
  if (seen.valueMissing) calculateOnOpening(file, book.part);
}

/** As `changingWorkbook`, at once. */
export const changeWorkbook = (file: Package, changes: WorkbookChanges): void =>
  atOnce(changingWorkbook(file, changes));
