import { GillError } from '../../src/core/errors';
import type { WorkbookModel } from '../../src/plan/workbook-model';
import { valuesOf } from '../tools/values-of';

/** The figures of a plan by their defined names: one value, or the column's values. */
export function figuresOf(model: WorkbookModel) {
  const values = valuesOf(model);
  const all = (name: string): (number | string | boolean | GillError | undefined)[] => {
    const named = model.names.find((model) => model.name === name);
    if (!named) throw new Error(`The plan has no name ${name}`);
    const { row, column, rows, columns } = named.area;
    return Array.from({ length: rows * columns }, (_, i) =>
      values(named.sheet, row + Math.floor(i / columns), column + (i % columns)),
    );
  };
  const number = (name: string): number => {
    const [value] = all(name);
    if (typeof value !== 'number') throw new Error(`${name} is ${String(value)}`);
    return value;
  };
  const numbers = (name: string): number[] =>
    all(name).filter((value): value is number => typeof value === 'number');
  const cells = (sheet: string) => {
    const rows = model.sheets.find(({ name }) => name === sheet)?.rows ?? [];
    return rows.map((row, r) => row.map((_, c) => values(sheet, r, c)));
  };
  /** The lines below the line of heads that has such a head, down to the first without a name. */
  const rows = (sheet: string, head: string) => {
    const found = cells(sheet);
    const below = found.slice(found.findIndex((row) => row.includes(head)) + 1);
    const end = below.findIndex((row) => (row[0] ?? '') === '');
    return below.slice(0, end);
  };
  /** The first text that begins so. */
  const text = (sheet: string, begins: string): string | undefined =>
    cells(sheet)
      .flat()
      .filter((value): value is string => typeof value === 'string')
      .find((value) => value.startsWith(begins));
  return { values, all, number, numbers, rows, text };
}
