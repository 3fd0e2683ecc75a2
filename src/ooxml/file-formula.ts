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

/** What of a workbook stands in formulas and is no plain range: names of one sheet alone, and tables. */
interface OtherNames {
  readonly local: readonly DefinedName[];
  /** In small letters. */
  readonly tables: ReadonlySet<string>;
  /** All of them in capitals. */
  readonly texts: readonly string[];
}

const otherNames = new WeakMap<WorkbookParts, OtherNames>();

function otherNamesOf(book: WorkbookParts): OtherNames {
  const known = otherNames.get(book);
  if (known) return known;
  // Names that say what is printed stand in no formula.
  const local = book.names.filter(
    (defined) => defined.sheet !== undefined && !/^_xlnm\./.test(defined.name),
  );
  const names = [...local, ...book.tables].map(({ name }) => name);
  const found = {
    local,
    tables: new Set(book.tables.map(({ name }) => name.toLowerCase())),
    texts: [...new Set(names.map((name) => name.toUpperCase()))],
  };
  otherNames.set(book, found);
  return found;
}

/** A quick look that spares most formulas being taken apart. */
function mayNameOther(formula: string, { texts }: OtherNames): boolean {
  if (formula.includes('[')) return true;
  const capitals = formula.toUpperCase();
  return texts.some((text) => capitals.includes(text));
}

/**
 * A formula of a file in which table references and names of its one sheet stand as plain ranges, for an engine
 * that knows neither. What cannot be followed stays as it is.
 */
export function withPlainRanges(
  formula: string,
  sheet: string,
  place: Place,
  book: WorkbookParts,
): string {
  const other = otherNamesOf(book);
  if (!mayNameOther(formula, other)) return formula;
  return tokenize(formula, { mergeRefs: true })
    .map(({ type, value }) => {
      if (type === 'range_named') {
        // The same name may stand for other cells on each sheet.
        const { sheet: of = sheet, address: called } = splitSheet(value);
        const named = other.local.find(
          ({ name, sheet: own = '' }) => isSame(own, of) && isSame(name, called),
        );
        if (named) return named.text;
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
