/** Constants as they are written into formulas. */

export const NUMBER_LITERAL = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?%?$/;
export const TEXT_LITERAL = /^"(?:[^"]|"")*"$/;

export const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** #NUM! in a plain form, in every spreadsheet: LibreOffice answers the root of a negative number with #VALUE!. */
export const PLAIN_NO_ANSWER = '10^309';
