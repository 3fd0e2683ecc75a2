import { Mistake } from './mistake';

/**
 * A formula as spreadsheets of most countries write it, with semicolons between the arguments and a comma
 * in a number, as the others do. One without semicolons stays as it is; so do texts, sheet names and arrays.
 */
export function withCommas(formula: string): string {
  const parts = formula.split(/("(?:[^"]|"")*"|'(?:[^']|'')*'|\{[^}]*\})/);
  const outside = (_: string, i: number): boolean => i % 2 === 0;
  if (!parts.filter(outside).some((part) => part.includes(';'))) return formula;
  return parts
    .map((part, i) => {
      if (!outside(part, i)) return part;
      const decimal = part.replace(/(?<=\d),(?=\d)/g, '.');
      if (decimal.includes(',')) {
        throw new Mistake('between arguments stand either commas or semicolons, not both');
      }
      return decimal.replaceAll(';', ',');
    })
    .join('');
}
