import { placeAddress } from '../../plan/addresses';
import { partly, type Steps } from '../../plan/in-steps';
import { RefusedChange } from '../cell-changes';
import type { Package } from '../package';
import { childNamed, type XmlElement } from '../read-xml';
import { readingRows, type SheetCell } from '../sheet-cells';
import type { WorkbookParts } from '../workbook-parts';
import { UnreadableFile } from '../unreadable-file';
import { escapeText } from '../write-xml';
import { type FileStep, isSame } from './file-step';
import {
  followedFormula,
  type FormulaPlace,
  isRelative,
  readsSheet,
  spellsSheet,
} from './followed-formula';
import { XmlEdits } from './xml-edits';

/** Elements whose text is a formula, wherever they stand. */
const FORMULA_ELEMENTS = new Set([
  ...['f', 'formula', 'formula1', 'formula2', 'calculatedColumnFormula', 'totalsRowFormula'],
  ...['FmlaLink', 'FmlaRange', 'FmlaPict', 'FmlaTxbx', 'FmlaGroup'],
]);

/** Attributes that hold a reference. */
const FORMULA_ATTRIBUTES: Readonly<Record<string, readonly string[]>> = {
  hyperlink: ['location'],
  sp: ['textlink'],
  cxnSp: ['textlink'],
  pic: ['textlink'],
  formControlPr: ['fmlaLink', 'fmlaRange', 'fmlaPict', 'fmlaTxbx', 'fmlaGroup'],
  controlPr: ['linkedCell', 'listFillRange'],
  cfvo: ['val'],
};

/** Parts in which references stand, by the sheet that they belong to. */
export function partsOfSheets(file: Package, book: WorkbookParts): Map<string, string> {
  const owners = new Map<string, string>();
  const add = (part: string, sheet: string, depth: number): void => {
    for (const { target, external, type } of file.relationships(part)) {
      if (external || !file.has(target) || owners.has(target)) continue;
      if (/\/(?:worksheet|officeDocument|image|printerSettings)$/.test(type)) continue;
      owners.set(target, sheet);
      if (depth < 3) add(target, sheet, depth + 1);
    }
  };
  for (const { part, name } of book.sheets) {
    owners.set(part, name);
    add(part, name, 0);
  }
  add(book.part, '', 0);
  return owners;
}

const whatOf: Readonly<Record<string, string>> = {
  chartSpace: 'a chart',
  wsDr: 'a drawing',
  table: 'a table',
  worksheet: 'a rule or a link',
  chartsheet: 'a chart sheet',
  pivotCacheDefinition: 'a pivot table',
};

/** Refuses to follow in silence where a formula spells the sheet's name in a text. */
function refuseSpelled(text: string, step: FileStep, where: string): void {
  if (step.kind === 'lines' || !spellsSheet(text, step.sheet)) return;
  throw new RefusedChange(
    `${where} spells the name of the sheet "${step.sheet}" in a text, which cannot follow. Change that formula first.`,
  );
}

/** Follows what a cell's formula, a name and the like read; where a sheet goes, only these may lose it. */
export function followedText(
  text: string,
  step: FileStep,
  place: FormulaPlace,
  mayLose: boolean,
): string {
  const sign = text.startsWith('=') ? '=' : '';
  const formula = text.slice(sign.length);
  refuseSpelled(formula, step, place.where);
  const followed = followedFormula(formula, step, place);
  if (step.kind === 'remove' && !mayLose && followed !== formula) {
    throw new RefusedChange(
      `The sheet "${step.sheet}" cannot be removed: ${place.where} reads it. Take that away first, or let it read another sheet.`,
    );
  }
  return sign + followed;
}

/** Whether the text of a part can mean a sheet at all. */
export function mayName(xml: string, sheet: string): boolean {
  const text = xml.toLowerCase();
  const name = sheet.toLowerCase();
  return [
    name,
    name.replaceAll("'", "''"),
    escapeText(name),
    escapeText(name).replaceAll("'", '&apos;&apos;'),
  ].some((sign) => text.includes(sign));
}

/** So many cells are followed in one step. */
const CELLS = 500;

