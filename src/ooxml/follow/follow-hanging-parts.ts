import { areaAddress, placeAddress, readArea } from '../../plan/addresses';
import { RefusedChange } from '../cell-changes';
import type { Package } from '../package';
import { childNamed, childrenNamed, descendants, type XmlElement } from '../read-xml';
import type { WorkbookParts } from '../workbook-parts';
import { cuts, isSame, type LinesStep, movedArea, movedLine, movedPlace } from './file-step';
import { cannot, named } from './refusal-words';
import { XmlEdits } from './xml-edits';

function followDrawing(file: Package, part: string, step: LinesStep): void {
  const edits = new XmlEdits(file, part);
  const name = step.dimension === 'row' ? 'row' : 'col';
  for (const anchor of edits.root.children) {
    if (!/^(?:two|one)CellAnchor$/.test(anchor.name)) continue;
    const editAs = anchor.attributes['editAs'] ?? 'twoCell';
    if (editAs === 'absolute' && anchor.name === 'twoCellAnchor') continue;
    const [from, to] = ['from', 'to'].map((end) => childNamed(childNamed(anchor, end), name));
    if (!from) continue;
    const start = Number(from.text);
    const now = movedLine(start, step) ?? step.at;
    edits.setText(from, String(now));
    if (!to) continue;
    const last = Number(to.text);
    const end = editAs === 'oneCell' ? last + now - start : (movedLine(last, step) ?? step.at);
    edits.setText(to, String(end));
  }
  edits.write();
}

/** Notes hang on their cell by its address, and are drawn in a part of their own. */
function followNotes(file: Package, part: string, step: LinesStep): void {
  const edits = new XmlEdits(file, part);
  const list = childNamed(edits.root, 'commentList') ?? edits.root;
  const removed: XmlElement[] = [];
  for (const note of [
    ...childrenNamed(list, 'comment'),
    ...childrenNamed(list, 'threadedComment'),
  ]) {
    const area = readArea(note.attributes['ref'] ?? '');
    const to = area && movedPlace(area, step);
    if (to) edits.set(note, 'ref', placeAddress(to));
    else if (area) removed.push(note);
  }
  for (const note of removed) edits.remove(note);
  edits.write();
}

function followNoteShapes(file: Package, part: string, sheet: string, step: LinesStep): void {
  let edits: XmlEdits;
  try {
    edits = new XmlEdits(file, part);
  } catch {
    throw cannot(sheet, `the drawing of its notes (${part}) cannot be read`);
  }
  for (const shape of descendants(edits.root, 'shape')) {
    const data = childNamed(shape, 'ClientData');
    if (!data) continue;
    const [row, column] = ['Row', 'Column'].map((name) => childNamed(data, name));
    if (row && column) {
      const to = movedPlace({ row: Number(row.text), column: Number(column.text) }, step);
      if (!to) {
        edits.remove(shape);
        continue;
      }
      edits.setText(row, String(to.row));
      edits.setText(column, String(to.column));
    }
    const anchor = childNamed(data, 'Anchor');
    const corners = anchor?.text.split(',').map((text) => Number(text.trim()));
    if (!anchor || corners?.length !== 8 || !corners.every(Number.isFinite)) continue;
    for (const at of step.dimension === 'row' ? [2, 6] : [0, 4])
      corners[at] = movedLine(corners[at] ?? 0, step) ?? step.at;
    edits.setText(anchor, corners.join(', '));
  }
  edits.write();
}

function followPivot(file: Package, part: string, step: LinesStep): void {
  const edits = new XmlEdits(file, part);
  const location = childNamed(edits.root, 'location');
  const area = readArea(location?.attributes['ref'] ?? '');
  if (!location || !area) return;
  const moved = movedArea(area, step);
  if (cuts(area, step) || !moved) {
    throw new RefusedChange(
      `The ${named(step)}s cannot come in or go there: a pivot table of "${step.sheet}" fills ${areaAddress(area)}.`,
    );
  }
  edits.set(location, 'ref', areaAddress(moved));
  edits.write();
}

/** Records of a pivot table on the sheet whose lines come in or go. */
function followSources(file: Package, book: WorkbookParts, step: LinesStep): void {
  for (const { type, target } of file.relationships(book.part)) {
    if (!type.endsWith('/pivotCacheDefinition') || !file.has(target)) continue;
    const edits = new XmlEdits(file, target);
    for (const source of descendants(edits.root, 'worksheetSource')) {
      const { sheet, ref } = source.attributes;
      const area = readArea(ref ?? '');
      if (sheet === undefined || !isSame(sheet, step.sheet) || !area) continue;
      const moved = movedArea(area, step);
      const isHead = step.count < 0 && step.at <= area.row && step.at - step.count > area.row;
      const isCut = step.dimension === 'column' ? cuts(area, step) : isHead;
      if (!moved || isCut) {
        throw new RefusedChange(
          `The ${named(step)}s of "${step.sheet}" cannot come in or go there: a pivot table reads ${areaAddress(area)} and would lose its heads.`,
        );
      }
      edits.set(source, 'ref', areaAddress(moved));
    }
    edits.write();
  }
}

/** Parts that hang on the cells of a sheet: drawings, notes, pivot tables; and records that pivot tables read on it. */
export function followHangingParts(
  file: Package,
  book: WorkbookParts,
  sheet: { readonly name: string; readonly part: string },
  step: LinesStep,
): void {
  for (const { type, target, external } of file.relationships(sheet.part)) {
    if (external || !file.has(target)) continue;
    if (type.endsWith('/drawing')) followDrawing(file, target, step);
    else if (/\/(?:comments|threadedComment)$/.test(type)) followNotes(file, target, step);
    else if (type.endsWith('/vmlDrawing')) followNoteShapes(file, target, sheet.name, step);
    else if (type.endsWith('/pivotTable')) followPivot(file, target, step);
  }
  followSources(file, book, step);
}
