import type { Style, WorkbookData } from '@odoo/o-spreadsheet';
import { Palette } from '../../engine/grid-data';
import type { Steps } from '../../plan/in-steps';
import type { CellsOfSheet, Columns, GridThen } from './cells-then';

/** What was on the grid when its file was opened, as texts: it is kept once for each file. */
export type PackedThen = readonly string[];

/** The frame, with what the other texts say in numbers. */
interface First {
  readonly frame: WorkbookData;
  readonly styles: Readonly<Record<number, Style>>;
  readonly formats: Readonly<Record<number, string>>;
  readonly hasFormulas: Readonly<Record<string, boolean>>;
}

/** Some rows of a column. Numbers in the place of looks are those of the first text. */
interface Rows {
  readonly sheetId: string;
  readonly column: number;
  readonly from: number;
  readonly contents: readonly (string | null)[] | undefined;
  readonly styles: readonly (number | null)[] | undefined;
  readonly formats: readonly (number | null)[] | undefined;
}

/** So many rows stand in one text. */
const ROWS = 2_000;

/** A part of a column with something else in the place of its entries; undefined where it holds none. */
function some<Entry, Written>(
  columns: Columns<Entry>,
  column: number,
  from: number,
  written: (entry: Entry) => Written,
): (Written | null)[] | undefined {
  const entries = columns[column]?.slice(from, from + ROWS) ?? [];
  if (entries.every((entry) => entry === undefined)) return undefined;
  return Array.from(entries, (entry) => (entry === undefined ? null : written(entry)));
}

/** As texts, in steps. */
export function* packingThen({ frame, cells }: GridThen): Steps<PackedThen> {
  const [styles, formats] = [new Palette<Style>(), new Palette<string>()];
  const texts: string[] = [];
  const hasFormulas: Record<string, boolean> = {};
  for (const [sheetId, sheet] of Object.entries(cells)) {
    hasFormulas[sheetId] = sheet.hasFormulas;
    const columns = [sheet.contents, sheet.styles, sheet.formats];
    const width = Math.max(...columns.map(({ length }) => length));
    for (let column = 0; column < width; column++) {
      const height = Math.max(...columns.map((one) => one[column]?.length ?? 0));
      for (let from = 0; from < height; from += ROWS) {
        const rows: Rows = {
          sheetId,
          column,
          from,
          contents: some(sheet.contents, column, from, (text) => text),
          styles: some(sheet.styles, column, from, (style) => styles.idOf(style)),
          formats: some(sheet.formats, column, from, (format) => formats.idOf(format)),
        };
        texts.push(JSON.stringify(rows));
        yield column / width;
      }
    }
  }
  const first: First = { frame, styles: styles.entries, formats: formats.entries, hasFormulas };
  return [JSON.stringify(first), ...texts];
}

function fill<Written, Entry>(
  columns: Columns<Entry>,
  { column, from }: Rows,
  written: readonly (Written | null)[] | undefined,
  read: (one: Written) => Entry | undefined,
): void {
  if (!written) return;
  const entries = (columns[column] ??= []);
  written.forEach((one, n) => {
    const entry = one === null ? undefined : read(one);
    if (entry !== undefined) entries[from + n] = entry;
  });
}

/** The grid that was packed, in steps. */
export function* unpackingThen(packed: PackedThen): Steps<GridThen> {
  const [head = '{}', ...texts] = packed;
  const { frame, styles, formats, hasFormulas } = JSON.parse(head) as First;
  const cells: Record<string, CellsOfSheet> = {};
  for (const [sheetId, has] of Object.entries(hasFormulas)) {
    const none = { contents: [], styles: [], formats: [] };
    cells[sheetId] = { ...none, hasFormulas: has, byColumn: true };
  }
  for (const [n, text] of texts.entries()) {
    const rows = JSON.parse(text) as Rows;
    const sheet = cells[rows.sheetId];
    if (!sheet) continue;
    fill(sheet.contents, rows, rows.contents, (one) => one);
    fill(sheet.styles, rows, rows.styles, (id) => styles[id]);
    fill(sheet.formats, rows, rows.formats, (id) => formats[id]);
    yield n / texts.length;
  }
  return { frame, cells };
}
