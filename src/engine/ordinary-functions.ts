import { addFunction, helpers } from '@odoo/o-spreadsheet';

type Given = { value: number | string | boolean | null; format?: string } | undefined;
type NumberFunction = (...numbers: number[]) => number;

const { arg, toNumber } = helpers;

const invalid = (message: string): { value: string; message: string } => ({
  value: '#NUM!',
  message,
});

function addNumberFunction(
  name: string,
  description: string,
  parameters: readonly string[],
  compute: NumberFunction,
): void {
  addFunction(name, {
    description,
    category: 'Math',
    args: parameters.map((parameter) => arg(`${parameter} (number)`, parameter)),
    compute(...given) {
      const result = compute(...given.map((argument) => toNumber(argument as Given, this.locale)));
      return Number.isFinite(result) ? { value: result } : invalid(`${name} has no answer here`);
    },
  });
}

const whole = (value: number): number => Math.trunc(value);
const factorial = (n: number): number => {
  let product = 1;
  for (let i = 2; i <= n; i++) product *= i;
  return n < 0 ? NaN : product;
};

/** What is added here: known to every other spreadsheet too. */
export const ordinaryFunctions: ReadonlySet<string> = new Set([
  ...['SIGN', 'RADIANS', 'FACT', 'QUOTIENT', 'MROUND', 'N', 'T', 'REPT'],
]);

/** Adds the functions that every spreadsheet has and the engine lacks. */
export function addOrdinaryFunctions(): void {
  addNumberFunction('SIGN', 'Sign of a number: -1, 0 or 1.', ['value'], Math.sign);
  addNumberFunction(
    'RADIANS',
    'An angle in degrees as radians.',
    ['angle'],
    (angle) => (angle * Math.PI) / 180,
  );
  addNumberFunction('FACT', 'Factorial.', ['value'], (value) => factorial(whole(value)));
  addNumberFunction(
    'QUOTIENT',
    'Whole part of a division.',
    ['numerator', 'denominator'],
    (numerator, denominator) => whole(numerator / denominator),
  );
  addNumberFunction(
    'MROUND',
    'A number rounded to the nearest multiple.',
    ['value', 'multiple'],
    (value, multiple) => {
      if (value === 0 || multiple === 0) return 0;
      return Math.sign(value) === Math.sign(multiple)
        ? Math.round(value / multiple) * multiple
        : NaN;
    },
  );
  addFunction('N', {
    description: 'The number in a cell; 0 for a text.',
    category: 'Info',
    args: [arg('value (any)', 'what is turned into a number')],
    compute: (given) => {
      const cell = given as Given;
      if (helpers.isEvaluationError(cell?.value)) return cell as { value: string };
      const value = cell?.value ?? 0;
      return {
        value: typeof value === 'number' ? value : value === true ? 1 : 0,
        ...(cell?.format !== undefined && { format: cell.format }),
      };
    },
  });
  addFunction('T', {
    description: 'The text in a cell; nothing for a number.',
    category: 'Text',
    args: [arg('value (any)', 'what is kept where it is text')],
    compute: (given) => {
      const value = (given as Given)?.value;
      return { value: typeof value === 'string' ? value : '' };
    },
  });
  addFunction('REPT', {
    description: 'A text repeated.',
    category: 'Text',
    args: [arg('text (string)', 'what is repeated'), arg('times (number)', 'how often')],
    compute(text, times) {
      const count = whole(toNumber(times as Given, this.locale));
      if (count < 0 || count > 32767) return invalid('REPT takes 0 to 32767 times');
      return { value: helpers.toString(text as Given).repeat(count) };
    },
  });
}
