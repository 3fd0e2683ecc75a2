import { parseStructRef, tokenize } from '@borgar/fx';
import { columnLetters, fullAddress, type Place, splitSheet } from '../plan/addresses';
import type { Area } from '../plan/workbook-model';
import type { DefinedName, TablePart, WorkbookParts } from './workbook-parts';

const isSame = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** The cells that a table reference means from a cell; undefined where it cannot be followed. */
export function tableArea(
  text: string,
  sheet: string,
  place: Place,
  tables: readonly TablePart[],
): { sheet: string; area: Area } | undefined {
  const ref = parseStructRef(text);
  if (!ref) return undefined;
  const inTable = (table: TablePart): boolean =>
    table.sheet === sheet &&
    place.row >= table.area.row &&
    place.row < table.area.row + table.area.rows &&
    place.column >= table.area.column &&
    place.column < table.area.column + table.area.columns;
  const wanted = ref.table?.toLowerCase() ?? '';
  const table = tables.find((candidate) =>
    wanted === '' ? inTable(candidate) : candidate.name.toLowerCase() === wanted,
  );
  if (!table) return undefined;
  const columns = (ref.columns ?? []).map((name) =>
    table.columns.findIndex((column) => column.toLowerCase() === name.toLowerCase()),
  );
  if (columns.includes(-1)) return undefined;
  const first = Math.min(...columns, ...(columns.length === 0 ? [0] : []));
  const last = Math.max(...columns, ...(columns.length === 0 ? [table.columns.length - 1] : []));
  const top = table.area.row;
  const bottom = top + table.area.rows;
  const spans = { from: top + table.headRows, to: bottom - table.totalRows };
  for (const section of ref.sections ?? []) {
    const name = section.toLowerCase();
    if (name === 'headers')
      Object.assign(spans, {
        from: top,
        ...(ref.sections?.length === 1 && { to: top + table.headRows }),
      });
    else if (name === 'totals')
      Object.assign(spans, {
        to: bottom,
        ...(ref.sections?.length === 1 && { from: bottom - table.totalRows }),
      });
    else if (name === 'all') Object.assign(spans, { from: top, to: bottom });
    else if (name === 'this row') Object.assign(spans, { from: place.row, to: place.row + 1 });
  }
  if (spans.to <= spans.from) return undefined;
  return {
    sheet: table.sheet,
    area: {
      row: spans.from,
      column: table.area.column + first,
      rows: spans.to - spans.from,
      columns: last - first + 1,
    },
  };
}

const written = (here: string, sheet: string, area: Area): string => {
  if (here !== sheet) return fullAddress(sheet, area);
  const at = (row: number, column: number): string => `$${columnLetters(column)}$${row + 1}`;
  const from = at(area.row, area.column);
  const to = at(area.row + area.rows - 1, area.column + area.columns - 1);
  return from === to ? from : `${from}:${to}`;
};

/** What of a workbook stands in formulas and is no plain range. */
interface OtherNames {
  /** Names of one sheet alone, and those for all sheets that the engine does not know. */
  readonly names: readonly DefinedName[];
  /** In small letters. */
  readonly tables: ReadonlySet<string>;
  /** All of them in small letters. */
  readonly all: ReadonlySet<string>;
}

/** Names for all sheets that an engine knows by itself, in small letters. */
export interface KnownNames {
  has(name: string): boolean;
}

/** An engine that knows every name. */
const EVERY: KnownNames = { has: () => true };

const otherNames = new WeakMap<WorkbookParts, Map<KnownNames, OtherNames>>();

function otherNamesOf(book: WorkbookParts, known: KnownNames): OtherNames {
  let ofBook = otherNames.get(book);
  if (!ofBook) otherNames.set(book, (ofBook = new Map()));
  let found = ofBook.get(known);
  if (!found) {
    // Names that say what is printed stand in no formula.
    const names = book.names.filter(
      ({ name, sheet }) =>
        !/^_xlnm\./.test(name) && (sheet !== undefined || !known.has(name.toLowerCase())),
    );
    const tables = new Set(book.tables.map(({ name }) => name.toLowerCase()));
    const all = new Set([...names.map(({ name }) => name.toLowerCase()), ...tables]);
    ofBook.set(known, (found = { names, tables, all }));
  }
  return found;
}

const WORD = /[\p{L}\p{M}_\\][\p{L}\p{M}\p{N}_.\\?]*/gu;

/** A quick look that spares most formulas being taken apart. */
function mayNameOther(formula: string, { all }: OtherNames): boolean {
  if (formula.includes('[')) return true;
  if (all.size === 0) return false;
  return formula.match(WORD)?.some((word) => all.has(word.toLowerCase())) === true;
}

const isFixed = (reference: string): boolean =>
  splitSheet(reference)
    .address.split(':')
    .every((end) => /^\$[A-Z]+(?:\$\d+)?$|^\$\d+$/i.test(end));

/** Names may stand for formulas with further names in them. */
const DEEPEST = 8;

/** What a name stands for, as it can stand in place of the name; undefined where it means other cells elsewhere. */
function meaning(
  { text, sheet }: DefinedName,
  here: string,
  other: OtherNames,
  depth: number,
): string | undefined {
  const tokens = tokenize(text.replace(/^=/, ''), { mergeRefs: true });
  if (tokens.length === 0 || depth > DEEPEST) return undefined;
  const pieces = tokens.map(({ type, value }) => {
    if (type === 'range_named') {
      const named = nameFor(value, sheet ?? here, other);
      return named ? meaning(named, here, other, depth + 1) : value;
    }
    // What moves along with the cell that calls it.
    const isMoving = /^range/.test(type) && !isFixed(value);
    return isMoving || /^(?:structured|unknown|error)$/.test(type) ? undefined : value;
  });
  if (pieces.includes(undefined)) return undefined;
  return tokens.length === 1 ? pieces.join('') : `(${pieces.join('')})`;
}

/** The same name may stand for other cells on each sheet. */
function nameFor(called: string, here: string, { names }: OtherNames): DefinedName | undefined {
  const { sheet, address } = splitSheet(called);
  const all = names.filter(({ name }) => isSame(name, address));
  return (
    all.find((defined) => defined.sheet !== undefined && isSame(defined.sheet, sheet ?? here)) ??
    all.find((defined) => defined.sheet === undefined)
  );
}

/**
 * A formula of a file in which table references, names of its one sheet and names that the engine does not know
 * stand as what they mean. What cannot be followed stays as it is.
 */
export function withPlainRanges(
  formula: string,
  sheet: string,
  place: Place,
  book: WorkbookParts,
  known: KnownNames = EVERY,
): string {
  const other = otherNamesOf(book, known);
  if (!mayNameOther(formula, other)) return formula;
  return tokenize(formula, { mergeRefs: true })
    .map(({ type, value }) => {
      if (type === 'range_named') {
        const named = nameFor(value, sheet, other);
        if (named) return meaning(named, sheet, other, 0) ?? value;
        if (!other.tables.has(value.toLowerCase())) return value;
        const all = tableArea(`${value}[]`, sheet, place, book.tables);
        return all ? written(sheet, all.sheet, all.area) : value;
      }
      if (type !== 'structured') return value;
      const found = tableArea(value, sheet, place, book.tables);
      return found ? written(sheet, found.sheet, found.area) : value;
    })
    .join('');
}
