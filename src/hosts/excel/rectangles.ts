import type { Area } from '../../plan/workbook-model';

/**
 * The cells of a block grouped by what `keyOf` says of them, as few rectangles as a plain sweep gives:
 * runs along each row, grown downwards while the same run repeats.
 */
export function rectanglesByKey<K>(
  rows: number,
  columns: number,
  keyOf: (row: number, column: number) => K | undefined,
): Map<K, Area[]> {
  const done = new Map<K, Area[]>();
  let open = new Map<string, Area & { key: K }>();
  const close = ({ key, ...area }: Area & { key: K }): void => {
    const areas = done.get(key);
    if (areas) areas.push(area);
    else done.set(key, [area]);
  };
  for (let row = 0; row <= rows; row++) {
    const next = new Map<string, Area & { key: K }>();
    for (let column = 0; row < rows && column < columns;) {
      const key = keyOf(row, column);
      const start = column;
      do column++;
      while (column < columns && keyOf(row, column) === key);
      if (key === undefined) continue;
      const place = `${start}:${column}`;
      const above = open.get(place);
      if (above?.key === key) {
        next.set(place, { ...above, rows: above.rows + 1 });
        open.delete(place);
      } else {
        next.set(place, { key, row, column: start, rows: 1, columns: column - start });
      }
    }
    open.forEach(close);
    open = next;
  }
  return done;
}
