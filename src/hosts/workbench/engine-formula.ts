/**
 * A formula as the engine can read it: LOG10 would be a cell to it (column LOG, row 10), and its LOG is
 * to the base of 10 too. Texts and sheet names in quotes stay as they are.
 */
export const engineFormula = (formula: string): string =>
  formula.replace(/"[^"]*"|'[^']*'|(?<![\w.$])LOG10\s*\(/gi, (part) =>
    /^["']/.test(part) ? part : 'LOG(',
  );
