import { handingOver } from '../../handover/hand-over';
import { partly, type Steps } from '../../plan/in-steps';
import { writingXlsx } from '../../ooxml/write-xlsx';
import { leftOutOf } from './left-out';
import { savingIntoFile } from './save-into-file';
import type { Workbench } from './workbench';
import { readingWorkbook } from './workbook-from';

export const XLSX_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

export interface SavedFile {
  readonly bytes: Uint8Array;
  /** What the file does not hold of what is on the sheets, in sentences. */
  readonly losses: readonly string[];
}

/** What is on the workbench as a new .xlsx file, with GILL formulas as Excel stores them. */
export function* newXlsx(workbench: Workbench): Steps<SavedFile> {
  yield 0;
  const reading = readingWorkbook(workbench.model, workbench.plans, workbench.farm ?? '{}');
  const { model, values, losses } = yield* partly(reading, 0, 0.5);
  // What the grid does not show of a file's charts was found when it was read.
  const undrawn = workbench.unseen.filter((what) => /charts/i.test(what));
  const kinds = workbench.opened ? leftOutOf(workbench.opened.bytes) : [];
  const leftOut = [...undrawn, ...kinds].map(
    (what) => `${what} of the file that was opened: left out`,
  );
  const bytes = yield* partly(writingXlsx(model, values), 0.5, 1);
  return { bytes, losses: [...leftOut, ...losses.sentences()] };
}

/**
 * What is on the workbench: written into the file that was opened, or as a new one where none was. Throws
 * RefusedChange where the file cannot take what was changed.
 */
export function* liveXlsx(workbench: Workbench): Steps<SavedFile> {
  const { opened, model, plans, farm } = workbench;
  if (!opened) return yield* newXlsx(workbench);
  const { bytes, losses } = yield* savingIntoFile(opened, model, { plans, farm });
  return { bytes, losses: losses.sentences() };
}

function* plainOf(live: Steps<SavedFile>): Steps<SavedFile> {
  const { bytes: saved, losses } = yield* partly(live, 0, 0.6);
  const { bytes, turned, notes } = yield* partly(handingOver(saved), 0.6, 1);
  const kept = turned.flatMap(({ became, sheet, where, why }) =>
    became === 'formula' ? [] : [`${sheet}!${where}: ${why ?? 'saved as a value'}`],
  );
  return { bytes, losses: [...losses, ...kept, ...notes] };
}

/** As `liveXlsx`, with the spreadsheet's own functions only. */
export const plainXlsx = (workbench: Workbench): Steps<SavedFile> => plainOf(liveXlsx(workbench));

/** As `newXlsx`, with the spreadsheet's own functions only. */
export const newPlainXlsx = (workbench: Workbench): Steps<SavedFile> => plainOf(newXlsx(workbench));
