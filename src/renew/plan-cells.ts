/**
 * What each cell of a plan means, said in words that hold in any version of it and for any number of tanks and beds:
 * by its name and entry, by its own words, or by what stands above and to the left.
 */
import { tokenize } from '@borgar/fx';
import { cropTable } from '../functions/crop-table';
import { speciesTable } from '../functions/species-table';
import { readArea } from '../plan/addresses';
import type { BookCells, CellPlace, FoundCell } from '../plan/book-snapshot';
import type { BookReading } from '../plan/read-book';
import type { NameModel } from '../plan/workbook-model';

export const keyOf = (row: number, column: number): string => `${row},${column}`;

/** Cells of one sheet by what they mean, and the other way round. */
export interface SheetMeanings {
  readonly byMeaning: ReadonlyMap<string, CellPlace>;
  readonly byCell: ReadonlyMap<string, string>;
}

interface Asked {
  readonly cells: BookCells;
  readonly reading: BookReading;
  /** What the plan's names end with in this workbook. */
  readonly suffix: string;
  /** Names, without that ending, that both workbooks have. */
  readonly common: ReadonlySet<string>;
  /** Texts, and formulas of names alone, that both workbooks have equally often on the sheet. */
  readonly words: ReadonlySet<string>;
  /** Whether formulas stand in the same cells of the sheet in both, nearly all of them. */
  readonly isLaidOutAlike: boolean;
  /** The entry of a list of the older farm, by its list and place, as the other workbook counts it. */
  readonly entry: (list: string, index: number) => string;
}

/** The one cell of its own row that a formula looks at. */
function looksLeftAt({ formula, row, column }: FoundCell): number | undefined {
  if (formula === undefined) return undefined;
  const ranges = tokenize(formula, { mergeRefs: true }).filter(({ type }) =>
    type.startsWith('range'),
  );
  const found = new Set(
    ranges.map(({ value }) => {
      const area = readArea(value);
      return area?.rows === 1 && area.columns === 1 && area.row === row ? area.column : -1;
    }),
  );
  const [only] = found;
  return found.size === 1 && only !== undefined && only >= 0 && only !== column ? only : undefined;
}

/** The column beside a named one that shows its figures in the farm's units. */
function shownColumn(
  cells: BookCells,
  sheet: string,
  row: number,
  named: number,
): number | undefined {
  const typed = looksLeftAt(cells.at({ sheet, row, column: named }));
  if (typed !== undefined && typed < named) return typed;
  for (let column = 0; column < named; column++)
    if (looksLeftAt(cells.at({ sheet, row, column })) === named) return column;
  return undefined;
}

/** The entries that the rows of a sheet hold: by row, the list and the place in it. */
function entryRows(
  reading: BookReading,
  sheet: string,
): Map<number, [list: string, index: number]> {
  const rows = new Map<number, [string, number]>();
  for (const [path, place] of reading.places) {
    const [, list, index] = /^(\w+)\[(\d+)\]\./.exec(path) ?? [];
    if (list === undefined || place.sheet.toLowerCase() !== sheet.toLowerCase()) continue;
    rows.set(place.row, [list, Number(index)]);
  }
  return rows;
}

const REFERENCE = /\$?\b[A-Z]{1,3}\$?\d+\b/;

