import { areaAddress, cellAddress, placeAddress, readArea } from '../../plan/addresses';
import { partly, type Steps } from '../../plan/in-steps';
import type { Area } from '../../plan/workbook-model';
import { RefusedChange } from '../cell-changes';
import type { Package } from '../package';
import { childNamed, childrenNamed, descendants, type XmlElement } from '../read-xml';
import { readingRows, type SheetCell, translated } from '../sheet-cells';
import type { SheetPart, TablePart, WorkbookParts } from '../workbook-parts';
import { element as xmlElement } from '../write-xml';
import {
  cuts,
  isSame,
  type LinesStep,
  movedArea,
  movedLine,
  movedPlace,
  movedSpan,
} from './file-step';
import { followHangingParts } from './follow-hanging-parts';
import { followedText } from './follow-references';
import { cannot, named } from './refusal-words';
import { XmlEdits } from './xml-edits';

/** What of a sheet part is followed, or hangs on no cell. */
const KNOWN = new Set([
  ...['sheetPr', 'dimension', 'sheetViews', 'sheetFormatPr', 'cols', 'sheetData', 'sheetCalcPr'],
  ...['sheetProtection', 'protectedRanges', 'autoFilter', 'sortState', 'mergeCells', 'phoneticPr'],
  ...['conditionalFormatting', 'dataValidations', 'hyperlinks', 'printOptions', 'pageMargins'],
  ...['pageSetup', 'headerFooter', 'rowBreaks', 'colBreaks', 'customProperties', 'ignoredErrors'],
  ...['drawing', 'legacyDrawing', 'legacyDrawingHF', 'picture', 'tableParts', 'extLst'],
]);

const FOLLOWED_EXTENSIONS = ['conditionalFormattings', 'dataValidations', 'sparklineGroups'];
/** How large a sheet is drawn hangs on no cell. */
const KNOWN_EXTENSIONS = new Set([...FOLLOWED_EXTENSIONS, 'PLV']);

/** Parts of a sheet that are followed, or hang on no cell. */
const KNOWN_PARTS =
  /\/(?:drawing|vmlDrawing|comments|threadedComment|table|hyperlink|printerSettings|image|pivotTable|customProperty)$/;

function refuseUnknown(file: Package, sheet: SheetPart, root: XmlElement): void {
  for (const { name } of root.children) {
    if (KNOWN.has(name)) continue;
    const what = name === 'AlternateContent' || name === 'controls' ? 'buttons or controls' : name;
    throw cannot(sheet.name, `the sheet has ${what}`);
  }
  for (const ext of childrenNamed(childNamed(root, 'extLst'), 'ext')) {
    const unknown = ext.children.find(({ name }) => !KNOWN_EXTENSIONS.has(name));
    if (unknown) throw cannot(sheet.name, `the sheet has an addition of the kind ${unknown.name}`);
  }
  for (const { type, external } of file.relationships(sheet.part)) {
    if (external || KNOWN_PARTS.test(type)) continue;
    throw cannot(sheet.name, `the sheet has a part of the kind ${type.split('/').at(-1) ?? type}`);
  }
}

/** A list of blocks after a step; undefined where none is left. */
function movedList(list: string, step: LinesStep): string | undefined {
  const moved = list
    .split(/\s+/)
    .filter(Boolean)
    .flatMap((range) => {
      const area = readArea(range);
      if (!area) return [wholeLines(range, step)].flatMap((text) => text ?? []);
      const to = movedArea(area, step);
      return to ? [areaAddress(to)] : [];
    });
  return moved.length === 0 ? undefined : moved.join(' ');
}

/** Whole rows or columns ("4:7", "B:D") after a step. */
function wholeLines(text: string, step: LinesStep): string | undefined {
  const now = followedText(text, step, { sheet: step.sheet, where: text, order: [] }, true);
  return now === '#REF!' ? undefined : now;
}

