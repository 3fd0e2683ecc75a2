/** Sheets of chances in an open workbook: from which plan they are, and whether somebody typed on them. */
import { cellAddress, readArea } from '../plan/addresses';
import type { SheetSnapshot, SnapshotValue } from '../plan/book-snapshot';
import { markOfText, roundedFigure } from './plan-mark';

export const WRITTEN = 'Written on';
export const PLAN_MARK = 'Mark of the plan';
export const SHEET_MARK = 'Mark of this sheet';

/** Of all that stands in cells, rows and columns from 0, but for the mark itself. */
export function sheetMark(rows: readonly (readonly SnapshotValue[])[]): string {
  const cells = rows.flatMap((row, r) =>
    row[0] === SHEET_MARK
      ? []
      : row.flatMap((value, c) =>
          value === ''
            ? []
            : [`${r},${c}:${typeof value === 'number' ? roundedFigure(value) : value}`],
        ),
  );
  return markOfText(cells.join('\n'));
}

export interface ReadChances {
  readonly sheet: string;
  /** Cell that holds the mark of the plan. */
  readonly address: string;
  readonly planMark: string;
  readonly written: string;
  /** Nobody has typed on the sheet since it was written. */
  readonly untouched: boolean;
}

/** Sheets that were moved to begin elsewhere than in A1 are none of ours any more. */
export function readChancesSheets(sheets: readonly SheetSnapshot[]): ReadChances[] {
  return sheets.flatMap((sheet) => {
    const { values, formulas, from, name } = sheet;
    const corner = readArea(from);
    if (corner?.row !== 0 || corner.column !== 0) return [];
    const rowOf = (label: string): number => values.findIndex(([first]) => first === label);
    const beside = (label: string): string => String(values[rowOf(label)]?.[1] ?? '');
    const at = rowOf(PLAN_MARK);
    if (at < 0 || rowOf(SHEET_MARK) < 0) return [];
    return [
      {
        sheet: name,
        address: cellAddress(at, 1),
        planMark: beside(PLAN_MARK),
        written: beside(WRITTEN),
        untouched: sheetMark(formulas) === beside(SHEET_MARK),
      },
    ];
  });
}
