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
