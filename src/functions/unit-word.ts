/** A unit as it is written by hand: m² and °C, not m2 and degC. */
export const unitWord = (unit: string): string =>
  unit
    .replace(/(?<=\b(?:m|ft))[23]\b/g, (digit) => (digit === '2' ? '²' : '³'))
    .replace(/\bdeg(?=[CF]\b)/g, '°');

/** The words for a range with long numbers in groups of three. */
export const readable = (range: string): string =>
  range.replace(/(?<![\d.])\d{5,}/g, (digits) => Number(digits).toLocaleString('en-GB'));
