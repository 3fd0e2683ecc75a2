import { isoText } from '../core/serial-date';
import { unitWord } from '../functions/unit-word';
import { isUnitText } from '../check/headings';
import type { BookCells, CellPlace, SnapshotValue } from '../plan/book-snapshot';
import { isErrorValue, keyOf, namedColumn, tracedCell } from './traced-cells';

/** What a sheet says about a cell: the words of its row and column, its unit, how its figure is shown. */

export interface CellWords {
  /** "Feed given", "Tank 1: Mean weight"; empty where the sheet says nothing. */
  readonly label: string;
  readonly unit: string;
  /** What stands behind the figure, such as where it comes from. */
  readonly remark: string;
}

const LONGEST_UNIT = 24;
/** How far above its column a head may stand over cells that have no name. */
const MAX_ROWS_UP = 400;
const textAt = (place: CellPlace, cells: BookCells): string => {
  const { value } = cells.at(place);
  return typeof value === 'string' && !isErrorValue(value) ? value.trim() : '';
};

/** A row of words alone, at least two side by side, none of which has a name: the heads of columns. */
function isHeadRow(sheet: string, row: number, cells: BookCells): boolean {
  let words = 0;
  let last = -1;
  for (let column = 0; column < cells.width(sheet); column++) {
    const { value, formula } = cells.at({ sheet, row, column });
    if (value === '' && formula === undefined) continue;
    if (typeof value !== 'string' || formula !== undefined || isErrorValue(value)) return false;
    if (last >= 0 && column > last + 1) return false;
    if (cells.nameOf({ sheet, row, column }) !== undefined) return false;
    last = column;
    words += 1;
  }
  return words >= 2;
}

function headAbove(place: CellPlace, cells: BookCells): string {
  const { sheet, column } = place;
  const block = namedColumn(place, cells);
  const from = block ? block.area.row - 1 : place.row - 1;
  for (let row = from; row >= Math.max(0, from - MAX_ROWS_UP); row--) {
    const text = textAt({ sheet, row, column }, cells);
    if (block ? text !== '' && from - row < 2 : text !== '' && isHeadRow(sheet, row, cells)) {
      // Below the heads of a table of figures there may be a line of units, which names no row.
      const above = block && row > 0 ? textAt({ sheet, row: row - 1, column }, cells) : '';
      const isUnits = above !== '' && textAt({ sheet, row, column: 0 }, cells) === '';
      return isUnits ? `${above}, ${text}` : text;
    }
  }
  return '';
}

/** The nearest words to the left, or the first of the row. */
function wordsLeft(place: CellPlace, cells: BookCells, which: 'nearest' | 'first'): string {
  const { sheet, row } = place;
  let found = '';
  for (let column = place.column - 1; column >= 0; column--) {
    const text = textAt({ sheet, row, column }, cells);
    if (text === '' || (which === 'nearest' && isUnitText(text))) continue;
    found = text;
    if (which === 'nearest') break;
  }
  return found;
}

/** Rows by whether only one of their cells holds anything; cells of a snapshot stay. */
const loneRows = new WeakMap<BookCells, Map<string, boolean>>();

function hasOneCell(sheet: string, row: number, cells: BookCells): boolean {
  const ofBook = loneRows.get(cells) ?? new Map<string, boolean>();
  loneRows.set(cells, ofBook);
  const key = `${sheet}!${row}`;
  const known = ofBook.get(key);
  if (known !== undefined) return known;
  let filled = 0;
  for (let column = 0; filled < 2 && column < cells.width(sheet); column++)
    if (cells.at({ sheet, row, column }).value !== '') filled += 1;
  ofBook.set(key, filled === 1);
  return filled === 1;
}

/** The nearest heading above: words that stand alone in their row; or else the nearest words at all. */
function wordsAbove({ sheet, row, column }: CellPlace, cells: BookCells): string {
  let nearest = '';
  for (let r = row - 1; r >= 0; r--) {
    for (const c of [column, 0, 1]) {
      const text = textAt({ sheet, row: r, column: c }, cells);
      if (text === '' || text.length > 70) continue;
      if (nearest === '') nearest = text;
      if (hasOneCell(sheet, r, cells)) return text;
    }
  }
  return nearest;
}

const splitUnit = (head: string): [label: string, unit: string] => {
  const found = /^(.*?)(?:,\s*([^,]{1,24})|\s*[([]([^)\]]{1,24})[)\]])$/.exec(head);
  const unit = found?.[2] ?? found?.[3] ?? '';
  return found && (isUnitText(unit) || /[/%²³°]|^(?:m|cm|mm|kg|g|L|W|h|days?|weeks?)$/.test(unit))
    ? [found[1] ?? head, unit]
    : [head, ''];
};