/** A block that one formula fills moves as a whole. */
function followBlock(
  edits: XmlEdits,
  sheet: SheetPart,
  cell: SheetCell,
  { f, ref }: { readonly f: XmlElement; readonly ref: Area },
  step: LinesStep,
): void {
  if (cuts(ref, step)) {
    throw new RefusedChange(
      `${sheet.name}!${placeAddress(cell)} fills ${areaAddress(ref)} as one block; ${named(step)}s cannot come in or go in the middle of it.`,
    );
  }
  if (f.attributes['t'] === 'dataTable') {
    throw cannot(sheet.name, `${placeAddress(cell)} belongs to a data table`);
  }
  const moved = movedArea(ref, step);
  if (moved) edits.set(f, 'ref', areaAddress(moved));
}

/** So many rows are followed in one step. */
const ROWS = 200;

/** Cells and rows: what goes is taken out, what moves gets its new address, what comes in looks like its neighbour. */
function* followingSheetData(
  file: Package,
  edits: XmlEdits,
  sheet: SheetPart,
  step: LinesStep,
): Steps<void> {
  const rows = yield* partly(readingRows(file, sheet.part), 0, 0.4);
  const isRow = step.dimension === 'row';
  for (const [n, { row, element, cells }] of rows.entries()) {
    if (n % ROWS === 0) yield 0.4 + (0.6 * n) / rows.length;
    const to = isRow ? movedLine(row, step) : row;
    if (to === undefined) edits.remove(element);
    else if (to !== row) edits.set(element, 'r', to + 1);
    if (!isRow && element.attributes['spans'] !== undefined) edits.set(element, 'spans', undefined);
    const looks: string[] = [];
    for (const cell of cells) {
      const at = movedPlace(cell, step);
      const f = childNamed(cell.element, 'f');
      const ref = readArea(f?.attributes['ref'] ?? '');
      if (f && ref && !cell.shared) followBlock(edits, sheet, cell, { f, ref }, step);
      if (!at) {
        const isFilled = cell.formula !== undefined || cell.value !== undefined;
        if (step.count > 0 && isFilled) {
          throw new RefusedChange(
            `No more ${named(step)}s fit into "${sheet.name}": ${placeAddress(cell)} is filled and would fall off its end.`,
          );
        }
        edits.remove(cell.element);
        continue;
      }
      if (at.row !== cell.row || at.column !== cell.column) {
        edits.set(cell.element, 'r', placeAddress(at));
      }
      const style = cell.element.attributes['s'];
      if (step.count > 0 && style !== undefined && style !== '0') {
        if (isRow && row === step.like) looks.push(`${cell.column} ${style}`);
        if (!isRow && cell.column === step.like) {
          const fresh = Array.from({ length: step.count }, (_, i) =>
            xmlElement(`${element.prefix}c`, { r: cellAddress(row, step.at + i), s: style }),
          ).join('');
          const next = cells.find(({ column }) => column >= step.at);
          if (next) edits.insertBefore(next.element, fresh);
          else edits.insertAfter((cells.at(-1) ?? cell).element, fresh);
        }
      }
    }
    if (looks.length > 0) {
      const { ht, customHeight, s, customFormat } = element.attributes;
      const fresh = Array.from({ length: step.count }, (_, i) =>
        xmlElement(
          `${element.prefix}row`,
          { r: step.at + i + 1, s, customFormat, ht, customHeight },
          looks.map((look) => {
            const [column = 0, style] = look.split(' ').map(Number);
            return xmlElement(`${element.prefix}c`, {
              r: cellAddress(step.at + i, column),
              s: style,
            });
          }),
        ),
      ).join('');
      const next = rows.find((later) => later.row >= step.at);
      if (next) edits.insertBefore(next.element, fresh);
      else edits.insertAfter((rows.at(-1) as { element: XmlElement }).element, fresh);
    }
  }
}

