import type { Place } from '../../plan/addresses';
import type { Area } from '../../plan/workbook-model';

/** Lines of a sheet that come in or go. Rows and columns count from 0. */
export interface LinesStep {
  readonly kind: 'lines';
  readonly sheet: string;
  readonly dimension: 'row' | 'column';
  /** The first line that moves away, or that goes. */
  readonly at: number;
  /** So many lines come in; so many go where it is below 0. */
  readonly count: number;
  /** The line whose look new lines take on, before they come in. */
  readonly like: number;
}

/** A change to the frame of a workbook that everything in it which counts on the frame has to follow. */
export type FileStep =
  | { readonly kind: 'rename'; readonly sheet: string; readonly to: string }
  | { readonly kind: 'remove'; readonly sheet: string }
  | LinesStep;

/** As far as a sheet of the format reaches. */
const MOST = { row: 1_048_576, column: 16_384 } as const;

export const isSame = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

interface Span {
  readonly first: number;
  readonly last: number;
}

/** Where lines stand after a step; undefined where none of them is left. Lines that come in between widen them. */
export function movedSpan({ first, last }: Span, step: LinesStep): Span | undefined {
  const { at, count, dimension } = step;
  const end = MOST[dimension] - 1;
  if (count > 0) {
    const from = first >= at ? first + count : first;
    const to = last >= at ? last + count : last;
    if (from > end) return undefined;
    return { first: from, last: Math.min(to, end) };
  }
  const gone = -count;
  const from = first < at ? first : Math.max(at, first - gone);
  const to = last < at ? last : Math.max(at - 1, last - gone);
  // A whole row or column stays whole.
  const isWhole = first === 0 && last === end;
  if (isWhole) return { first, last };
  return to < from ? undefined : { first: from, last: to };
}

/** Where one line stands after a step; undefined where it is gone. */
export const movedLine = (line: number, step: LinesStep): number | undefined =>
  movedSpan({ first: line, last: line }, step)?.first;

/** Where a block of the step's sheet stands after it; undefined where none of it is left. */
export function movedArea(area: Area, step: LinesStep): Area | undefined {
  const isRow = step.dimension === 'row';
  const [start, size] = isRow ? [area.row, area.rows] : [area.column, area.columns];
  const span = movedSpan({ first: start, last: start + size - 1 }, step);
  if (!span) return undefined;
  const length = span.last - span.first + 1;
  return isRow
    ? { ...area, row: span.first, rows: length }
    : { ...area, column: span.first, columns: length };
}

/** Where a cell of the step's sheet stands after it; undefined where it is gone. */
export function movedPlace({ row, column }: Place, step: LinesStep): Place | undefined {
  const line = movedLine(step.dimension === 'row' ? row : column, step);
  if (line === undefined) return undefined;
  return step.dimension === 'row' ? { row: line, column } : { row, column: line };
}

/** Whether lines come in between those of a block, or some of its lines go and others stay. */
export function cuts(area: Area, step: LinesStep): boolean {
  const isRow = step.dimension === 'row';
  const [start, size] = isRow ? [area.row, area.rows] : [area.column, area.columns];
  if (step.count > 0) return step.at > start && step.at < start + size;
  const [from, to] = [step.at, step.at - step.count];
  const touches = from < start + size && to > start;
  return touches && !(from <= start && to >= start + size);
}