/** Formulas of the cells of a sheet; those that are stored together are written out where one of them moves. */
function* followingCells(
  edits: XmlEdits,
  file: Package,
  sheet: { readonly name: string; readonly part: string },
  step: FileStep,
  order: readonly string[],
): Steps<void> {
  const isOwn = isSame(sheet.name, step.sheet);
  const released = new Set<string>();
  const cells: SheetCell[] = [];
  for (const row of yield* partly(readingRows(file, sheet.part), 0, 0.3)) {
    for (const cell of row.cells) if (cell.formula !== undefined) cells.push(cell);
  }
  const shareOf = (cell: SheetCell): string =>
    childNamed(cell.element, 'f')?.attributes['si'] ?? '';
  if (step.kind === 'lines') {
    for (const [n, cell] of cells.entries()) {
      if (n % CELLS === 0) yield 0.3 + (0.2 * n) / cells.length;
      if (!cell.shared || released.has(shareOf(cell))) continue;
      if (isOwn || readsSheet(cell.formula ?? '', step.sheet, sheet.name))
        released.add(shareOf(cell));
    }
  }
  for (const [n, cell] of cells.entries()) {
    if (n % CELLS === 0) yield 0.5 + (0.5 * n) / cells.length;
    const f = childNamed(cell.element, 'f');
    if (!f) continue;
    const place = { sheet: sheet.name, where: `${sheet.name}!${placeAddress(cell)}`, order };
    const was = cell.formula ?? '';
    const now = followedText(was, step, place, true);
    if (cell.shared && released.has(shareOf(cell))) {
      edits.replace(f, `<${f.prefix}f>${escapeText(now)}</${f.prefix}f>`);
    } else if (now !== was && f.text !== '') edits.setText(f, now);
  }
}

function followElement(edits: XmlEdits, element: XmlElement, step: FileStep, place: FormulaPlace) {
  const { name, attributes, text } = element;
  // What a chart of the younger kind reads stands in an element of the name of a list of cells.
  const isFormula =
    FORMULA_ELEMENTS.has(name) || (name === 'sqref' && edits.root.name === 'chartSpace');
  if (isFormula && text !== '') {
    const now = followedText(text, step, place, false);
    if (now !== text) edits.setText(element, now);
  }
  for (const attribute of FORMULA_ATTRIBUTES[name] ?? []) {
    const was = attributes[attribute];
    if (was === undefined || was === '' || Number.isFinite(Number(was))) continue;
    const now = followedText(was, step, place, false);
    if (now !== was) edits.set(element, attribute, now);
  }
  if (
    (name === 'worksheetSource' || name === 'rangeSet' || name === 'dataRef') &&
    step.kind !== 'lines'
  ) {
    const of = attributes['sheet'];
    // A source in another file has an id of its own.
    const isElsewhere = Object.keys(attributes).some((key) => /(?:^|:)id$/.test(key));
    if (of !== undefined && isSame(of, step.sheet) && !isElsewhere) {
      if (step.kind === 'remove') {
        throw new RefusedChange(
          `The sheet "${step.sheet}" cannot be removed: a pivot table gets its records from it.`,
        );
      }
      edits.set(element, 'sheet', step.to);
    }
  }
}

/** Names of the workbook. Where a sheet goes, those for it alone go with it. */
function followNames(file: Package, book: WorkbookParts, step: FileStep): void {
  const edits = new XmlEdits(file, book.part);
  const order = book.sheets.map(({ name }) => name);
  const list = childNamed(book.root, 'definedNames');
  const gone = book.names.filter(
    ({ sheet }) => step.kind === 'remove' && sheet !== undefined && isSame(sheet, step.sheet),
  );
  for (const definedName of book.names) {
    if (gone.includes(definedName)) continue;
    const { name, text, sheet = '', element } = definedName;
    if (step.kind === 'lines' && isRelative(text, step.sheet, step.dimension)) {
      throw new RefusedChange(
        `The name "${name}" means cells relative to where it stands (${text}), which cannot follow lines of "${step.sheet}" that come in or go.`,
      );
    }
    const where = `the name "${name}"`;
    const now = followedText(text, step, { sheet, where, order }, true);
    if (now !== text) edits.setText(element, now);
  }
  if (list)
    edits.removeFrom(
      list,
      gone.map(({ element }) => element),
    );
  edits.write();
}

/** Whether a part is text; it is at hand then. */
function* isReadable(file: Package, part: string): Steps<boolean> {
  try {
    yield* file.loading(part);
  } catch (problem) {
    if (problem instanceof UnreadableFile) return false;
    throw problem;
  }
  return file.readableText(part) !== undefined;
}

/** Where the work on a part begins and ends in that on all, by their lengths. */
function sharesOf(
  file: Package,
  parts: readonly string[],
): (part: string, within: number) => number {
  const all = parts.reduce((sum, part) => sum + file.length(part), 1);
  const begins = new Map<string, number>();
  let sum = 0;
  for (const part of parts) {
    begins.set(part, sum);
    sum += file.length(part);
  }
  const lengths = new Map(parts.map((part) => [part, file.length(part)]));
  return (part, within) => ((begins.get(part) ?? 0) + within * (lengths.get(part) ?? 0)) / all;
}

const isXml = (part: string): boolean => /\.(?:xml|vml)$/i.test(part);

