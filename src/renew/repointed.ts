/** A formula that points into an older plan, pointing at the same things in the newer one. */
import { parseStructRef, stringifyStructRef, tokenize } from '@borgar/fx';
import {
  columnLetters,
  columnNumber,
  readArea,
  sheetInFormula,
  splitSheet,
} from '../plan/addresses';
import type { CellPlace } from '../plan/book-snapshot';
import type { Area } from '../plan/workbook-model';
import type { MovedCells } from './moved-cells';

/** Cells of the older plan that a range means, and the end of the register that it reaches to. */
export interface Pointing {
  readonly moved: Pick<MovedCells, 'at' | 'column' | 'row'>;
  /** Sheets of the older plan by their names in small letters, with what they are called now. */
  readonly sheets: ReadonlyMap<string, string>;
  /** What of a name changes; undefined where the name is none of the plan's. */
  readonly name: (name: string) => string | undefined;
  /** Whether a name was the older plan's and is none of the newer one's. */
  readonly nameGone: (name: string) => boolean;
  /** The table of this name now, with the head that a column has there; undefined where it has none. */
  readonly table: (
    name: string,
  ) => { readonly name: string; readonly head: (head: string) => string | undefined } | undefined;
  /** The rows of the register that a row of a sheet is one of: first and last, then and now. */
  readonly register: (
    sheet: string,
    row: number,
  ) =>
    | { readonly from: readonly [number, number]; readonly to: readonly [number, number] }
    | undefined;
  /** Cells that hold something within an area of the older plan. */
  readonly filled: (sheet: string, area: Area) => readonly CellPlace[];
}

export interface Repointed {
  readonly formula: string;
  /** References that have nothing to point at any more. */
  readonly lost: readonly string[];
}

const CELL = /^(\$?)([A-Z]{1,3})(\$?)(\d+)(?::(\$?)([A-Z]{1,3})(\$?)(\d+))?$/i;
const COLUMNS = /^(\$?)([A-Z]{1,3}):(\$?)([A-Z]{1,3})$/i;
const ROWS = /^(\$?)(\d+):(\$?)(\d+)$/;
const LOST = '#REF!';

type Corners = { readonly from: CellPlace; readonly to: CellPlace };

/** Where a range stands now: as its cells do, all in one block without strangers in it. */
function movedRange(pointing: Pointing, sheet: string, area: Area): Corners | undefined {
  const { moved } = pointing;
  const [first, last] = [
    { sheet, row: area.row, column: area.column },
    { sheet, row: area.row + area.rows - 1, column: area.column + area.columns - 1 },
  ];
  const columns = Array.from({ length: area.columns }, (_, i) => area.column + i);
  const register = pointing.register(sheet, area.row);
  const images = new Map<number, number>();
  let now: string | undefined;
  for (const column of columns) {
    const cells = pointing.filled(sheet, { ...area, column, columns: 1 });
    const targets = cells.map((cell) => moved.at(cell));
    if (targets.includes(undefined)) return undefined;
    const found = new Set(targets.map((place) => place?.column));
    const [image = moved.column(sheet, column)] = [...found];
    if (found.size > 1 || image === undefined) return undefined;
    now ??= targets[0]?.sheet;
    images.set(column, image);
  }
  const order = columns.map((column) => images.get(column) as number);
  const isTogether = order.every((column, i) => column === (order[0] as number) + i);
  if (!isTogether) return undefined;
  const sheetNow = now ?? pointing.sheets.get(sheet.toLowerCase());
  if (sheetNow === undefined) return undefined;
  const rowOf = (place: CellPlace): number | undefined =>
    moved.at(place)?.row ?? moved.row(sheet, place.row);
  let [top, bottom] = [rowOf(first), rowOf(last)];
  if (register) {
    const [begins, ends] = register.from;
    if (area.row === begins) top = register.to[0];
    // What reaches to the end of a register goes on doing so, however long it is now.
    if (last.row === ends) bottom = register.to[1];
    if (last.row > ends) bottom = register.to[1] + last.row - ends;
  }
  if (top === undefined || bottom === undefined || bottom < top) return undefined;
  return {
    from: { sheet: sheetNow, row: top, column: order[0] as number },
    to: { sheet: sheetNow, row: bottom, column: order.at(-1) as number },
  };
}

