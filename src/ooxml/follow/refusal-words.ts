import { RefusedChange } from '../cell-changes';
import type { LinesStep } from './file-step';

/** What is said where lines of a sheet cannot come in or go at all. */
export const cannot = (sheet: string, why: string): RefusedChange =>
  new RefusedChange(
    `Rows and columns of "${sheet}" can neither come in nor go: ${why}, which cannot follow. "Save as new .xlsx" and do it in that file, or do it in the program that made the file.`,
  );

/** "row" or "column". */
export const named = (step: LinesStep) => (step.dimension === 'row' ? 'row' : 'column');