/** Has every reference of the file follow a step, but for the lines of the step's own sheet. */
export function* followingReferences(
  file: Package,
  book: WorkbookParts,
  step: FileStep,
): Steps<void> {
  const order = book.sheets.map(({ name }) => name);
  const owners = partsOfSheets(file, book);
  const sheets = new Map(book.sheets.map((sheet) => [sheet.part, sheet]));
  const share = sharesOf(file, [...owners.keys()]);
  for (const [part, owner] of owners) {
    if (!isXml(part)) continue;
    const within = <Result>(work: Steps<Result>, from: number, to: number): Steps<Result> =>
      partly(work, share(part, from), share(part, to));
    const isOwn = isSame(owner, step.sheet);
    // What belongs to a sheet that goes, goes with it.
    if (step.kind === 'remove' && isOwn) continue;
    if (!(yield* within(isReadable(file, part), 0, 0.1))) continue;
    const xml = file.text(part);
    if (!(isOwn && step.kind === 'lines') && !mayName(xml, step.sheet)) continue;
    let edits: XmlEdits;
    try {
      yield* within(file.rooting(part), 0.1, 0.4);
      edits = new XmlEdits(file, part);
    } catch {
      throw new RefusedChange(
        `The part ${part} of the file cannot be read, so that nobody knows whether it counts on the sheet "${step.sheet}".`,
      );
    }
    const sheet = sheets.get(part);
    if (sheet) yield* within(followingCells(edits, file, sheet, step, order), 0.4, 0.8);
    const what = whatOf[edits.root.name] ?? 'something';
    const place = { sheet: owner, where: owner === '' ? what : `${what} of "${owner}"`, order };
    // Rules of the sheet whose lines come in or go count from its cells, and move with them.
    const isMoving = sheet !== undefined && isOwn && step.kind === 'lines';
    const visit = (element: XmlElement): void => {
      if (element.name === 'sheetData') return;
      if (!isMoving || element.name === 'hyperlink') followElement(edits, element, step, place);
      element.children.forEach(visit);
    };
    visit(edits.root);
    yield* within(edits.writing(), 0.8, 1);
  }
  followNames(file, book, step);
  followLinks(file, step, owners.keys());
}

/** Links of drawings to a cell stand among the relationships: "#Tanks!A1". */
function followLinks(file: Package, step: FileStep, owners: Iterable<string>): void {
  if (step.kind === 'lines') return;
  for (const owner of owners) {
    for (const { element, part } of file.linkElements(owner)) {
      const target = element.attributes['Target'] ?? '';
      if (!target.startsWith('#')) continue;
      const link = decodedLink(target.slice(1));
      const place = { sheet: '', where: 'a link of a drawing', order: [] };
      const now = followedText(link, step, place, false);
      if (now === link) continue;
      const edits = new XmlEdits(file, part);
      edits.set(element, 'Target', `#${now}`);
      edits.write();
      // Places have changed: the rest is looked at anew.
      followLinks(file, step, [owner]);
      return;
    }
  }
}

function decodedLink(link: string): string {
  try {
    return decodeURIComponent(link);
  } catch {
    return link;
  }
}

/** Elements in which a name that looks like the sheet's is somebody's words. */
const WORDS = new Set(['v', 't', 'text', 'author', 'si', 'is', 'r']);
const WORDY_ATTRIBUTES = new Set(['display', 'tooltip', 'descr', 'title', 'v', 'caption', 'name']);
const WORDY_PARTS =
  /(?:sharedStrings|styles|comments|theme|person|docProps|customXml|threadedComments|sharedItems|pivotCacheRecords|richData|metadata|connections)/i;

/** After a sheet was renamed or removed: refuses where something still counts on its old name. */
export function refuseLeftovers(file: Package, step: FileStep): void {
  if (step.kind === 'lines') return;
  const name = step.sheet;
  const spelt = [name, name.replaceAll("'", "''")].map((spelling) => spelling.toLowerCase());
  const isLetter = (sign: string | undefined): boolean => /[\p{L}\p{N}_.\]]/u.test(sign ?? '');
  const names = (text: string): boolean =>
    spelt.some((spelling) =>
      [`${spelling}!`, `'${spelling}'!`].some((wanted) => {
        const at = text.toLowerCase().indexOf(wanted);
        return at >= 0 && !isLetter(text[at - 1]);
      }),
    );
  for (const part of file.names) {
    if (!/\.(?:xml|vml|rels)$/i.test(part) || WORDY_PARTS.test(part)) continue;
    const xml = file.readableText(part);
    if (xml === undefined || !mayName(xml, name)) continue;
    const visit = (element: XmlElement): boolean => {
      if (!WORDS.has(element.name) && names(element.text)) return true;
      const attributes = Object.entries(element.attributes);
      if (attributes.some(([key, value]) => !WORDY_ATTRIBUTES.has(key) && names(value)))
        return true;
      return element.children.some(visit);
    };
    let found: boolean;
    try {
      found = visit(file.root(part));
    } catch {
      found = true;
    }
    if (!found) continue;
    throw new RefusedChange(
      `The part ${part} of the file counts on the name of the sheet "${name}" in a way that cannot follow.`,
    );
  }
}
