import { isoText } from '../../core/serial-date';
import type { Json } from './draft';
import type { FieldSpec } from './form-fields';

/** Cells as a sheet gives them; heads in the first row. */
export type Cells = readonly (readonly (string | number | boolean)[])[];

/** Which column of the cells each field is taken from, by the field's path. */
export type Columns = ReadonlyMap<string, number>;

/** "Mean weight (g)" as its words: units in brackets and after a comma say nothing of the field. */
const words = (heading: string): string[] =>
  heading
    .toLowerCase()
    .replace(/\(.*?\)|\[.*?\]|,.*$/g, ' ')
    .split(/[^\p{L}\d]+/u)
    .filter(Boolean);

const sameWords = (a: readonly string[], b: readonly string[]): boolean =>
  a.join(' ') === b.join(' ');

/** How well a heading fits a field: the same words before a word in common, the field's label before other names. */
function fit(heading: string, field: FieldSpec): number {
  const found = words(heading);
  if (found.length === 0) return 0;
  const names = [field.label, field.path, ...(field.headings ?? [])].map(words);
  const same = names.findIndex((name) => sameWords(name, found));
  if (same >= 0) return 100 - same;
  const shared = Math.max(
    ...names.map((name) => name.filter((word) => found.includes(word)).length),
  );
  return shared * 10;
}

/** The columns that fit the fields best by their headings; each column serves one field. */
export function matchColumns(heads: readonly string[], fields: readonly FieldSpec[]): Columns {
  const pairs = fields
    .flatMap(({ path, ...rest }) =>
      heads.map((heading, column) => ({ path, column, score: fit(heading, { path, ...rest }) })),
    )
    .filter((pair) => pair.score > 0)
    .sort((a, b) => b.score - a.score || a.column - b.column);
  const matched = new Map<string, number>();
  const taken = new Set<number>();
  for (const { path, column } of pairs) {
    if (matched.has(path) || taken.has(column)) continue;
    matched.set(path, column);
    taken.add(column);
  }
  return matched;
}

function valueOf(field: FieldSpec, cell: string | number | boolean): Json | undefined {
  if (cell === '') return undefined;
  if (field.takes.kind === 'date' && typeof cell === 'number') return isoText(cell);
  // Names of tanks and beds are often numbers.
  if (field.takes.kind === 'text') return String(cell);
  return typeof cell === 'string' ? cell.trim() : cell;
}

/** Rows of the farm file out of the cells below the heads, and how many lines were empty. */
export function rowsFrom(
  cells: Cells,
  fields: readonly FieldSpec[],
  columns: Columns,
): { readonly rows: Json[]; readonly empty: number } {
  const lines = cells.slice(1).map((line) => {
    const row: Record<string, Json> = {};
    for (const field of fields) {
      const column = columns.get(field.path);
      const value = column === undefined ? undefined : valueOf(field, line[column] ?? '');
      if (value !== undefined) row[field.path] = value;
    }
    return row;
  });
  const rows = lines.filter((row) => Object.keys(row).length > 0);
  return { rows, empty: lines.length - rows.length };
}
