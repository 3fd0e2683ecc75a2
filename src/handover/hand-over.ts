import { type CallingSheets, findingCalls, rootInSteps } from './calling-sheets';
import {
  placeAddress,
  readArea,
  areaAddress,
  sheetInFormula,
  splitSheet,
  type Place,
} from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import { NoPlainForm } from './arguments';
import { callsGill, displayedCalls, unknownCalls, unknownSentence } from '../functions/gill-calls';
import { cellSplices, type NewContent } from '../ooxml/cell-splices';
import { addLookupTables } from './lookup-part';
import { Package } from '../ooxml/package';
import { plainText, withoutAnchors } from './plain-text';
import { atOnce, partly, type Steps } from '../plan/in-steps';
import { readingSnapshot, snapshotOf } from '../ooxml/open-book';
import { BookCells } from '../plan/book-snapshot';
import { protectSheets } from '../ooxml/protect-sheets';
import { typedNumbers, typedOfBook } from './typed-places';
import type { Evaluate } from '../why/formula-words';
import { storedEvaluation } from '../why/stored-evaluation';
import { freeSheetName } from '../ooxml/added-sheets';
import { calculateOnOpening, removeAddInParts, removeCalculationOrder } from '../ooxml/spare-parts';
import { addSteps, Steps as FormulaSteps } from './steps';
import { sharedTexts, valueOf } from '../ooxml/stored-cell';
import { readingSheetCells, type SheetCell, type SheetCells } from '../ooxml/sheet-cells';
import { readWorkbookParts, type WorkbookParts } from '../ooxml/workbook-parts';
import { XmlEdits } from '../ooxml/follow/xml-edits';
import { otherFormulas } from './other-formulas';

/** What became of one formula. */
export interface Turned {
  readonly sheet: string;
  /** Address of the cell, or what else held the formula: "the name Feed_total". */
  readonly where: string;
  /** As it was, with the displayed names of the functions. */
  readonly was: string;
  readonly became: 'formula' | 'value' | 'left';
  /** The plain formula of the first cell. */
  readonly now?: string;
  /** Why it is only a value, or was left. */
  readonly why?: string;
}

export interface HandedOver {
  readonly bytes: Uint8Array;
  readonly turned: readonly Turned[];
  /** What else the reader should know of the file. */
  readonly notes: readonly string[];
}

interface SheetWork {
  readonly name: string;
  readonly part: string;
  readonly cells: SheetCells;
  readonly contents: Map<string, Place & { content: NewContent }>;
}

const areaOf = (cell: SheetCell): Area =>
  cell.area ?? { row: cell.row, column: cell.column, rows: 1, columns: 1 };

function eachCell(area: Area, visit: (place: Place) => void): void {
  for (let r = 0; r < area.rows; r++) {
    for (let c = 0; c < area.columns; c++) visit({ row: area.row + r, column: area.column + c });
  }
}

/** The text that a cell holds, found by a reference as it stands on a sheet. */
type CellTexts = (sheet: string, reference: string) => string | undefined;

function cellTexts(works: readonly SheetWork[], shared: readonly string[]): CellTexts {
  const found = new Map<string, string>();
  for (const work of works) {
    for (const cell of work.cells.rows.flatMap((row) => row.cells)) {
      const value = cell.type === 'e' ? undefined : valueOf(cell, shared);
      if (typeof value === 'string')
        found.set(`${sheetInFormula(work.name)}!${placeAddress(cell)}`, value);
    }
  }
  return (own, reference) => {
    const { sheet = own, address } = splitSheet(reference);
    const place = readArea(address);
    if (!place || place.rows * place.columns > 1) return undefined;
    return found.get(`${sheetInFormula(sheet)}!${placeAddress(place)}`);
  };
}

