import type { KeptFormula, ReadArea } from '../../engine/patches/kept-formulas';
import { type LinesStep, movedArea } from '../../ooxml/follow/file-step';
import { followedFormula } from '../../ooxml/follow/followed-formula';
import { fileSteps, type GridStep, movedEntries } from './grid-steps';

export type KeptBySheet = Record<string, Record<string, KeptFormula>>;

const linesOf = (step: GridStep, sheet: string): LinesStep[] =>
  fileSteps(step, sheet).filter((fileStep): fileStep is LinesStep => fileStep.kind === 'lines');

function movedReads(reads: readonly ReadArea[], step: GridStep): ReadArea[] {
  return reads.flatMap((read): ReadArea[] => {
    if (read.sheetId !== step.sheetId) return [read];
    const { top, left, bottom, right } = read.zone;
    let area: ReturnType<typeof movedArea> = {
      row: top,
      column: left,
      rows: bottom - top + 1,
      columns: right - left + 1,
    };
    for (const lines of linesOf(step, read.sheetId)) area = area && movedArea(area, lines);
    if (!area) return [];
    const { row, column, rows, columns } = area;
    const zone = { top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 };
    return [{ ...read, zone }];
  });
}

/** What a step of the grid makes of a formula that stands on the sheet `here` and reads as the grid writes it. */
export function followedOnGrid(formula: string, step: GridStep, here: string): string {
  const sheet = step.type === 'RENAME_SHEET' ? step.oldName : step.sheetName;
  const place = { sheet: here, where: '', order: [] };
  let text = formula.replace(/^=/, '');
  for (const fileStep of fileSteps(step, sheet)) text = followedFormula(text, fileStep, place);
  return `=${text}`;
}

/**
 * Formulas that keep what the file says, by where they stand after steps of the grid and as they read then. That
 * one is out of date is noted of the first one, too, which is what undo comes back to.
 */
export function followKept(kept: KeptBySheet, steps: readonly GridStep[]): KeptBySheet {
  if (steps.length === 0) return { ...kept };
  return Object.fromEntries(
    Object.entries(kept).map(([sheetId, formulas]) => {
      const followed = Object.fromEntries(
        Object.entries(formulas).map(([address, first]) => {
          let { formula, reads } = first;
          // Without a name of its own in front a reference means the sheet it stands on.
          for (const step of steps) {
            const here = step.sheetId === sheetId ? nameIn(step) : '';
            formula = followedOnGrid(formula, step, here);
            if (reads !== undefined && reads !== 'all') reads = movedReads(reads, step);
          }
          const entry: KeptFormula = {
            formula,
            result: first.result,
            ...(reads !== undefined && { reads }),
          };
          Object.defineProperty(entry, 'outdated', {
            get: () => first.outdated,
            set: (value: true) => (first.outdated = value),
            enumerable: true,
          });
          return [address, entry];
        }),
      );
      return [sheetId, movedEntries(followed, sheetId, steps)];
    }),
  );
}

const nameIn = (step: GridStep): string =>
  step.type === 'RENAME_SHEET' ? step.oldName : step.sheetName;