const clipped = (text: string): string => (text.length > 70 ? `${text.slice(0, 67)}...` : text);

/** What was found, by cell: a chain asks about the same ones again and again, and cells of a snapshot stay. */
const found = new WeakMap<BookCells, Map<string, CellWords>>();

export function cellWords(place: CellPlace, cells: BookCells): CellWords {
  const ofBook = found.get(cells) ?? new Map<string, CellWords>();
  found.set(cells, ofBook);
  const key = keyOf(place);
  const words = ofBook.get(key) ?? freshWords(place, cells);
  ofBook.set(key, words);
  return words;
}

function freshWords(place: CellPlace, cells: BookCells): CellWords {
  // A figure with a name of its own has its words beside it, unless it stands further inside a table.
  const isBeside = textAt({ ...place, column: place.column - 1 }, cells) !== '';
  const head = cells.nameOf(place) === undefined || !isBeside ? headAbove(place, cells) : '';
  if (head !== '') {
    const [label, unit] = splitUnit(head);
    const row = wordsLeft(place, cells, 'first');
    return {
      label: clipped(row === '' || row === label ? label : `${row}: ${label}`),
      unit,
      remark: '',
    };
  }
  const label =
    wordsLeft(place, cells, 'nearest') || wordsAbove(place, cells) || `on the sheet ${place.sheet}`;
  const beside = { ...place, column: place.column + 1 };
  const right = textAt(beside, cells);
  const isShort = right !== '' && right.length <= LONGEST_UNIT && !/[.:]$/.test(right);
  // A short word that a formula gives is a verdict, no unit.
  const hasUnit = isShort && cells.at(beside).formula === undefined;
  let remark = isShort ? '' : right;
  for (let c = place.column + 2; remark === '' && c <= place.column + 3; c++) {
    remark = textAt({ ...place, column: c }, cells);
  }
  return { label: clipped(label), unit: label !== '' && hasUnit ? right : '', remark };
}

const isDay = (format: string | undefined): boolean =>
  format !== undefined && /[ymd]/i.test(format.replace(/"[^"]*"|\[[^\]]*\]|\\./g, ''));

/** Whether a cell shows a day. */
export const showsDay = (place: CellPlace, cells: BookCells): boolean =>
  isDay(cells.formatAt(place));

const spelling = (options: Intl.NumberFormatOptions): Intl.NumberFormat =>
  new Intl.NumberFormat('en-GB', options);

/** Four figures at the most. */
const fourFigures = spelling({ maximumSignificantDigits: 4 });
/** By the decimals of a format: to make one takes longer than to use it. */
const withDecimals = new Map<number, Intl.NumberFormat>();

function toDecimals(number: number, decimals: number): string {
  let format = withDecimals.get(decimals);
  if (!format) {
    format = spelling({ minimumFractionDigits: decimals, maximumFractionDigits: decimals });
    withDecimals.set(decimals, format);
  }
  return format.format(number);
}

function figureText(value: number, format: string | undefined): string {
  const bare = format?.replace(/"[^"]*"|\[[^\]]*\]|\\./g, '') ?? '';
  const percent = bare.includes('%');
  const number = percent ? value * 100 : value;
  const decimals = /\.(0+)/.exec(bare)?.[1]?.length ?? 0;
  // As the cell shows it, unless nothing would be left of a small figure.
  const shown =
    /0/.test(bare) && Math.abs(number) >= 10 ** -decimals
      ? toDecimals(number, decimals)
      : fourFigures.format(number);
  return percent ? `${shown} %` : shown;
}

/** A value as a person reads it, in the format of the cell that holds it. */
export function shownValue(
  value: SnapshotValue | undefined,
  format: string | undefined,
  unit = '',
): string {
  if (value === undefined || value === '') return 'blank';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return isErrorValue(value) ? value : `"${value}"`;
  if (isDay(format)) return value >= 1 ? isoText(Math.floor(value)) : String(value);
  if (unit === 'share') return `${fourFigures.format(value * 100)} %`;
  const figure = figureText(value, format);
  return ['', 'pH', 'money'].includes(unit) || figure.endsWith('%')
    ? figure
    : `${figure} ${unitWord(unit)}`;
}

export function shownCell(place: CellPlace, cells: BookCells): string {
  const { value } = tracedCell(place, cells);
  return shownValue(value, cells.formatAt(place), cellWords(place, cells).unit);
}