/** Turns one cell's formula, and for a spill all the cells it fills. */
function turnCell(
  work: SheetWork,
  cell: SheetCell,
  book: WorkbookParts,
  steps: FormulaSteps,
  texts: CellTexts,
  stored: Evaluate,
  valuesOnly: boolean,
): Turned {
  const formula = cell.formula ?? '';
  const area = areaOf(cell);
  const report = {
    sheet: work.name,
    where: placeAddress(cell),
    was: `=${displayedCalls(formula)}`,
  };
  const plain = new Map<string, Place & { content: NewContent }>();
  let why = 'values were asked for';
  const before = steps.list.length;
  if (!valuesOnly) {
    try {
      const unknown = unknownCalls(formula);
      if (unknown.length > 0) throw new NoPlainForm(unknownSentence(unknown));
      eachCell(area, (place) => {
        plain.set(placeAddress(place), {
          ...place,
          content: {
            kind: 'formula',
            text: plainText(formula, area, place, book, {
              sheet: work.name,
              steps,
              textAt: (reference) => texts(work.name, reference),
              valueOf: (text) => stored(text, { sheet: work.name, ...place }),
            }),
          },
        });
      });
      for (const [address, content] of plain) work.contents.set(address, content);
      const first = plain.get(placeAddress(cell))?.content;
      return {
        ...report,
        became: 'formula',
        now: `=${first?.kind === 'formula' ? first.text : ''}`,
      };
    } catch (problem) {
      if (!(problem instanceof NoPlainForm)) throw problem;
      why = problem.message;
      steps.list.length = before;
    }
  }
  if (cell.value === undefined) {
    return { ...report, became: 'left', why: `${why}, and the file holds no value for it` };
  }
  work.contents.set(placeAddress(cell), {
    row: cell.row,
    column: cell.column,
    content: { kind: 'value' },
  });
  return { ...report, became: 'value', why };
}

/** Formulas outside of cells (conditions, lists, names, columns of tables): text for text. */
function turnOthers(
  file: Package,
  book: WorkbookParts,
  frames: CallingSheets['frames'],
  turned: Turned[],
): void {
  const single: Area = { row: 0, column: 0, rows: 1, columns: 1 };
  const edits = new Map<string, XmlEdits>();
  for (const { part, sheet, label, element, attribute, text } of otherFormulas(
    file,
    book,
    frames,
  )) {
    const unknown = unknownCalls(text);
    if (unknown.length === 0 && !callsGill(text)) continue;
    const report = { sheet, where: label, was: `=${displayedCalls(text)}` };
    try {
      if (unknown.length > 0) throw new NoPlainForm(unknownSentence(unknown));
      const now = plainText(text, single, { row: 0, column: 0 }, book);
      turned.push({ ...report, became: 'formula', now: `=${now}` });
      const edit = edits.get(part) ?? new XmlEdits(file, part);
      edits.set(part, edit);
      if (attribute === undefined) edit.setText(element, now);
      else edit.set(element, attribute, now);
    } catch (problem) {
      if (!(problem instanceof NoPlainForm)) throw problem;
      turned.push({ ...report, became: 'left', why: problem.message });
    }
  }
  for (const edit of edits.values()) edit.write();
}

/** References like A1# to a spill that became single formulas, in all other formulas of the sheet. */
function replaceAnchors(work: SheetWork, areas: ReadonlyMap<string, Area>): void {
  const areaAt = (reference: string): string | undefined => {
    const { sheet = work.name, address } = splitSheet(reference);
    const block = readArea(address);
    const area = block && areas.get(`${sheetInFormula(sheet)}!${placeAddress(block)}`);
    return area && reference.slice(0, -address.length) + areaAddress(area);
  };
  for (const row of work.cells.rows) {
    for (const cell of row.cells) {
      const address = placeAddress(cell);
      const planned = work.contents.get(address);
      const before = planned?.content.kind === 'formula' ? planned.content.text : cell.formula;
      if (before === undefined || planned?.content.kind === 'value') continue;
      const text = withoutAnchors(before, areaAt);
      if (text !== before) {
        work.contents.set(address, {
          row: cell.row,
          column: cell.column,
          content: { kind: 'formula', text },
        });
      }
    }
  }
}

export interface HandOverOptions {
  /** What the cells show now, in place of formulas. */
  readonly values?: boolean;
  /** Hides the sheets that are added. */
  readonly folded?: boolean;
  /** Leaves open only what is typed: sheets are protected, without a password. */
  readonly typedOnly?: boolean;
}

/**
 * Makes a copy of a workbook that needs no Gillbed: every GILL call becomes its plain equivalent, or its
 * stored value where it has none (or where values are asked for). What holds no GILL call stays byte for
 * byte. Throws UnreadableFile with a sentence for files that cannot be worked on.
 */
export const handOver = (bytes: Uint8Array, options: HandOverOptions = {}): HandedOver =>
  atOnce(handingOver(bytes, options));

