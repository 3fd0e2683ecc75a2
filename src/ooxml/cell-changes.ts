import type { Place } from '../plan/addresses';
import type { GillError } from '../core/errors';

/** What a cell of a file can hold: nothing, a number, a text, true or false, an error. Never guessed from its looks. */
export type FileValue = number | string | boolean | GillError | undefined;

/** What a cell is to hold from now on. */
export type NewCell =
  | { readonly kind: 'value'; readonly value: FileValue }
  | {
      readonly kind: 'formula';
      /** As a person reads it, without "=". */
      readonly formula: string;
      /** What it gives; undefined where that is not known, and the file is computed on opening. */
      readonly value: FileValue;
      /** The block that it fills from its cell on, where it is computed as one. */
      readonly fills?: { readonly rows: number; readonly columns: number };
    }
  /** The formula stays to the letter; only what it gives is another. */
  | { readonly kind: 'result'; readonly value: FileValue };

export interface CellChange extends Place {
  /** Left out where the content stays. */
  readonly cell?: NewCell;
  /** Number of the style that the cell gets; left out where the style stays. */
  readonly style?: number;
}

/** A change that the file cannot take, with the reason and what helps in words. */
export class RefusedChange extends Error {}
