/** How pressing it is: harm to fish or people; something off; worth knowing. */
export type Level = 'danger' | 'watch' | 'note';

export interface Finding {
  readonly level: Level;
  /** What is the matter, with its figures. */
  readonly what: string;
  readonly sheet: string;
  readonly address: string;
  readonly why: string;
  /** What would put it right. */
  readonly remedy: string;
}

export const levels: readonly Level[] = ['danger', 'watch', 'note'];

/** A figure for a sentence: three digits that count, no more than needed. */
export const figure = (value: number): string =>
  Math.abs(value) >= 100 ? String(Math.round(value)) : String(Number(value.toPrecision(3)));
