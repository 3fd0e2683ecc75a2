/** Where each cell of a workbook's plan stands in a newer plan, and which cells are somebody's own. */
import { type BookCells, type CellPlace, type FoundCell, placeText } from '../plan/book-snapshot';
import type { BookReading } from '../plan/read-book';
import type { Area } from '../plan/workbook-model';
import { earlierWords, untypedSheets } from './earlier-words';
import { isThrough, keyOf, meaningsOf, type SheetMeanings, wordOf } from './plan-cells';

/** A workbook with a plan in it. */
export interface PlanBook {
  readonly cells: BookCells;
  readonly reading: BookReading;
  readonly suffix: string;
}

/** A table of the file, as far as it matters here. */
export interface SheetTable {
  readonly sheet: string;
  readonly area: Area;
}

export interface Asked {
  readonly from: PlanBook;
  readonly to: PlanBook;
  /** By their names in `from`, with those in `to`. */
  readonly sheets: ReadonlyMap<string, string>;
  readonly tables: readonly SheetTable[];
  /** The places of the older farm's entries in the newer one, by list. */
  readonly entry: (list: string, index: number) => string;
  /** Whether a cell looks as the plan's own cells do: surely, as its plainest ones, or not at all. */
  readonly looks: (place: CellPlace) => 'planned' | 'likely' | 'own';
}

export interface OwnCell {
  readonly from: FoundCell;
  readonly to: CellPlace;
}

export interface MovedCells {
  /** Where a cell stands now; undefined where the newer plan has none like it. */
  readonly at: (place: CellPlace) => CellPlace | undefined;
  /** A whole column, and a whole row, of a plan's sheet. */
  readonly column: (sheet: string, column: number) => number | undefined;
  readonly row: (sheet: string, row: number) => number | undefined;
  /** The last prepared row of the register that has a cell in its first; both in `from` and `to`. */
  readonly own: readonly OwnCell[];
  /** Those of them whose place the newer plan takes: they stand further right. */
  readonly aside: readonly OwnCell[];
  /** Own columns that are part of a register's table, by the sheet's name in `to`: their heads in order. */
  readonly widened: ReadonlyMap<string, readonly string[]>;
  /** Cells that were typed over a formula of the plan, which comes back. */
  readonly typedOver: readonly FoundCell[];
  /** Words and formulas of the older plan that the newer one does not have. */
  readonly dropped: readonly FoundCell[];
}

const isBlank = ({ value, formula }: FoundCell): boolean => value === '' && formula === undefined;

const kindOf = ({ value, formula }: FoundCell): 'formula' | 'text' | 'number' =>
  formula !== undefined ? 'formula' : typeof value === 'string' ? 'text' : 'number';

/** A figure that a formula of the plan takes up as it stands. */
const isFactor = ({ value }: FoundCell, formula: string): boolean =>
  typeof value === 'number' && formula.replace(/^=/, '').startsWith(`${value}*`);

function* filled(cells: BookCells, sheet: string): Generator<FoundCell> {
  const width = cells.width(sheet);
  for (let row = 0; row < cells.end(sheet); row++) {
    for (let column = 0; column < width; column++) {
      const cell = cells.at({ sheet, row, column });
      if (!isBlank(cell)) yield cell;
    }
  }
}

/** How often each word stands on a sheet, and where its formulas stand. */
function contentsOf(all: Iterable<FoundCell>): {
  words: Map<string, number>;
  formulas: Set<string>;
} {
  const words = new Map<string, number>();
  const formulas = new Set<string>();
  for (const cell of all) {
    const word = wordOf(cell);
    if (word !== undefined) words.set(word, (words.get(word) ?? 0) + 1);
    if (cell.formula !== undefined) formulas.add(`${cell.row},${cell.column}=${cell.formula}`);
  }
  return { words, formulas };
}

/** Of all formulas of a sheet, this share stands in the same cells where it is laid out alike. */
const ALIKE = 0.98;