/** As `handOver`, in steps. */
export function* handingOver(bytes: Uint8Array, options: HandOverOptions = {}): Steps<HandedOver> {
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const turned: Turned[] = [];
  const areas = new Map<string, Area>();
  const steps = new FormulaSteps(freeSheetName(book, 'Steps'));
  const { calling, frames } = yield* partly(findingCalls(file, book), 0, 0.15);
  // Where one sheet calls, the others may read what it becomes, and it their texts.
  const works: SheetWork[] = [];
  for (const sheet of calling.length > 0 ? book.sheets : []) {
    const cells = yield* partly(readingSheetCells(file, sheet.part), 0.15, 0.15);
    works.push({ ...sheet, cells, contents: new Map() });
  }

  const snapshot =
    works.length > 0
      ? yield* partly(readingSnapshot(file, book), 0.15, 0.3)
      : { sheets: [], names: [] };
  const stored = storedEvaluation(new BookCells(snapshot));
  const texts = cellTexts(works, sharedTexts(file, book.part));
  for (const [n, work] of works.entries()) {
    yield 0.3 + (0.4 * n) / works.length;
    for (const row of work.cells.rows) {
      for (const cell of row.cells) {
        const { formula } = cell;
        if (formula === undefined) continue;
        if (!callsGill(formula) && unknownCalls(formula).length === 0) continue;
        const result = turnCell(work, cell, book, steps, texts, stored, options.values === true);
        yield 0.3 + (0.4 * (n + row.row / (work.cells.rows.length + row.row))) / works.length;
        turned.push(result);
        const area = areaOf(cell);
        if (result.became !== 'left' && area.rows * area.columns > 1) {
          areas.set(`${sheetInFormula(work.name)}!${placeAddress(cell)}`, area);
        }
      }
    }
  }

  const roots = new Map(frames);
  for (const work of works) {
    yield 0.7;
    replaceAnchors(work, areas);
    // A formula stored for several cells at once is written out where one of them changes.
    releaseShared(work);
    yield 0.7;
    file.edit(work.part, cellSplices(work.cells, work.contents));
    roots.set(work.part, yield* partly(rootInSteps(file, work.part), 0.7, 0.7));
  }
  turnOthers(file, readWorkbookParts(file), roots, turned);
  yield 0.8;

  const notes: string[] = [];
  const plainTexts = [
    ...turned.flatMap((turned) => turned.now ?? []),
    ...steps.list.map((step) => step.formula),
    ...works.flatMap((work) =>
      [...work.contents.values()].flatMap(({ content }) =>
        content.kind === 'formula' ? content.text : [],
      ),
    ),
  ];
  const folded = options.folded === true;
  notes.push(...addSteps(file, steps, folded), ...addLookupTables(file, plainTexts, folded));
  if (turned.length > 0) {
    removeCalculationOrder(file);
    calculateOnOpening(file, book.part);
  }
  removeAddInParts(file);
  if (options.typedOnly === true) notes.push(openTypedOnly(file));
  if (book.externalLinks > 0) {
    notes.push(
      'The workbook takes values from other files; on another computer those links will not be found.',
    );
  }
  return { bytes: yield* partly(file.packing(), 0.8, 1), turned, notes };
}

/** Protects every sheet but for what is typed; says what was done. */
function openTypedOnly(file: Package): string {
  const book = readWorkbookParts(file);
  const cells = new BookCells(snapshotOf(file, book));
  const typed = typedOfBook(cells) ?? typedNumbers(cells);
  const places = new Map<string, Place[]>();
  for (const { sheet, row, column } of typed.values())
    places.set(sheet, [...(places.get(sheet) ?? []), { row, column }]);
  protectSheets(file, book, places);
  return `Only the ${typed.size} cells that are typed into can be changed; the sheets are protected without a password.`;
}

/** Cells whose shared formula loses its first cell get the formula in full. */
function releaseShared(work: SheetWork): void {
  const touched = new Set<string>();
  for (const row of work.cells.rows) {
    for (const cell of row.cells) {
      const index = cell.element.children.find((c) => c.name === 'f')?.attributes['si'];
      if (cell.shared && index !== undefined && work.contents.has(placeAddress(cell)))
        touched.add(index);
    }
  }
  if (touched.size === 0) return;
  for (const row of work.cells.rows) {
    for (const cell of row.cells) {
      const index = cell.element.children.find((c) => c.name === 'f')?.attributes['si'];
      const address = placeAddress(cell);
      if (!cell.shared || index === undefined || !touched.has(index) || work.contents.has(address))
        continue;
      if (cell.formula === undefined) continue;
      work.contents.set(address, {
        row: cell.row,
        column: cell.column,
        content: { kind: 'formula', text: cell.formula },
      });
    }
  }
}
