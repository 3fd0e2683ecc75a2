import { mathjsConverter } from '../functions/unit-converter';
import { useUnitConverter } from '../functions/units';
import {
  addressOf,
  blockOf,
  referenceOf,
  sheetInFormula,
  type Block,
  type Place,
} from '../ooxml/addresses';
import { NoPlainForm } from './arguments';
import { mayCallGill, rewriteCalls } from '../functions/gill-calls';
import { cellSplices, type NewContent } from '../ooxml/cell-splices';
import { addLookupTables } from './lookup-part';
import { closePackage, openPackage, readPart, writePart, type Parts } from '../ooxml/package';
import { plainText, withoutAnchors } from './plain-text';
import { freeSheetName } from '../ooxml/added-sheets';
import { calculateOnOpening, removeAddInParts, removeCalculationOrder } from '../ooxml/spare-parts';
import { addSteps, Steps } from './steps';
import { sharedTexts, valueOf } from '../ooxml/stored-values';
import { readSheetCells, type SheetCell, type SheetCells } from '../ooxml/sheet-cells';
import { readWorkbookParts, type WorkbookParts } from '../ooxml/workbook-parts';
import { descendants, escapeXml, readXml, spliced, type Splice } from '../ooxml/read-xml';

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

/** GILL calls as a person reads them. */
const displayed = (formula: string): string =>
  rewriteCalls(formula, (call) => `GILL.${call.card.id}(${call.args.join(',')})`);

const callsGill = (formula: string): boolean => {
  if (!mayCallGill(formula)) return false;
  let found = false;
  rewriteCalls(formula, (call) => {
    found = true;
    return call.written;
  });
  return found;
};

interface SheetWork {
  readonly name: string;
  readonly part: string;
  readonly cells: SheetCells;
  readonly contents: Map<string, Place & { content: NewContent }>;
}

const areaOf = (cell: SheetCell): Block =>
  cell.area ?? { row: cell.row, column: cell.column, rows: 1, columns: 1 };

function eachCell(area: Block, visit: (place: Place) => void): void {
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
        found.set(`${sheetInFormula(work.name)}!${addressOf(cell)}`, value);
    }
  }
  return (sheet, reference) => {
    const cut = reference.lastIndexOf('!');
    const place = blockOf(reference.slice(cut + 1));
    if (!place || place.rows * place.columns > 1) return undefined;
    const name =
      cut < 0 ? sheet : reference.slice(0, cut).replace(/^'|'$/g, '').replaceAll("''", "'");
    return found.get(`${sheetInFormula(name)}!${addressOf(place)}`);
  };
}

