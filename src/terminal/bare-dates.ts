import { datesMeant, serialFromText } from '../core/serial-date';
import { Mistake } from './mistake';

/** An argument between its separators, of whatever a date is written with. */
const ARGUMENT = /(?<=[(,;]\s*)[\w/.-](?:[\w/. -]*[\w/.-])?(?=\s*[,;)])/g;
/** Three numbers that may be a date, inside a calculation or as the whole formula. */
const IN_CALCULATION = /(?<![\w/.-])(?:\d{4}-\d{2}-\d{2}|\d{1,2}([/.-])\d{1,2}\1\d{4})(?![\w/.-])/;

/**
 * A formula in which dates that stand as arguments are texts: without quotes 2026-03-01 would be 2022, and that
 * a day of 1905. A date in another form is asked for anew, and so is one inside a calculation.
 */
export function withQuotedDates(formula: string): string {
  return formula
    .split(/("(?:[^"]|"")*"|'(?:[^']|'')*'|\{[^}]*\})/)
    .map((part, i) => {
      if (i % 2 === 1) return part;
      const quoted = part.replace(ARGUMENT, (argument) => {
        if (serialFromText(argument) !== undefined) return `"${argument}"`;
        const meant = datesMeant(argument);
        if (meant.length === 0) return argument;
        throw new Mistake(
          `${argument} would be calculated; if it is a date, write ${meant.join(' or ')}, if not, spaces around its signs`,
        );
      });
      const calculated = IN_CALCULATION.exec(quoted.replace(/"[^"]*"/g, ''))?.[0];
      if (calculated === undefined) return quoted;
      throw new Mistake(
        `${calculated} would be calculated; if it is a date, write DATE(year, month, day), if not, spaces around its signs`,
      );
    })
    .join('');
}
