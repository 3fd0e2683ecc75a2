import { Model, type WorkbookData } from '@odoo/o-spreadsheet';
import { shownFormula } from '../../functions/stored-name';
import { displayedCalls } from '../../functions/gill-calls';
import {
  areaAddress,
  placeAddress,
  readArea,
  sheetInFormula,
  splitSheet,
} from '../../plan/addresses';
import { cellSplices, type NewContent } from '../../ooxml/cell-splices';
import { Package } from '../../ooxml/package';
import { readSheetCells, type SheetCell } from '../../ooxml/sheet-cells';
import { readWorkbookParts, type SheetPart, type WorkbookParts } from '../../ooxml/workbook-parts';
import { spliced } from '../../ooxml/read-xml';
import { escapeAttribute } from '../../ooxml/write-xml';
import { farmFromXml } from '../../ooxml/farm-xml';
import { engineFormula } from '../../engine/engine-formula';
import { exportedData } from '../../engine/patches/exported-data';
import type { Work } from './kept-work';
import { Losses } from './losses';
import { quietly } from '../../engine/quietly';

export interface OpenedFile {
  readonly work: Work;
  /** What of the file is not on the sheets, in sentences. */
  readonly losses: readonly string[];
}

/** Signs that the grid takes in no sheet name. */
const FORBIDDEN = /['*?/\\[\]]/g;

/** GILL calls and others as the grid reads them: displayed names, no prefixes of the file format. */
const gridFormula = (formula: string): string =>
  engineFormula(shownFormula(displayedCalls(formula)));

const quotedName = (name: string): string => `${sheetInFormula(name)}!`;

/** Sheet names that the grid cannot take, with the ones it gets instead. */
function renamed(book: WorkbookParts, losses: Losses): Map<string, string> {
  const taken = new Set(book.sheets.map(({ name }) => name.toLowerCase()));
  const out = new Map<string, string>();
  for (const { name } of book.sheets) {
    if (name.replace(FORBIDDEN, '') === name) continue;
    let free = name.replace(FORBIDDEN, '') || 'Sheet';
    for (let n = 2; taken.has(free.toLowerCase()); n++)
      free = `${name.replace(FORBIDDEN, '')} ${n}`;
    taken.add(free.toLowerCase());
    out.set(name, free);
    losses.add(`The sheet "${name}" is called "${free}" here: the grid takes no apostrophe`);
  }
  return out;
}

/** Formulas as the grid reads them; a spill keeps its first cell only, which fills the others again. */
function adaptedSheet(file: Package, sheet: SheetPart, names: ReadonlyMap<string, string>): string {
  const cells = readSheetCells(file, sheet.part);
  const contents = new Map<string, { row: number; column: number; content: NewContent }>();
  const inside = new Set<string>();
  const put = (cell: SheetCell, content: NewContent): void => {
    contents.set(placeAddress(cell), { row: cell.row, column: cell.column, content });
  };
  for (const cell of cells.rows.flatMap((row) => row.cells)) {
    if (cell.formula === undefined) continue;
    let text = gridFormula(cell.formula);
    for (const [name, free] of names) text = text.replaceAll(quotedName(name), quotedName(free));
    put(cell, { kind: 'formula', text });
    if (!cell.area) continue;
    for (let r = 0; r < cell.area.rows; r++) {
      for (let c = 0; c < cell.area.columns; c++) {
        if (r > 0 || c > 0) {
          inside.add(placeAddress({ row: cell.area.row + r, column: cell.area.column + c }));
        }
      }
    }
  }
  const emptied = cells.rows
    .flatMap((row) => row.cells)
    .filter((cell) => inside.has(placeAddress(cell)))
    .map(({ element }) => {
      const style = element.attributes['s'];
      const at = `r="${element.attributes['r'] ?? ''}"`;
      const text = `<${element.prefix}c ${at}${style === undefined ? '' : ` s="${style}"`}/>`;
      return { start: element.start, end: element.end, text };
    });
  return spliced(cells.xml, [...cellSplices(cells, contents), ...emptied]);
}

/** The ranges that the workbook's names stand for; names for anything else are said. */
function namedRanges(
  book: WorkbookParts,
  sheets: ReadonlyMap<string, string>,
  losses: Losses,
): Record<string, string> {
  const out: Record<string, string> = {};
  for (const { name, text } of book.names) {
    if (name.startsWith('_xlnm.')) continue;
    const { sheet, address } = splitSheet(text);
    const area = readArea(address);
    if (!area || sheet === undefined) {
      losses.add(`The name ${name} stands for no plain range and was left out`);
      continue;
    }
    const here = sheets.get(sheet) ?? sheet;
    out[name] = `'${here}'!${areaAddress(area)}`;
  }
  return out;
}

/** The grid library's warnings in words of ours; what has none is passed on. */
const warningWords: readonly (readonly [RegExp, string])[] = [
  [/^Font|^Border|[Bb]orders/, 'Fonts and some lines look different on the grid'],
  [/[Ww]hole number data validation/, 'Rules that ask for whole numbers are left out'],
  [/[Dd]ata validation/, 'Some rules for what may be typed are left out'],
  [/[Cc]onditional formats?/, 'Some conditional formats are left out'],
  [/[Pp]ivot/, 'Pivot tables are left out'],
];

const inWords = (warning: string): string =>
  warningWords.find(([pattern]) => pattern.test(warning))?.[1] ?? warning.trim().replace(/\.$/, '');

/** Reads through the grid library's own reader; what it warns of is a loss. */
function readByGrid(files: Record<string, string>, losses: Losses): WorkbookData {
  const { warn } = console;
  console.warn = (warning: unknown) => losses.add(inWords(String(warning)));
  try {
    // Read-only, so that it takes no snapshot of its own: that would use the export that fails on names.
    const config = { mode: 'readonly' as const };
    return quietly(() => exportedData(new Model(files as never, config, [], undefined, true)));
  } finally {
    console.warn = warn;
  }
}

function farmOf(file: Package): string | undefined {
  for (const name of file.names) {
    if (!/^customXml\/item\d+\.xml$/.test(name)) continue;
    const farm = farmFromXml(file.readableText(name) ?? '');
    if (farm !== undefined) return farm;
  }
  return undefined;
}

/** An .xlsx file as work for the grid. Throws a sentence where it cannot be read. */
export function xlsxWork(bytes: Uint8Array): OpenedFile {
  const losses = new Losses();
  const file = Package.open(bytes);
  const book = readWorkbookParts(file);
  const names = renamed(book, losses);
  for (const sheet of book.sheets) file.replace(sheet.part, adaptedSheet(file, sheet, names));
  if (names.size > 0) {
    let xml = file.text(book.part);
    for (const [name, free] of names) {
      const old = escapeAttribute(name).replaceAll("'", '&apos;');
      xml = xml
        .replaceAll(`name="${old}"`, `name="${escapeAttribute(free)}"`)
        .replaceAll(`name="${escapeAttribute(name)}"`, `name="${escapeAttribute(free)}"`);
    }
    file.replace(book.part, xml);
  }
  const files: Record<string, string> = {};
  for (const name of file.names) {
    if (!/\.(xml|rels)$/.test(name) || name.startsWith('customXml/')) continue;
    const text = file.readableText(name);
    if (text !== undefined) files[name] = text;
  }
  if (book.externalLinks > 0) losses.add('Links to other files are kept as the values they had');
  if (file.names.some((name) => name.includes('vbaProject'))) {
    losses.add('Macros are left out');
  }
  const data = readByGrid(files, losses);
  const farm = farmOf(file);
  return {
    work: {
      data: { ...data, namedRanges: namedRanges(book, names, losses) },
      ...(farm !== undefined && { farm }),
    },
    losses: losses.sentences(),
  };
}
