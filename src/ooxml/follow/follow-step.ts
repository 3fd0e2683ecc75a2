import { atOnce, partly, type Steps } from '../../plan/in-steps';
import { RefusedChange } from '../cell-changes';
import type { Package } from '../package';
import { childNamed } from '../read-xml';
import { removeCalculationOrder } from '../spare-parts';
import { readWorkbookParts } from '../workbook-parts';
import { type FileStep, isSame } from './file-step';
import { followingLines } from './follow-lines';
import { followingReferences, refuseLeftovers } from './follow-references';
import { removeSheet } from './remove-sheet';
import { sheetEntries } from './sheet-entries';
import { XmlEdits } from './xml-edits';

function refuseMacros(file: Package, workbook: string, { sheet }: FileStep): void {
  const macros = file.related(workbook, 'vbaProject');
  if (!macros) return;
  throw new RefusedChange(
    `The file has macros, which may count on "${sheet}" as it is and cannot follow. Do it in the program that made the file.`,
  );
}

/** Signs that stand in no name of a sheet: in a formula it would mean several sheets, or another file. */
const FORBIDDEN = /[[\]*?/\\:]/;

function refuseUnreadableName({ kind, sheet }: FileStep): void {
  if (kind === 'rename' || !FORBIDDEN.test(sheet)) return;
  throw new RefusedChange(
    `The name of the sheet "${sheet}" holds signs that no sheet's name may hold, so that formulas that read it cannot be followed. Give it another name in the program that made the file.`,
  );
}

/**
 * Changes the frame of a file (a sheet's name, its lines, whether it is there), and everything in it that counts on
 * the frame. Throws RefusedChange with a sentence where something cannot follow; the package is of no use then.
 */
export const followStep = (file: Package, step: FileStep): void =>
  atOnce(followingStep(file, step));

/** As `followStep`, in steps. */
export function* followingStep(file: Package, step: FileStep): Steps<void> {
  const book = readWorkbookParts(file);
  refuseMacros(file, book.part, step);
  refuseUnreadableName(step);
  const structure = childNamed(book.root, 'workbookProtection')?.attributes['lockStructure'];
  if (step.kind !== 'lines' && ['1', 'true'].includes(structure ?? '')) {
    throw new RefusedChange(
      'The sheets of the file are protected against being renamed, moved or removed. Take the protection off in the program that made the file.',
    );
  }
  yield* partly(followingReferences(file, book, step), 0, 0.5);
  // Places in the workbook part may have moved.
  const now = readWorkbookParts(file);
  if (step.kind === 'rename') {
    const entry = sheetEntries(file, now).find(({ name }) => isSame(name, step.sheet));
    if (!entry) throw new Error(`The file has no sheet called "${step.sheet}"`);
    const edits = new XmlEdits(file, now.part);
    edits.set(entry.element, 'name', step.to);
    edits.write();
  } else if (step.kind === 'remove') removeSheet(file, now, step.sheet);
  else yield* partly(followingLines(file, now, step), 0.5, 1);
  refuseLeftovers(file, step);
  if (step.kind !== 'rename') removeCalculationOrder(file);
}