const stems = ({ cells, suffix }: PlanBook): Set<string> =>
  new Set(
    cells.names.flatMap(({ name }) =>
      suffix === ''
        ? [name.toLowerCase()]
        : name.endsWith(suffix)
          ? [name.slice(0, -suffix.length).toLowerCase()]
          : [],
    ),
  );

const placesOf = (reading: BookReading): Set<string> =>
  new Set(
    [
      ...reading.places.values(),
      ...[...reading.free.values()].flatMap((rows) => rows.flatMap((row) => [...row.values()])),
    ].map((place) => placeText(place).toLowerCase()),
  );

/** The one value that all give; undefined where they differ or there is none. */
function agreed(values: Iterable<number>): number | undefined {
  let found: number | undefined;
  for (const value of values) {
    if (found !== undefined && found !== value) return undefined;
    found = value;
  }
  return found;
}

interface Lines {
  readonly map: ReadonlyMap<string, CellPlace>;
  readonly row: (row: number) => number | undefined;
  readonly column: (column: number) => number | undefined;
  /** Behind the last column and below the last row that the plans share. */
  readonly width: { readonly from: number; readonly to: number };
  readonly height: { readonly from: number; readonly to: number };
}

function linesOf(from: SheetMeanings, to: SheetMeanings): Lines {
  const map = new Map<string, CellPlace>();
  const rows = new Map<number, Set<number>>();
  const columns = new Map<number, Set<number>>();
  const into = (lines: Map<number, Set<number>>, line: number, other: number): void => {
    lines.set(line, (lines.get(line) ?? new Set()).add(other));
  };
  for (const [key, meaning] of from.byCell) {
    const place = to.byMeaning.get(meaning);
    if (!place) continue;
    map.set(key, place);
    const [row = 0, column = 0] = key.split(',').map(Number);
    into(rows, row, place.row);
    into(columns, column, place.column);
  }
  return {
    map,
    row: (row) => agreed(rows.get(row) ?? []),
    column: (column) => agreed(columns.get(column) ?? []),
    width: { from: Math.max(-1, ...columns.keys()) + 1, to: 0 },
    height: { from: Math.max(-1, ...rows.keys()) + 1, to: 0 },
  };
}

/** Own columns of a sheet: behind the plan's, in a register's table, or put in between. */
function ownColumns(
  own: readonly FoundCell[],
  planned: ReadonlySet<number>,
  width: number,
  table: Area | undefined,
): { inTable: number[]; behind: number[] } {
  const inTable: number[] = [];
  for (let c = table?.column ?? 0; table && c < table.column + table.columns; c++)
    if (!planned.has(c)) inTable.push(c);
  const others = new Set(own.map(({ column }) => column));
  const behind = [...others].filter(
    (column) => !inTable.includes(column) && (column >= width || !planned.has(column)),
  );
  return { inTable, behind: behind.sort((a, b) => a - b) };
}