/** What a cell says wherever it stands: a text, or a formula that looks at names alone. */
export function wordOf({ value, formula }: FoundCell): string | undefined {
  if (formula === undefined)
    return typeof value === 'string' && value !== '' ? `"${value}"` : undefined;
  return REFERENCE.test(formula.replace(/"[^"]*"/g, '')) ? undefined : `=${formula}`;
}

const isBlank = ({ value, formula }: FoundCell): boolean => value === '' && formula === undefined;

/** Lists whose entries other sheets show a row each, by what the names of their columns begin with. */
const FOLLOWS: Readonly<Record<string, string>> = {
  Tanks: 'tanks',
  Pumps: 'tanks',
  Plant: 'tanks',
  Held: 'tanks',
  Beds: 'beds',
};

export function meaningsOf(sheet: string, asked: Asked): SheetMeanings {
  const { cells, reading, suffix, common, words, entry } = asked;
  const byMeaning = new Map<string, CellPlace>();
  const byCell = new Map<string, string>();
  const put = (place: CellPlace, meaning: string): void => {
    const key = keyOf(place.row, place.column);
    if (byCell.has(key)) return;
    let free = meaning;
    for (let n = 2; byMeaning.has(free); n++) free = `${meaning} #${n}`;
    byMeaning.set(free, { sheet, row: place.row, column: place.column });
    byCell.set(key, free);
  };
  const entries = entryRows(reading, sheet);
  const width = cells.width(sheet);
  const end = cells.end(sheet);
  const stem = (name: string): string =>
    suffix !== '' && name.endsWith(suffix) ? name.slice(0, -suffix.length) : name;
  const named = cells
    .namesOn(sheet)
    .map((model) => ({ ...model, name: stem(model.name) }))
    .filter(({ name }) => common.has(name.toLowerCase()))
    .sort(
      (a, b) =>
        a.area.rows * a.area.columns - b.area.rows * b.area.columns || (a.name < b.name ? -1 : 1),
    );
  const rowWord = ({ name, area }: NameModel, row: number): string => {
    const [prefix = ''] = name.split('_');
    const table = { Crop: cropTable, Fish: speciesTable }[prefix];
    if (table) {
      const first = cells.name(`${prefix}_name${suffix}`);
      const word = first ? cells.at({ sheet, row, column: first.area.column }).value : '';
      return typeof word === 'string' && word !== ''
        ? `of ${word.toLowerCase()}`
        : `at ${row - area.row}`;
    }
    const known = entries.get(row);
    if (known) return entry(known[0], known[1]);
    const inside = [...entries.keys()].filter((at) => at >= area.row && at < area.row + area.rows);
    const last = Math.max(...inside);
    if (inside.length > 0 && row > last) return `spare ${row - last}`;
    const list = FOLLOWS[prefix];
    return list === undefined ? `at ${row - area.row}` : entry(list, row - area.row);
  };
  // Names of single figures, then of columns: the cell itself, and what shows it in the farm's units.
  for (const namedArea of named) {
    const { area, name } = namedArea;
    const isOne = area.rows * area.columns === 1;
    const twin = shownColumn(cells, sheet, area.row, area.column);
    for (let row = area.row; row < Math.min(area.row + area.rows, end); row++) {
      for (let column = area.column; column < area.column + area.columns; column++) {
        const where = isOne ? '' : ` ${rowWord(namedArea, row)} ${column - area.column}`;
        put({ sheet, row, column }, `${name}${where}`);
      }
      if (twin !== undefined && area.columns === 1)
        put(
          { sheet, row, column: twin },
          `${name}${isOne ? '' : ` ${rowWord(namedArea, row)}`} as shown`,
        );
    }
  }
  // Words and formulas that both workbooks have.
  for (let row = 0; row < end; row++) {
    for (let column = 0; column < width; column++) {
      const cell = cells.at({ sheet, row, column });
      const word = wordOf(cell);
      if (word !== undefined && words.has(word)) put(cell, word);
    }
  }
  for (let row = 0; asked.isLaidOutAlike && row < end; row++) {
    for (let column = 0; column < width; column++) {
      const { formula } = cells.at({ sheet, row, column });
      if (formula !== undefined) put({ sheet, row, column }, `=${formula} in ${row},${column}`);
    }
  }
  // What has neither: by the words above it and the first that is known in its row.
  for (let row = 0; row < end; row++) {
    for (let column = 0; column < width; column++) {
      const cell = cells.at({ sheet, row, column });
      const key = keyOf(row, column);
      if (isBlank(cell) || byCell.has(key)) continue;
      const beside = leftOf(row, column, byCell);
      const head = headAbove(row, column, byCell);
      // A figure right behind its words needs no head.
      const hasWords = byCell.get(keyOf(row, column - 1))?.startsWith('"') === true;
      if (beside && (hasWords || head === undefined))
        put(cell, `~${beside.meaning} + ${beside.steps}`);
      else if (head) put(cell, `~${head.meaning} / ${beside ? beside.first : `+ ${head.steps}`}`);
    }
  }
  return { byMeaning, byCell };
}

/** What was known through another is no ground for a third. */
export const isThrough = (meaning: string): boolean => meaning.startsWith('~');

/** The nearest known cell of the row to the left, and the first. */
function leftOf(
  row: number,
  column: number,
  byCell: ReadonlyMap<string, string>,
): { meaning: string; steps: number; first: string } | undefined {
  let found: { meaning: string; steps: number; first: string } | undefined;
  for (let c = column - 1; c >= 0; c--) {
    const meaning = byCell.get(keyOf(row, c));
    if (meaning === undefined || isThrough(meaning)) continue;
    found = found ? { ...found, first: meaning } : { meaning, steps: column - c, first: meaning };
  }
  return found;
}

/** The nearest known cell above. */
function headAbove(
  row: number,
  column: number,
  byCell: ReadonlyMap<string, string>,
): { meaning: string; steps: number } | undefined {
  for (let r = row - 1; r >= 0; r--) {
    const meaning = byCell.get(keyOf(r, column));
    if (meaning !== undefined && !isThrough(meaning)) return { meaning, steps: row - r };
  }
  return undefined;
}