function followColumns(edits: XmlEdits, root: XmlElement, step: LinesStep): void {
  const list = childNamed(root, 'cols');
  if (!list || step.dimension === 'row') return;
  const gone: XmlElement[] = [];
  for (const column of childrenNamed(list, 'col')) {
    const first = Number(column.attributes['min']) - 1;
    const last = Number(column.attributes['max']) - 1;
    // New columns are as wide as the one whose look they take on.
    const isLike = step.count > 0 && first <= step.like && step.like <= last;
    const span = movedSpan({ first, last }, step);
    if (!span) {
      gone.push(column);
      continue;
    }
    const from = isLike ? Math.min(span.first, step.at) : span.first;
    const to = isLike ? Math.max(span.last, step.at + step.count - 1) : span.last;
    edits.set(column, 'min', from + 1);
    edits.set(column, 'max', Math.min(to, 16_383) + 1);
  }
  edits.removeFrom(list, gone);
}

function followViews(edits: XmlEdits, root: XmlElement, step: LinesStep): void {
  for (const view of childrenNamed(childNamed(root, 'sheetViews'), 'sheetView')) {
    const move = (element: XmlElement, name: string): void => {
      const was = element.attributes[name];
      if (was === undefined) return;
      edits.set(element, name, movedList(was, step) ?? 'A1');
    };
    move(view, 'topLeftCell');
    for (const child of view.children) {
      if (child.name === 'pane') {
        const split = step.dimension === 'row' ? 'ySplit' : 'xSplit';
        const lines = Number(child.attributes[split] ?? 0);
        if (/^frozen/.test(child.attributes['state'] ?? '') && lines > 0) {
          const span = movedSpan({ first: 0, last: lines - 1 }, step);
          const left = span ? span.last + 1 : 0;
          if (left === 0) throw cannot(step.sheet, 'all its frozen lines would go');
          edits.set(child, split, left);
        }
        move(child, 'topLeftCell');
      } else if (child.name === 'selection') {
        move(child, 'activeCell');
        move(child, 'sqref');
      }
    }
  }
}

/** Elements of a list with a block each; those whose block is gone go with it. */
function followBlocks(
  edits: XmlEdits,
  list: XmlElement | undefined,
  child: string,
  attribute: string,
  step: LinesStep,
): void {
  if (!list) return;
  const gone: XmlElement[] = [];
  for (const element of childrenNamed(list, child)) {
    const was = element.attributes[attribute] ?? '';
    const now = movedList(was, step);
    const area = now === undefined ? undefined : readArea(now);
    const isEmpty =
      now === undefined || (child === 'mergeCell' && area && area.rows * area.columns === 1);
    if (isEmpty) gone.push(element);
    else if (now !== was) edits.set(element, attribute, now);
  }
  edits.removeFrom(list, gone);
}

/** A rule's formulas count from the first cell of its blocks: where that goes, they first move to one that stays. */
function followRule(
  edits: XmlEdits,
  formulas: readonly XmlElement[],
  list: string,
  step: LinesStep,
  where: string,
): void {
  const area = readArea(list.split(/\s+/)[0] ?? '');
  const isRow = step.dimension === 'row';
  const first = area && (isRow ? area.row : area.column);
  const isGone =
    first !== undefined && step.count < 0 && first >= step.at && first < step.at - step.count;
  for (const formula of formulas) {
    let text = formula.text;
    if (area && isGone) {
      const to = isRow
        ? { row: step.at - step.count, column: area.column }
        : { row: area.row, column: step.at - step.count };
      text = translated(text, area, to);
    }
    const now = followedText(text, step, { sheet: step.sheet, where, order: [] }, true);
    if (now !== formula.text) edits.setText(formula, now);
  }
}

function followRules(edits: XmlEdits, root: XmlElement, step: LinesStep): void {
  const formulasOf = (element: XmlElement): XmlElement[] =>
    ['formula', 'formula1', 'formula2'].flatMap((name) => childrenNamed(element, name));
  for (const list of childrenNamed(root, 'conditionalFormatting')) {
    const was = list.attributes['sqref'] ?? '';
    const now = movedList(was, step);
    if (now === undefined) {
      edits.remove(list);
      continue;
    }
    edits.set(list, 'sqref', now);
    const rules = childrenNamed(list, 'cfRule');
    followRule(edits, rules.flatMap(formulasOf), was, step, 'a conditional format');
    for (const value of rules.flatMap((rule) => descendants(rule, 'cfvo')))
      followValue(edits, value, step);
  }
  const validations = childNamed(root, 'dataValidations');
  for (const rule of childrenNamed(validations, 'dataValidation')) {
    const was = rule.attributes['sqref'] ?? '';
    followRule(edits, formulasOf(rule), was, step, 'a rule for what may be typed');
  }
  followBlocks(edits, validations, 'dataValidation', 'sqref', step);
}

