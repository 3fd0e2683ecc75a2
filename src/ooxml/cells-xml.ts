import { GillError } from '../core/errors';
import { storedCalls, storedFormula } from '../functions/stored-name';
import { areaAddress, cellAddress, covers } from '../plan/addresses';
import { looks } from '../plan/looks';
import type { Area, CellModel, SheetModel } from '../plan/workbook-model';
import { areasByRow, type Content, type Contents, spillsOf } from './cell-contents';
import type { Steps } from '../plan/in-steps';
import { wrappedHeight } from '../plan/row-height';
import type { StyleBook } from './styles-xml';
import { cellText, element, runText, textElement } from './write-xml';

/** How the sheets of a file keep texts and mark formulas that fill several cells. */
export interface CellKeeping {
  /** Texts that cells share; without them each text stands in its own cell. */
  readonly texts?: SharedTexts | undefined;
  /** The number by which a cell says that it is a dynamic array, where the file has one. */
  readonly mark: string | undefined;
}

/** Texts that cells share, in the order in which they come. */
export class SharedTexts {
  private readonly places = new Map<string, number>();
  uses = 0;

  place(text: string): number {
    this.uses += 1;
    const known = this.places.get(text);
    if (known !== undefined) return known;
    this.places.set(text, this.places.size);
    return this.places.size - 1;
  }

  get all(): readonly string[] {
    return [...this.places.keys()];
  }
}

/** Errors that the file format has a value for; younger ones are left for the spreadsheet to find. */
const FILE_ERRORS = ['#VALUE!', '#N/A', '#NUM!', '#DIV/0!', '#REF!', '#NAME?', '#NULL!'];

/** Text that a spreadsheet would take for something else when a person edits the cell. */
const CONVERTED_WHEN_EDITED = /^['=+\-@]/;

interface StoredValue {
  readonly type?: string;
  readonly xml: string;
}

/** The value that a formula had when the file was made. */
function computedValue(content: Content): StoredValue {
  if (content instanceof GillError) {
    return FILE_ERRORS.includes(content.code)
      ? { type: 'e', xml: textElement('v', content.code) }
      : { xml: '' };
  }
  if (typeof content === 'string') return { type: 'str', xml: textElement('v', cellText(content)) };
  if (typeof content === 'boolean')
    return { type: 'b', xml: textElement('v', content ? '1' : '0') };
  return content === undefined ? { xml: '' } : { xml: textElement('v', String(content)) };
}

function typedValue(content: Content, texts: SharedTexts | undefined): StoredValue {
  if (typeof content === 'string') {
    return texts
      ? { type: 's', xml: textElement('v', String(texts.place(content))) }
      : { type: 'inlineStr', xml: element('is', {}, runText(content)) };
  }
  return computedValue(content);
}

function formulaElement(
  cell: CellModel,
  row: number,
  column: number,
  mark: string | undefined,
): { xml: string; cm?: string | undefined } {
  const formula = cell.formula ?? '';
  const stored = storedFormula(formula);
  if (storedCalls(formula).length === 0) return { xml: textElement('f', stored) };
  // Excel itself stores every call of a custom function as a dynamic array, single values included:
  // without it an "@" comes in front of the function.
  const ref = areaAddress({ row, column, rows: 1, columns: 1, ...cell.spill });
  return { xml: textElement('f', stored, { t: 'array', ref }), cm: mark };
}

export interface WrittenCells {
  readonly xml: string;
  readonly used: Area;
}

/** So many rows are written in one step. */
const ROWS = 100;

/** The rows of a sheet, in steps. */
export function* writingCells(
  sheet: SheetModel,
  contents: Contents,
  styles: StyleBook,
  { texts, mark }: CellKeeping,
): Steps<WrittenCells> {
  const spills = spillsOf(sheet);
  const blocks = [...spills, ...sheet.merges];
  const mergesIn = areasByRow(sheet.merges);
  const spillsIn = areasByRow(spills);
  let height = Math.max(sheet.rows.length, 1);
  // One by one: a sheet may have more rows than a function takes arguments.
  let width = 1;
  for (const row of sheet.rows) width = Math.max(width, row.length);
  for (const area of blocks) {
    height = Math.max(height, area.row + area.rows);
    width = Math.max(width, area.column + area.columns);
  }

  const cellXml = (row: number, column: number): string => {
    const merge = mergesIn.get(row)?.find((area) => covers(area, row, column));
    const own = sheet.rows[row]?.[column];
    const cell = own ?? (merge && sheet.rows[merge.row]?.[merge.column]);
    const spilled = spillsIn.get(row)?.find((area) => covers(area, row, column));
    if (!cell && !spilled) return '';
    const model = cell ?? sheet.rows[spilled?.row ?? row]?.[spilled?.column ?? column];
    if (!model) return '';
    const content = own || spilled ? contents(sheet.name, row, column) : undefined;
    const s = styles.cell({
      look: model.look,
      format: model.format ?? 'general',
      isText: typeof content === 'string',
      wrap: looks[model.look].wrap === true || merge !== undefined,
      keepText:
        own?.formula === undefined &&
        typeof content === 'string' &&
        CONVERTED_WHEN_EDITED.test(content),
    });
    const r = cellAddress(row, column);
    if (own?.formula !== undefined) {
      const formula = formulaElement(own, row, column, mark);
      const value = computedValue(content);
      return element('c', { r, s, t: value.type, cm: formula.cm }, formula.xml + value.xml);
    }
    const value = spilled ? computedValue(content) : typedValue(content, texts);
    return element('c', { r, s, t: value.type }, value.xml);
  };

  const rows: string[] = [];
  for (let row = 0; row < height; row++) {
    if (row % ROWS === 0) yield row / height;
    const cells: string[] = [];
    for (let column = 0; column < width; column++) cells.push(cellXml(row, column));
    const xml = cells.join('');
    if (xml === '') continue;
    const ht = wrappedHeight(sheet, row, contents);
    rows.push(element('row', { r: row + 1, ht, customHeight: ht && 1 }, xml));
  }
  return {
    xml: rows.length === 0 ? '<sheetData/>' : element('sheetData', {}, rows),
    used: { row: 0, column: 0, rows: height, columns: width },
  };
}
