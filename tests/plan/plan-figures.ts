import { GillError } from '../../src/core/errors';
import { computedValues } from '../../src/engine/engine';
import type { WorkbookModel } from '../../src/plan/workbook-model';

/** The figures of a plan by their defined names: one value, or the column's values. */
export function figuresOf(model: WorkbookModel) {
  const values = computedValues(model);
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
  return { values, all, number, numbers };
}
