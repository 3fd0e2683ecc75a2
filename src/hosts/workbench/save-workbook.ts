import { handOver } from '../../handover/hand-over';
import { writeXlsx } from '../../ooxml/write-xlsx';
import type { Workbench } from './workbench';
import { workbookFrom } from './workbook-from';

export const XLSX_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

export interface SavedFile {
  readonly bytes: Uint8Array;
  /** What the file does not hold of what is on the sheets, in sentences. */
  readonly losses: readonly string[];
}

/** What is on the workbench as an .xlsx file, with GILL formulas as Excel stores them. */
export function liveXlsx(workbench: Workbench): SavedFile {
  const { model, values, losses } = workbookFrom(
    workbench.model,
    workbench.plans,
    workbench.farm ?? '{}',
  );
  return { bytes: writeXlsx(model, values), losses: losses.sentences() };
}

/** The same with the spreadsheet's own functions only. */
export function plainXlsx(workbench: Workbench): SavedFile {
  const live = liveXlsx(workbench);
  const { bytes, turned, notes } = handOver(live.bytes);
  const kept = turned.flatMap(({ became, sheet, where, why }) =>
    became === 'formula' ? [] : [`${sheet}!${where}: ${why ?? 'saved as a value'}`],
  );
  return { bytes, losses: [...live.losses, ...kept, ...notes] };
}
