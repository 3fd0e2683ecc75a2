/** A short mark of what a plan says, by which a sheet that was written once knows whether the plan has changed since. */
import type { BookSnapshot, Cells } from '../plan/book-snapshot';
import { NoPlanFound, readBook } from '../plan/read-book';

/** Parts of a farm file that move no chance. */
const FORGOTTEN: ReadonlySet<string> = new Set(['name', 'treatments', 'waterTests']);

/** Digits that count: more, and the same cell read by another program could differ. */
const DIGITS = 9;

/** The hash of Fowler, Noll & Vo (FNV-1a), 32 bits. */
function fnv(text: string, offset: number): string {
  let hash = offset;
  for (let i = 0; i < text.length; i++) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}

/** Of any text: no secret, only short and hardly ever the same for two texts. */
export const markOfText = (text: string): string =>
  `${fnv(text, 0x811c9dc5)}-${fnv(`${text}.`, 0x050c5d1f)}`;

export const roundedFigure = (value: number): number => Number(value.toPrecision(DIGITS));

function inOrder(value: unknown): unknown {
  if (typeof value === 'number') return roundedFigure(value);
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, entry]) => entry !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, entry]) => [key, inOrder(entry)]),
  );
}

/** `file`: the farm file as the cells of a workbook have it. */
export const planMark = (file: Readonly<Record<string, unknown>>): string =>
  markOfText(
    JSON.stringify(
      inOrder(Object.fromEntries(Object.entries(file).filter(([key]) => !FORGOTTEN.has(key)))),
    ),
  );

/** Of the plan in an open workbook; undefined where there is none, or several. */
export function markOfBook(cells: Cells | BookSnapshot): string | undefined {
  try {
    return planMark(readBook(cells).file);
  } catch (fault) {
    if (fault instanceof NoPlanFound) return undefined;
    throw fault;
  }
}