function followValue(edits: XmlEdits, value: XmlElement, step: LinesStep): void {
  const was = value.attributes['val'];
  if (was === undefined || was === '' || Number.isFinite(Number(was))) return;
  const place = { sheet: step.sheet, where: 'a conditional format', order: [] };
  edits.set(value, 'val', followedText(was, step, place, true));
}

/** Rules and small charts of the younger kind, whose blocks stand in elements. */
function followExtensions(edits: XmlEdits, root: XmlElement, step: LinesStep): void {
  for (const ext of childrenNamed(childNamed(root, 'extLst'), 'ext')) {
    for (const list of ext.children) {
      if (!FOLLOWED_EXTENSIONS.includes(list.name)) continue;
      const groups = list.name === 'sparklineGroups' ? list.children : [list];
      for (const group of groups) {
        const holders =
          list.name === 'sparklineGroups'
            ? childrenNamed(childNamed(group, 'sparklines'), 'sparkline')
            : group.children;
        for (const holder of holders) {
          const sqref = childNamed(holder, 'sqref');
          const now = sqref && movedList(sqref.text, step);
          if (now === undefined) {
            throw new RefusedChange(
              `The ${named(step)}s of "${step.sheet}" cannot go: they hold a rule or a small chart (${sqref?.text ?? list.name}) of a kind that cannot be taken out here.`,
            );
          }
          edits.setText(sqref as XmlElement, now);
          const formulas = descendants(holder, 'f');
          if (list.name === 'sparklineGroups') {
            followRule(edits, formulas, '', step, 'a small chart in a cell');
          } else {
            followRule(edits, formulas, sqref?.text ?? '', step, 'a rule of the sheet');
          }
        }
        if (list.name === 'sparklineGroups') {
          followRule(edits, childrenNamed(group, 'f'), '', step, 'a small chart in a cell');
        }
      }
    }
  }
}

function followFilter(edits: XmlEdits, filter: XmlElement | undefined, step: LinesStep): void {
  if (!filter) return;
  const area = readArea(filter.attributes['ref'] ?? '');
  if (area) {
    const isColumn = step.dimension === 'column';
    const moved = movedArea(area, step);
    const isCut = isColumn ? cuts(area, step) : movedLine(area.row, step) === undefined;
    if (isCut || !moved) {
      throw cannot(
        step.sheet,
        `a filter (${filter.attributes['ref']}) would lose its head or its columns`,
      );
    }
    edits.set(filter, 'ref', areaAddress(moved));
  }
  for (const state of descendants(filter, 'sortState')) followSort(edits, state, step);
}

function followSort(edits: XmlEdits, state: XmlElement | undefined, step: LinesStep): void {
  if (!state) return;
  for (const condition of [state, ...childrenNamed(state, 'sortCondition')]) {
    const now = movedList(condition.attributes['ref'] ?? '', step);
    if (now === undefined) edits.remove(condition);
    else edits.set(condition, 'ref', now);
  }
}

function followBreaks(edits: XmlEdits, root: XmlElement, step: LinesStep): void {
  const list = childNamed(root, step.dimension === 'row' ? 'rowBreaks' : 'colBreaks');
  if (!list) return;
  const seen = new Set<number>();
  const gone: XmlElement[] = [];
  for (const pageBreak of childrenNamed(list, 'brk')) {
    const id = Number(pageBreak.attributes['id'] ?? 0);
    const now = movedLine(id, step);
    if (now === undefined || seen.has(now)) gone.push(pageBreak);
    else {
      seen.add(now);
      edits.set(pageBreak, 'id', now);
    }
  }
  edits.removeFrom(list, gone);
  if (gone.length > 0 && list.attributes['manualBreakCount'] !== undefined) {
    const manual = list.children.filter(
      (pageBreak) =>
        !gone.includes(pageBreak) && ['1', 'true'].includes(pageBreak.attributes['man'] ?? ''),
    );
    edits.set(list, 'manualBreakCount', manual.length);
  }
}

