/** The error values that every spreadsheet knows. Gillbed itself raises only the first three. */
export type ErrorCode =
  | '#VALUE!'
  | '#N/A'
  | '#NUM!'
  | '#DIV/0!'
  | '#REF!'
  | '#NAME?'
  | '#NULL!'
  | '#SPILL!'
  | '#CALC!'
  | '#BUSY!';

/** What adding and multiplying leave behind a number (2.8000000000000003) is nothing to read out. */
const withoutTraces = (sentence: string): string =>
  sentence.replace(/\d+\.\d{10,}/g, (digits) => String(Number(Number(digits).toPrecision(12))));

/** An answer that cannot be given, with the sentence that says why and what would be right. */
export class GillError extends Error {
  constructor(
    readonly code: ErrorCode,
    sentence: string,
  ) {
    super(withoutTraces(sentence));
    this.name = 'GillError';
  }
}

/** An argument that is wrong: `#VALUE!`. */
export const wrongValue = (sentence: string): GillError => new GillError('#VALUE!', sentence);

/** A crop, species or fact that is not in the tables: `#N/A`. */
export const notKnown = (sentence: string): GillError => new GillError('#N/A', sentence);

/** Arguments that are each possible but have no answer together: `#NUM!`. */
export const noAnswer = (sentence: string): GillError => new GillError('#NUM!', sentence);
