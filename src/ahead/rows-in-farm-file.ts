/** Rows of the planner into a farm file and out of it; nothing else of the file changes. */
import type { Farm } from '../plan/farm';
import type { RowPlaces } from './planner-rows';
import { inFarmFile, type WrittenRows } from './written-rows';

const rowsOf = (file: object, list: 'fishLog' | 'plantings'): readonly unknown[] => {
  const rows = (file as Readonly<Record<string, unknown>>)[list];
  return Array.isArray(rows) ? rows : [];
};

/** `file`: the farm file that `farm` was read from; `gone`: places of rows that leave it. */
export function changedFarmFile(
  file: object,
  farm: Farm,
  gone: RowPlaces,
  rows: WrittenRows,
): Record<string, unknown> {
  const changed = (list: 'fishLog' | 'plantings'): readonly unknown[] => {
    const leaving = new Set(gone[list]);
    return [
      ...rowsOf(file, list).filter((_, at) => !leaving.has(at)),
      ...rows[list].map((row) => inFarmFile(farm, row)),
    ];
  };
  const lists = { fishLog: changed('fishLog'), plantings: changed('plantings') };
  return {
    ...file,
    ...Object.fromEntries(
      Object.entries(lists).filter(([list, all]) => all.length > 0 || list in file),
    ),
  };
}