function followTable(file: Package, table: TablePart, step: LinesStep): void {
  const { area, name, headRows, totalRows } = table;
  const isRow = step.dimension === 'row';
  const end = area.row + area.rows;
  const refuse = (why: string): never => {
    throw new RefusedChange(
      `The ${named(step)}s of "${step.sheet}" cannot come in or go there: ${why} of the table ${name}. Change the table in the program that made the file.`,
    );
  };
  if (!isRow && cuts(area, step)) refuse('they are among the columns');
  const moved = movedArea(area, step);
  if (!moved) refuse('they are all the lines');
  if (isRow && step.count < 0) {
    const [from, to] = [step.at, step.at - step.count];
    const hits = (first: number, last: number): boolean => from < last && to > first;
    if (headRows > 0 && hits(area.row, area.row + headRows)) refuse('they hold the heads');
    if (totalRows > 0 && hits(end - totalRows, end)) refuse('they hold the totals');
    if (moved && moved.rows <= headRows + totalRows) refuse('they are all the records');
  }
  if (
    isRow &&
    step.count > 0 &&
    headRows > 1 &&
    step.at > area.row &&
    step.at < area.row + headRows
  )
    refuse('they come between the heads');
  const edits = new XmlEdits(file, table.part);
  edits.set(edits.root, 'ref', areaAddress(moved as Area));
  const filter = childNamed(edits.root, 'autoFilter');
  if (filter) {
    const ref = readArea(filter.attributes['ref'] ?? '');
    const to = ref && movedArea(ref, step);
    if (to) edits.set(filter, 'ref', areaAddress(to));
    for (const state of descendants(filter, 'sortState')) followSort(edits, state, step);
  }
  followSort(edits, childNamed(edits.root, 'sortState'), step);
  edits.write();
}

/** The sheet whose lines come in or go, and the parts that hang on its cells. References are followed before. */
export function* followingLines(file: Package, book: WorkbookParts, step: LinesStep): Steps<void> {
  const sheet = book.sheets.find(({ name }) => isSame(name, step.sheet));
  if (!sheet) throw new Error(`The file has no sheet called "${step.sheet}"`);
  for (const table of book.tables) if (table.sheet === sheet.name) followTable(file, table, step);
  yield* partly(file.rooting(sheet.part), 0, 0.4);
  const edits = new XmlEdits(file, sheet.part);
  const { root } = edits;
  refuseUnknown(file, sheet, root);
  const dimension = childNamed(root, 'dimension');
  if (dimension) {
    const now = movedList(dimension.attributes['ref'] ?? '', step);
    edits.set(dimension, 'ref', now ?? 'A1');
  }
  followViews(edits, root, step);
  followColumns(edits, root, step);
  yield* partly(followingSheetData(file, edits, sheet, step), 0.4, 0.8);
  followBlocks(edits, childNamed(root, 'protectedRanges'), 'protectedRange', 'sqref', step);
  followFilter(edits, childNamed(root, 'autoFilter'), step);
  followSort(edits, childNamed(root, 'sortState'), step);
  followBlocks(edits, childNamed(root, 'mergeCells'), 'mergeCell', 'ref', step);
  followRules(edits, root, step);
  followBlocks(edits, childNamed(root, 'hyperlinks'), 'hyperlink', 'ref', step);
  followBreaks(edits, root, step);
  followBlocks(edits, childNamed(root, 'ignoredErrors'), 'ignoredError', 'sqref', step);
  followExtensions(edits, root, step);
  yield* partly(edits.writing(), 0.8, 1);
  followHangingParts(file, book, sheet, step);
}