export function movedCells({ from, to, sheets, tables, entry, looks }: Asked): MovedCells {
  const names = [...stems(from)];
  const there = stems(to);
  const common = new Set(names.filter((name) => there.has(name)));
  const lines = new Map<string, Lines>();
  const places = new Map<string, Map<string, CellPlace>>();
  const own: OwnCell[] = [];
  const aside: OwnCell[] = [];
  const widened = new Map<string, readonly string[]>();
  const typedOver: FoundCell[] = [];
  const dropped: FoundCell[] = [];
  const typed = placesOf(from.reading);
  /** Own cells on each newer sheet, where several older ones may stand on it, and the column behind them. */
  const takenOn = new Map<string, Set<string>>();
  const endOf = new Map<string, number>();
  for (const [sheet, now] of sheets) {
    const all = [...filled(from.cells, sheet)];
    const [before, after] = [contentsOf(all), contentsOf(filled(to.cells, now))];
    const words = new Set(
      [...before.words].flatMap(([word, n]) => (after.words.get(word) === n ? [word] : [])),
    );
    const alike = [...after.formulas].filter((formula) => before.formulas.has(formula)).length;
    const isLaidOutAlike = alike > 0 && alike >= ALIKE * after.formulas.size;
    const meanings = meaningsOf(sheet, { ...from, common, words, isLaidOutAlike, entry });
    const newer = meaningsOf(now, {
      ...to,
      common,
      words,
      isLaidOutAlike,
      entry: (list, index) => `${list}[${index}]`,
    });
    const found = linesOf(meanings, newer);
    const map = new Map(found.map);
    // Known by its place alone, a cell is the plan's only where it looks like it.
    for (const cell of all) {
      const key = keyOf(cell.row, cell.column);
      if (!isThrough(meanings.byCell.get(key) ?? '')) continue;
      const target = map.get(key);
      const isOther = target && kindOf(cell) === 'text' && kindOf(to.cells.at(target)) !== 'text';
      if (looks(cell) === 'own' || isOther) map.delete(key);
    }
    lines.set(sheet.toLowerCase(), found);
    places.set(sheet.toLowerCase(), map);
    const table = tables.find((sheetTable) => sheetTable.sheet === sheet)?.area;
    // Columns that the older plan named are its own, whether the newer one has them or not.
    const planned = new Set<number>();
    for (const { area } of from.cells.namesOn(sheet))
      for (let c = area.column; c < area.column + area.columns; c++) planned.add(c);
    for (const key of map.keys()) planned.add(Number(key.split(',')[1]));
    const isTyped = (cell: FoundCell): boolean => typed.has(placeText(cell).toLowerCase());
    for (const cell of all)
      if (isTyped(cell) || looks(cell) === 'planned') {
        const inOwnColumn =
          table !== undefined &&
          cell.row >= table.row &&
          cell.column >= table.column &&
          cell.column < table.column + table.columns;
        if (!inOwnColumn) planned.add(cell.column);
      }
    const isOwnColumn = (column: number): boolean =>
      table !== undefined &&
      column >= table.column &&
      column < table.column + table.columns &&
      !planned.has(column);
    const planWidth = Math.max(-1, ...planned) + 1;
    const looksPlanned = (place: CellPlace): boolean =>
      looks(place) === 'planned' || (looks(place) === 'likely' && place.column < planWidth);
    // A line that somebody put in takes on the look of its neighbours: what it says tells them apart.
    const known = new Set([...after.words.keys(), ...after.formulas]);
    const isWord = (cell: FoundCell): boolean =>
      kindOf(cell) === 'text' &&
      (known.has(`"${String(cell.value)}"`) || earlierWords.has(String(cell.value)));
    const planRows = new Set([...map.keys()].map((key) => Number(key.split(',')[0])));
    for (const cell of all) if (isTyped(cell) || isWord(cell)) planRows.add(cell.row);
    const ownRows = new Set<number>();
    for (const cell of all)
      if (kindOf(cell) === 'text' && !planRows.has(cell.row)) ownRows.add(cell.row);
    const isPlans = (cell: FoundCell): boolean => {
      if (untypedSheets.has(now)) return true;
      if (kindOf(cell) === 'text') return isWord(cell);
      // The plan's own numbers stand beside its words; its formulas may stand alone.
      return kindOf(cell) === 'number' ? planRows.has(cell.row) : !ownRows.has(cell.row);
    };
    const mine: FoundCell[] = [];
    for (const cell of all) {
      const key = keyOf(cell.row, cell.column);
      const target = map.get(key);
      if (isOwnColumn(cell.column) && table !== undefined && cell.row >= table.row) {
        map.delete(key);
        mine.push(cell);
        continue;
      }
      if (isTyped(cell)) continue;
      const block = from.cells.blockAt(cell);
      const inBlock = block && (block.row !== cell.row || block.column !== cell.column);
      if (target) {
        const other = to.cells.at(target);
        if (
          cell.formula === undefined &&
          other.formula !== undefined &&
          !isFactor(cell, other.formula) &&
          !inBlock &&
          !to.cells.blockAt(target)
        )
          typedOver.push(cell);
        // A formula of somebody's own in a place that the plan leaves free is found through its neighbours.
        if (!isBlank(other)) continue;
      }
      if (inBlock && looksPlanned({ sheet, row: block.row, column: block.column })) continue;
      if (looksPlanned(cell) && isPlans(cell)) dropped.push(cell);
      else {
        map.delete(key);
        mine.push(cell);
      }
    }
    const width = { from: planWidth, to: endOf.get(now) ?? to.cells.width(now) };
    const height = { from: 0, to: to.cells.end(now) };
    for (const key of map.keys())
      height.from = Math.max(height.from, Number(key.split(',')[0]) + 1);
    // Beside a table that another sheet's columns stand behind there is no room in it.
    const room = width.to === to.cells.width(now) ? table : undefined;
    const { inTable, behind } = ownColumns(mine, planned, width.from, room);
    const columns = new Map<number, number>();
    const next = width.to + inTable.length;
    inTable.forEach((column, i) => columns.set(column, width.to + i));
    if (table && inTable.length > 0) {
      widened.set(
        now,
        inTable.map((column) => String(from.cells.at({ sheet, row: table.row, column }).value)),
      );
    }
    const inserted = behind.filter((column) => column < width.from);
    inserted.forEach((column, i) => columns.set(column, next + i));
    const start = Math.max(width.from, ...inTable.map((column) => column + 1));
    for (const column of behind)
      if (column >= width.from)
        columns.set(column, next + inserted.length + Math.max(0, column - start));
    endOf.set(now, Math.max(width.to, ...[...columns.values()].map((column) => column + 1)));
    const taken = takenOn.get(now) ?? new Set<string>();
    takenOn.set(now, taken);
    const rowOf = (row: number): number => {
      for (let up = row; up >= 0; up--) {
        const known = found.row(up);
        if (known !== undefined && (up === row || row < height.from)) return known + row - up;
      }
      return row < height.from ? row : height.to + row - height.from;
    };
    for (const cell of mine) {
      const row = rowOf(cell.row);
      let column = columns.get(cell.column) ?? found.column(cell.column) ?? cell.column;
      const isFree = (): boolean =>
        !taken.has(keyOf(row, column)) && isBlank(to.cells.at({ sheet: now, row, column }));
      const wanted = column;
      while (!isFree()) column = Math.max(column + 1, next);
      taken.add(keyOf(row, column));
      const target = { sheet: now, row, column };
      map.set(keyOf(cell.row, cell.column), target);
      own.push({ from: cell, to: target });
      if (column !== wanted) aside.push({ from: cell, to: target });
    }
    lines.set(sheet.toLowerCase(), {
      ...found,
      width,
      height,
      column: (column) => columns.get(column) ?? found.column(column),
    });
  }
  const at = (place: CellPlace): CellPlace | undefined => {
    const sheet = place.sheet.toLowerCase();
    const known = places.get(sheet)?.get(keyOf(place.row, place.column));
    if (known) return known;
    // A blank cell of the plan stands where its row and its column do.
    if (!isBlank(from.cells.at(place))) return undefined;
    const line = lines.get(sheet);
    const [row, column] = [line?.row(place.row), line?.column(place.column)];
    const now = [...sheets].find(([name]) => name.toLowerCase() === sheet)?.[1];
    if (row === undefined || column === undefined || now === undefined) return undefined;
    const target = { sheet: now, row, column };
    return isBlank(to.cells.at(target)) ? target : undefined;
  };
  return {
    at,
    column: (sheet, column) => lines.get(sheet.toLowerCase())?.column(column),
    row: (sheet, row) => lines.get(sheet.toLowerCase())?.row(row),
    own,
    aside,
    widened,
    typedOver,
    dropped,
  };
}
