import { cellAddress, readArea, splitSheet } from '../plan/addresses';

export type SheetValue = string | number | boolean;

/** One sheet as it stands in an open workbook. */
export interface OpenSheet {
  readonly name: string;
  /** Address of the first cell of `formulas` and `values`, such as "A1". */
  readonly from: string;
  /** As typed: "=…" for formulas, otherwise the value. */
  readonly formulas: readonly (readonly SheetValue[])[];
  /** As shown; an error as its code, such as "#N/A". */
  readonly values: readonly (readonly SheetValue[])[];
}

/** Address of a cell by its place inside the sheet's used block. */
export function addressIn({ from }: OpenSheet, row: number, column: number): string {
  const corner = readArea(splitSheet(from).address);
  return cellAddress((corner?.row ?? 0) + row, (corner?.column ?? 0) + column);
}
