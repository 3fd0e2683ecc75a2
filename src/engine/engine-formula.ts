import { PLAIN_NO_ANSWER } from '../functions/plain';

/**
 * A formula as the engine can read it: LOG10 would be a cell to it (column LOG, row 10), and its LOG is
 * to the base of 10 too; a power that no spreadsheet can hold is infinite to it and no error. Texts and
 * sheet names in quotes stay as they are.
 */
export const engineFormula = (formula: string): string =>
  formula.replace(/"[^"]*"|'[^']*'|(?<![\w.$])(?:LOG10\s*\(|10\^309(?!\d))/gi, (part) => {
    if (/^["']/.test(part)) return part;
    return part === PLAIN_NO_ANSWER ? 'SQRT(0-1)' : 'LOG(';
  });
