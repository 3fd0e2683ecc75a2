import { placeAddress, readArea, type Place } from '../../plan/addresses';
import { type FileStep, type LinesStep, movedPlace } from '../../ooxml/follow/file-step';

/** What was done on the grid to the frame of a file that was opened, as the grid itself says it. */
export type GridStep =
  | {
      readonly type: 'RENAME_SHEET';
      readonly sheetId: string;
      readonly oldName: string;
      readonly newName: string;
    }
  | { readonly type: 'DELETE_SHEET'; readonly sheetId: string; readonly sheetName: string }
  | {
      readonly type: 'ADD_COLUMNS_ROWS';
      readonly sheetId: string;
      readonly sheetName: string;
      readonly dimension: 'ROW' | 'COL';
      readonly base: number;
      readonly quantity: number;
      readonly position: 'before' | 'after';
      /** At the end of the grid, of which the file knows nothing. */
      readonly isGrowth: boolean;
    }
  | {
      readonly type: 'REMOVE_COLUMNS_ROWS';
      readonly sheetId: string;
      readonly sheetName: string;
      readonly dimension: 'ROW' | 'COL';
      readonly elements: readonly number[];
    };

/** Lines that follow each other, the last of them first. */
function runsBackwards(lines: readonly number[]): { first: number; count: number }[] {
  const runs: { first: number; count: number }[] = [];
  for (const line of [...new Set(lines)].sort((a, b) => b - a)) {
    const last = runs.at(-1);
    if (last?.first === line + 1) {
      last.first = line;
      last.count += 1;
    } else runs.push({ first: line, count: 1 });
  }
  return runs;
}

const dimensionOf = (dimension: 'ROW' | 'COL') => (dimension === 'ROW' ? 'row' : 'column');

/** A step of the grid as steps of the file, in which its sheet is called `sheet`. */
export function fileSteps(step: GridStep, sheet: string): FileStep[] {
  switch (step.type) {
    case 'RENAME_SHEET':
      return [{ kind: 'rename', sheet, to: step.newName }];
    case 'DELETE_SHEET':
      return [{ kind: 'remove', sheet }];
    case 'ADD_COLUMNS_ROWS': {
      const { base, quantity, position, isGrowth } = step;
      if (isGrowth) return [];
      const at = position === 'before' ? base : base + 1;
      const dimension = dimensionOf(step.dimension);
      return [{ kind: 'lines', sheet, dimension, at, count: quantity, like: base }];
    }
    case 'REMOVE_COLUMNS_ROWS':
      return runsBackwards(step.elements).map(({ first, count }) => ({
        kind: 'lines',
        sheet,
        dimension: dimensionOf(step.dimension),
        at: first,
        count: -count,
        like: first,
      }));
  }
}

/** What the sheets are called after steps, by their ids; those that are gone are left out. */
export function namesAfter(
  names: ReadonlyMap<string, string>,
  steps: readonly GridStep[],
): Map<string, string> {
  const now = new Map(names);
  for (const step of steps) {
    if (step.type === 'RENAME_SHEET') now.set(step.sheetId, step.newName);
    if (step.type === 'DELETE_SHEET') now.delete(step.sheetId);
  }
  return now;
}

/** Entries by the address of their cell, where their cells stand after steps of their sheet. */
export function movedEntries<T>(
  entries: Readonly<Record<string, T>>,
  sheetId: string,
  steps: readonly GridStep[],
): Record<string, T> {
  const lines = steps
    .filter((step) => step.sheetId === sheetId)
    .flatMap((step) => fileSteps(step, sheetId))
    .filter((step): step is LinesStep => step.kind === 'lines');
  if (lines.length === 0) return entries;
  return Object.fromEntries(
    Object.entries(entries).flatMap(([address, entry]): [string, T][] => {
      let place: Place | undefined = readArea(address);
      for (const step of lines) place = place && movedPlace(place, step);
      return place ? [[placeAddress(place), entry]] : [];
    }),
  );
}
