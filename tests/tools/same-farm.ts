import type { Farm } from '../../src/plan/farm';

/** Ten digits are kept where a figure is turned into other units and back: of 32 °F that is 3e-9 °C. */
const TOLERANCE = 3e-9;

const isEmpty = (value: unknown): boolean =>
  value === undefined ||
  (typeof value === 'object' && value !== null && Object.keys(value).length === 0);

/** Paths at which two farms differ, with what each has there. */
export function differences(a: unknown, b: unknown, path = ''): string[] {
  if (typeof a === 'number' && typeof b === 'number') {
    const near = Math.abs(a - b) <= TOLERANCE * Math.max(1, Math.abs(a));
    return near ? [] : [`${path}: ${a} and ${b}`];
  }
  // Nothing of its own, or no such field at all.
  if (isEmpty(a) && isEmpty(b)) return [];
  if (typeof a === 'object' && typeof b === 'object' && a !== null && b !== null) {
    const [x, y] = [a as Record<string, unknown>, b as Record<string, unknown>];
    return [...new Set([...Object.keys(x), ...Object.keys(y)])]
      .filter((key) => key !== 'file' || path !== '')
      .flatMap((key) => differences(x[key], y[key], `${path}.${key}`));
  }
  return a === b ? [] : [`${path}: ${JSON.stringify(a)} and ${JSON.stringify(b)}`];
}

export const farmDifferences = (a: Farm, b: Farm): string[] => differences(a, b);
