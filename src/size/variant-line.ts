import type { Formula } from '../plan/formula-parts';
import type { QuantityId } from '../plan/quantities';
import type { FormatId, LookId, ValidationModel } from '../plan/workbook-model';

/** A line of the sheet Variants: what is typed of each variant, or what follows from it. */

/** A cell of the same variant, in metric units. */
export type At = (id: string) => Formula;

/** What all variants share, in metric units. */
export interface Place {
  readonly latitude: () => Formula;
  readonly altitude: () => Formula;
  readonly date: () => Formula;
  /** January to December: highest, lowest and mean air, what a square metre of open water and of beds loses. */
  readonly high: (month: number) => Formula;
  readonly low: (month: number) => Formula;
  readonly mean: (month: number) => Formula;
  readonly means: () => Formula;
  readonly open: (month: number) => Formula;
  readonly opens: () => Formula;
  readonly thirsts: () => Formula;
}

export interface VariantLine {
  readonly id: string;
  readonly label: string;
  /** Names what the columns from `first` to `last` hold, as long as they hold the same. */
  readonly labelOf?: (first: At, last: At) => Formula;
  readonly quantity?: QuantityId;
  readonly unit?: string;
  readonly format?: FormatId;
  readonly look: LookId;
  /** Where its value stands in a wish; only such lines are typed. */
  readonly wish?: readonly (string | number)[];
  readonly rule?: { readonly rule: ValidationModel['rule']; readonly message: string };
  readonly formula?: (at: At) => Formula;
  /** A number in place of the unit, for formulas. */
  readonly figure?: number;
  /** Lines that its sentences take in a column, about. */
  readonly lines?: number;
  /** Sentences, which differ without saying that the variants do. */
  readonly words?: true;
}
export interface VariantPart {
  readonly title: string;
  readonly lines: readonly VariantLine[];
  readonly remark?: string;
}

/** What was wished where something else is typed. */
export interface WishRemarks {
  readonly fish?: string | undefined;
  readonly crops?: string | undefined;
}

/** How many crops a sheet has room for. */
export const MAX_CROPS = 12;

export const cropIds = (count: number): readonly string[] =>
  Array.from({ length: count }, (_, i) => `c${i + 1}`);
