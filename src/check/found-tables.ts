import { readNumberText, type UnitId } from '../functions/units';
import { isUnitText, readHeading, type Role } from './headings';
import { addressIn, type OpenSheet, type SheetValue } from './open-sheet';

interface Column {
  readonly index: number;
  readonly head: string;
  readonly unit?: UnitId;
  readonly written?: string;
}

/** A line of a table found on a sheet, read by what its columns hold. */
export interface TableLine {
  /** The cell as shown; undefined where the column is missing or the cell blank. */
  readonly cell: (role: Role) => SheetValue | undefined;
  /** The cell as a number in the unit that the checks use; undefined where it is none. */
  readonly number: (role: Role) => number | undefined;
  readonly text: (role: Role) => string | undefined;
  readonly address: (role: Role) => string;
  /** How the line is called in a sentence: "tank Nursery", "line 12". */
  readonly called: string;
}

export interface FoundTable {
  readonly sheet: string;
  readonly roles: ReadonlySet<Role>;
  readonly lines: readonly TableLine[];
  /** The unit that stands over a column, as written; undefined where none is. */
  readonly written: (role: Role) => string | undefined;
}

const isBlank = (value: SheetValue | undefined): boolean => value === undefined || value === '';

/** Heads with more blank cells than that between them are of two tables side by side. */
const MAX_BLANK_HEADS = 3;
/** Heads that mean something, in a row of heads at least. */
const MIN_HEADS = 3;

/**
 * The columns whose heads in this row mean something; none where the row is no head row. Of tables side by side
 * those of the first.
 */
function headColumns(row: readonly SheetValue[]): Map<Role, Column> {
  let found = new Map<Role, Column>();
  let blanks = 0;
  for (const [index, value] of row.entries()) {
    if (isBlank(value)) {
      blanks += 1;
      continue;
    }
    if (blanks > MAX_BLANK_HEADS) {
      if (found.size >= MIN_HEADS) break;
      found = new Map();
    }
    blanks = 0;
    if (typeof value !== 'string') continue;
    const heading = readHeading(value);
    if (heading && !found.has(heading.role))
      found.set(heading.role, { index, head: value, ...heading });
  }
  return found.size >= MIN_HEADS ? found : new Map<Role, Column>();
}

function numberIn(value: SheetValue | undefined, column: Column | undefined): number | undefined {
  if (value === undefined || value === '' || typeof value === 'boolean') return undefined;
  const unit = column?.unit ?? '';
  const text =
    typeof value === 'number'
      ? column?.written && !/^(mg\/l|head|fish)/i.test(column.written)
        ? `${value} ${column.written}`
        : undefined
      : value;
  if (text === undefined) return value as number;
  try {
    return readNumberText(text, unit, column?.head ?? '');
  } catch {
    return undefined;
  }
}

function lineOf(sheet: OpenSheet, columns: ReadonlyMap<Role, Column>, row: number): TableLine {
  const cell = (role: Role): SheetValue | undefined => {
    const column = columns.get(role);
    const value = column && sheet.values[row]?.[column.index];
    return isBlank(value) ? undefined : value;
  };
  const named = (['tank', 'bed'] as const).find((role) => cell(role) !== undefined);
  return {
    cell,
    number: (role) => numberIn(cell(role), columns.get(role)),
    text: (role) => {
      const value = cell(role);
      return typeof value === 'string' ? value.trim() : undefined;
    },
    address: (role) => addressIn(sheet, row, columns.get(role)?.index ?? 0),
    called: named
      ? `${named} ${String(cell(named))}`
      : `line ${addressIn(sheet, row, 0).replace(/\D/g, '')}`,
  };
}

/** Every table of a sheet whose head row has at least three heads that the checks know. */
export function findTables(sheet: OpenSheet): FoundTable[] {
  const tables: FoundTable[] = [];
  let at = 0;
  while (at < sheet.values.length) {
    const columns = headColumns(sheet.values[at] ?? []);
    if (columns.size === 0) {
      at += 1;
      continue;
    }
    let row = at + 1;
    // A line of units under the heads says what the numbers are.
    const below = sheet.values[row] ?? [];
    const units = below.filter((value) => typeof value === 'string' && isUnitText(value)).length;
    if (units > 0 && below.every((value) => typeof value !== 'number')) {
      for (const [role, column] of columns) {
        const written = below[column.index];
        if (typeof written === 'string' && isUnitText(written) && column.unit !== undefined) {
          columns.set(role, { ...column, written: written.toLowerCase() });
        }
      }
      row += 1;
    }
    const lines: TableLine[] = [];
    let gap = 0;
    for (; row < sheet.values.length && gap < 3; row++) {
      if (headColumns(sheet.values[row] ?? []).size > 0) break;
      const line = lineOf(sheet, columns, row);
      if ([...columns.keys()].every((role) => line.cell(role) === undefined)) gap += 1;
      else {
        gap = 0;
        lines.push(line);
      }
    }
    tables.push({
      sheet: sheet.name,
      roles: new Set(columns.keys()),
      lines,
      written: (role) => columns.get(role)?.written,
    });
    at = row;
  }
  return tables;
}