function movedReference(
  pointing: Pointing,
  sheet: string,
  address: string,
): { sheet: string; address: string } | undefined {
  const { moved } = pointing;
  const now = pointing.sheets.get(sheet.toLowerCase());
  const columns = COLUMNS.exec(address);
  if (columns) {
    const [, d1 = '', from = '', d2 = '', to = ''] = columns;
    const [a, b] = [moved.column(sheet, columnNumber(from)), moved.column(sheet, columnNumber(to))];
    const isSame =
      a !== undefined && b !== undefined && b - a === columnNumber(to) - columnNumber(from);
    if (!isSame || now === undefined) return undefined;
    return { sheet: now, address: `${d1}${columnLetters(a)}:${d2}${columnLetters(b)}` };
  }
  const rows = ROWS.exec(address);
  if (rows) {
    const [, d1 = '', from = '', d2 = '', to = ''] = rows;
    const [a, b] = [moved.row(sheet, Number(from) - 1), moved.row(sheet, Number(to) - 1)];
    const isSame = a !== undefined && b !== undefined && b - a === Number(to) - Number(from);
    if (!isSame || now === undefined) return undefined;
    return { sheet: now, address: `${d1}${a + 1}:${d2}${b + 1}` };
  }
  const cells = CELL.exec(address);
  const area = readArea(address);
  if (!cells || !area) return undefined;
  const [, c1 = '', , r1 = '', , c2 = '', last, r2 = ''] = cells;
  if (last === undefined) {
    const place = moved.at({ sheet, row: area.row, column: area.column });
    return (
      place && {
        sheet: place.sheet,
        address: `${c1}${columnLetters(place.column)}${r1}${place.row + 1}`,
      }
    );
  }
  const found = movedRange(pointing, sheet, area);
  return (
    found && {
      sheet: found.from.sheet,
      address: `${c1}${columnLetters(found.from.column)}${r1}${found.from.row + 1}:${c2}${columnLetters(found.to.column)}${r2}${found.to.row + 1}`,
    }
  );
}

const bare = (name: string): string =>
  /^[A-Za-z_][A-Za-z0-9_.]*$/.test(name) &&
  !/^[A-Z]{1,3}\d+$/i.test(name) &&
  !/^(?:R|C)\d*(?:C\d*)?$/i.test(name)
    ? name
    : sheetInFormula(name);

/** `sheet` is the one that the formula stands on; "" where it stands on none, as in a name. */
export function repointed(formula: string, sheet: string, pointing: Pointing): Repointed {
  const lost: string[] = [];
  const gone = (text: string): string => {
    lost.push(text);
    return LOST;
  };
  const text = tokenize(formula, { mergeRefs: true })
    .map(({ type, value }) => {
      if (type === 'range_named') {
        const { sheet: on, address } = splitSheet(value);
        if (on !== undefined) return value;
        if (pointing.nameGone(address)) return gone(value);
        return pointing.name(address) ?? pointing.table(address)?.name ?? value;
      }
      if (type === 'structured') return repointedTable(value, pointing) ?? gone(value);
      if (!type.startsWith('range')) return value;
      const { sheet: on, address } = splitSheet(value);
      const [first, last] = (on ?? '').split(':');
      if (on !== undefined && last !== undefined && first !== undefined)
        // Through several sheets: only where none of them is the plan's.
        return [first, last].some((sheetName) => pointing.sheets.has(sheetName.toLowerCase()))
          ? gone(value)
          : value;
      const where = on ?? sheet;
      if (!pointing.sheets.has(where.toLowerCase())) return value;
      const found = movedReference(pointing, where, address);
      if (!found) return gone(value);
      return on === undefined
        ? found.address
        : `${on === found.sheet && !value.startsWith("'") ? on : bare(found.sheet)}!${found.address}`;
    })
    .join('');
  return { formula: text, lost };
}

/** A reference to a table's columns; undefined where one of them is not there any more. */
function repointedTable(text: string, { table }: Pointing): string | undefined {
  const ref = parseStructRef(text);
  const found = ref?.table === undefined ? undefined : table(ref.table);
  if (!ref || !found) return text;
  const columns = (ref.columns ?? []).map((head) => found.head(head));
  if (columns.includes(undefined)) return undefined;
  return stringifyStructRef({ ...ref, table: found.name, columns: columns as string[] });
}