/** Turns one cell's formula, and for a spill all the cells it fills. */
function turnCell(
  work: SheetWork,
  cell: SheetCell,
  book: WorkbookParts,
  steps: Steps,
  texts: CellTexts,
  valuesOnly: boolean,
): Turned {
  const formula = cell.formula ?? '';
  const area = areaOf(cell);
  const report = { sheet: work.name, where: addressOf(cell), was: `=${displayed(formula)}` };
  const plain = new Map<string, Place & { content: NewContent }>();
  let why = 'values were asked for';
  const before = steps.list.length;
  if (!valuesOnly) {
    try {
      eachCell(area, (place) => {
        plain.set(addressOf(place), {
          ...place,
          content: {
            kind: 'formula',
            text: plainText(formula, area, place, book, {
              sheet: work.name,
              steps,
              textAt: (reference) => texts(work.name, reference),
            }),
          },
        });
      });
      for (const [address, content] of plain) work.contents.set(address, content);
      const first = plain.get(addressOf(cell))?.content;
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
  work.contents.set(addressOf(cell), {
    row: cell.row,
    column: cell.column,
    content: { kind: 'value' },
  });
  return { ...report, became: 'value', why };
}

/** Formulas outside of cells (conditions, lists, names, table columns): text for text. */
function turnTexts(
  xml: string,
  elements: readonly { element: { openEnd: number; end: number; text: string }; label: string }[],
  sheet: string,
  book: WorkbookParts,
  turned: Turned[],
): Splice[] {
  const single: Block = { row: 0, column: 0, rows: 1, columns: 1 };
  return elements.flatMap(({ element, label }) => {
    if (!callsGill(element.text)) return [];
    const report = { sheet, where: label, was: `=${displayed(element.text)}` };
    try {
      const now = plainText(element.text, single, { row: 0, column: 0 }, book);
      turned.push({ ...report, became: 'formula', now: `=${now}` });
      const end = xml.lastIndexOf('</', element.end - 1);
      return [{ start: element.openEnd, end, text: escapeXml(now) }];
    } catch (problem) {
      if (!(problem instanceof NoPlainForm)) throw problem;
      turned.push({ ...report, became: 'left', why: problem.message });
      return [];
    }
  });
}

/** Formulas of a sheet that stand outside its cells. */
const otherFormulas = (work: SheetWork) => [
  ...descendants(work.cells.root, 'cfRule').flatMap((rule) =>
    rule.children
      .filter((child) => child.name === 'formula')
      .map((element) => ({ element, label: 'a conditional format' })),
  ),
  ...descendants(work.cells.root, 'dataValidation').flatMap((rule) =>
    rule.children
      .filter((child) => /^formula[12]$/.test(child.name))
      .map((element) => ({ element, label: 'a validation rule' })),
  ),
];

/** References like A1# to a spill that became single formulas, in all other formulas of the sheet. */
function replaceAnchors(work: SheetWork, areas: ReadonlyMap<string, Block>): void {
  const areaAt = (reference: string): string | undefined => {
    const cut = reference.lastIndexOf('!') + 1;
    const sheet = cut > 0 ? reference.slice(0, cut - 1) : sheetInFormula(work.name);
    const block = blockOf(reference.slice(cut));
    const area = block && areas.get(`${sheet}!${addressOf(block)}`);
    return area && reference.slice(0, cut) + referenceOf(area);
  };
  for (const row of work.cells.rows) {
    for (const cell of row.cells) {
      const address = addressOf(cell);
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

function writeTables(parts: Parts, book: WorkbookParts, turned: Turned[]): void {
  for (const table of book.tables) {
    const xml = readPart(parts, table.part);
    if (!mayCallGill(xml)) continue;
    const elements = descendants(readXml(xml, table.part), 'calculatedColumnFormula').map(
      (element) => ({
        element,
        label: `the column formula of the table ${table.name}`,
      }),
    );
    const splices = turnTexts(xml, elements, table.sheet, book, turned);
    if (splices.length > 0) writePart(parts, table.part, spliced(xml, splices));
  }
}

/**
 * Makes a copy of a workbook that needs no Gillbed: every GILL call becomes its plain equivalent, or its
 * stored value where it has none (or where values are asked for). What holds no GILL call stays byte for
 * byte. Throws UnreadableFile with a sentence for files that cannot be worked on.
 */
export function handOver(bytes: Uint8Array, options: { values?: boolean } = {}): HandedOver {
  useUnitConverter(mathjsConverter);
  const parts = openPackage(bytes);
  const book = readWorkbookParts(parts);
  const turned: Turned[] = [];
  const areas = new Map<string, Block>();
  const steps = new Steps(freeSheetName(book, 'Steps'));
  const works = book.sheets.map((sheet): SheetWork => ({
    ...sheet,
    cells: readSheetCells(readPart(parts, sheet.part), sheet.part),
    contents: new Map(),
  }));

  const texts = cellTexts(works, sharedTexts(parts, book.part));
  for (const work of works) {
    for (const row of work.cells.rows) {
      for (const cell of row.cells) {
        if (cell.formula === undefined || !callsGill(cell.formula)) continue;
        const result = turnCell(work, cell, book, steps, texts, options.values === true);
        turned.push(result);
        const area = areaOf(cell);
        if (result.became !== 'left' && area.rows * area.columns > 1) {
          areas.set(`${sheetInFormula(work.name)}!${addressOf(cell)}`, area);
        }
      }
    }
  }

  for (const work of works) {
    replaceAnchors(work, areas);
    const others = turnTexts(work.cells.xml, otherFormulas(work), work.name, book, turned);
    // A formula stored for several cells at once is written out where one of them changes.
    releaseShared(work);
    const splices = [...cellSplices(work.cells, work.contents), ...others];
    if (splices.length > 0) writePart(parts, work.part, spliced(work.cells.xml, splices));
  }
  writeTables(parts, book, turned);
  const names = book.names.map(({ name, element }) => ({ element, label: `the name ${name}` }));
  const nameSplices = turnTexts(book.xml, names, '', book, turned);
  if (nameSplices.length > 0) writePart(parts, book.part, spliced(book.xml, nameSplices));

  const notes: string[] = [];
  const plainTexts = [
    ...turned.flatMap((one) => one.now ?? []),
    ...steps.list.map((one) => one.formula),
    ...works.flatMap((work) =>
      [...work.contents.values()].flatMap(({ content }) =>
        content.kind === 'formula' ? content.text : [],
      ),
    ),
  ];
  notes.push(...addSteps(parts, steps), ...addLookupTables(parts, plainTexts));
  if (turned.length > 0) {
    removeCalculationOrder(parts);
    calculateOnOpening(parts, book.part);
  }
  removeAddInParts(parts);
  if (book.externalLinks > 0) {
    notes.push(
      'The workbook takes values from other files; on another computer those links will not be found.',
    );
  }
  return { bytes: closePackage(parts), turned, notes };
}

/** Cells whose shared formula loses its first cell get the formula in full. */
function releaseShared(work: SheetWork): void {
  const touched = new Set<string>();
  for (const row of work.cells.rows) {
    for (const cell of row.cells) {
      const index = cell.element.children.find((c) => c.name === 'f')?.attributes['si'];
      if (cell.shared && index !== undefined && work.contents.has(addressOf(cell)))
        touched.add(index);
    }
  }
  if (touched.size === 0) return;
  for (const row of work.cells.rows) {
    for (const cell of row.cells) {
      const index = cell.element.children.find((c) => c.name === 'f')?.attributes['si'];
      const address = addressOf(cell);
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
