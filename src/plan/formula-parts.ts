import { quoted } from '../functions/plain';

/** How tightly the outermost sign of a formula binds; what binds less tightly than its place needs brackets. */
const LOOSE = 0;
const COMPARED = 1;
const JOINED = 2;
const ADDED = 3;
const MULTIPLIED = 4;
const RAISED = 5;
const SIGNED = 6;
const WHOLE = 7;

/** A part of a formula: a formula, a number, or words. Text is always words in quotes, never code. */
export type Part = Formula | number | string;

/** The spreadsheet functions that a plan may use: those that every spreadsheet has. */
export type SheetFunction =
  | 'ABS'
  | 'AND'
  | 'AVERAGE'
  | 'AVERAGEIFS'
  | 'COUNT'
  | 'COUNTA'
  | 'COUNTIF'
  | 'DATE'
  | 'DAY'
  | 'FIND'
  | 'HYPERLINK'
  | 'IF'
  | 'IFERROR'
  | 'INDEX'
  | 'INT'
  | 'ISNUMBER'
  | 'ISOWEEKNUM'
  | 'LEFT'
  | 'LEN'
  | 'LOG10'
  | 'LOOKUP'
  | 'MATCH'
  | 'MAX'
  | 'MEDIAN'
  | 'MIN'
  | 'MOD'
  | 'MONTH'
  | 'N'
  | 'NOT'
  | 'OR'
  | 'ROUND'
  | 'ROUNDDOWN'
  | 'ROUNDUP'
  | 'ROW'
  | 'ROWS'
  | 'SEARCH'
  | 'SIN'
  | 'SMALL'
  | 'SUBSTITUTE'
  | 'SUM'
  | 'SUMIF'
  | 'SUMIFS'
  | 'SUMPRODUCT'
  | 'TEXT'
  | 'TRIM'
  | 'VALUE'
  | 'WEEKDAY'
  | 'YEAR';

/**
 * A formula, or part of one. It knows how tightly it binds, so that parts are put together without a
 * thought for brackets. Made from numbers, words, references and the functions below: never from text.
 */
export class Formula {
  constructor(
    readonly text: string,
    private readonly binding: number = WHOLE,
  ) {}

  private within(binding: number): string {
    return this.binding < binding ? `(${this.text})` : this.text;
  }

  private with(sign: string, binding: number, right: Part, after = binding + 1): string {
    return `${this.within(binding)}${sign}${part(right).within(after)}`;
  }

  plus(right: Part): Formula {
    return new Formula(this.with('+', ADDED, right), ADDED);
  }

  minus(right: Part): Formula {
    return new Formula(this.with('-', ADDED, right), ADDED);
  }

  times(right: Part): Formula {
    return new Formula(this.with('*', MULTIPLIED, right), MULTIPLIED);
  }

  over(right: Part): Formula {
    return new Formula(this.with('/', MULTIPLIED, right), MULTIPLIED);
  }

  power(right: Part): Formula {
    return new Formula(this.with('^', RAISED, right), RAISED);
  }

  negative(): Formula {
    return new Formula(`-${this.within(SIGNED)}`, SIGNED);
  }

  private compared(sign: string, right: Part): Condition {
    return new Condition(this.with(sign, COMPARED, right), COMPARED);
  }

  is(right: Part): Condition {
    return this.compared('=', right);
  }

  isNot(right: Part): Condition {
    return this.compared('<>', right);
  }

  below(right: Part): Condition {
    return this.compared('<', right);
  }

  atMost(right: Part): Condition {
    return this.compared('<=', right);
  }

  above(right: Part): Condition {
    return this.compared('>', right);
  }

  atLeast(right: Part): Condition {
    return this.compared('>=', right);
  }

  /** Empty, or a formula that shows nothing. */
  get isBlank(): Condition {
    return this.is('');
  }

  get isFilled(): Condition {
    return this.isNot('');
  }

  get isNumber(): Condition {
    return truth('ISNUMBER', this);
  }

  /** The number of a cell, 0 for words and blanks. */
  get orZero(): Formula {
    return call('N', this);
  }

  /** Words with other parts between them. */
  static joined(parts: readonly Part[]): Formula {
    const texts = parts.map((given) => part(given).within(JOINED));
    return new Formula(texts.join('&'), texts.length > 1 ? JOINED : WHOLE);
  }
}

/** A formula that is true or false. */
export class Condition extends Formula {
  // Tells the compiler apart what can be asked from what can only be shown.
  readonly asks = true;
}

export const part = (value: Part): Formula =>
  value instanceof Formula
    ? value
    : typeof value === 'number'
      ? new Formula(String(value), value < 0 ? SIGNED : WHOLE)
      : new Formula(quoted(value));

// A large plan holds tens of thousands of formulas: text is laid end to end, without arrays in between.
function callText(name: SheetFunction, args: readonly Part[]): string {
  let text = `${name}(`;
  for (let i = 0; i < args.length; i++) {
    if (i > 0) text += ',';
    text += part(args[i] as Part).text;
  }
  return `${text})`;
}

export const call = (name: SheetFunction, ...args: readonly Part[]): Formula =>
  new Formula(callText(name, args));

const truth = (name: SheetFunction, ...args: readonly Part[]): Condition =>
  new Condition(callText(name, args));

export const all = (...conditions: readonly Condition[]): Condition =>
  conditions.length === 1 ? (conditions[0] as Condition) : truth('AND', ...conditions);

export const any = (...conditions: readonly Condition[]): Condition =>
  conditions.length === 1 ? (conditions[0] as Condition) : truth('OR', ...conditions);

export const not = (condition: Condition): Condition => truth('NOT', condition);

export const when = (condition: Condition, then: Part, otherwise: Part): Formula =>
  call('IF', condition, then, otherwise);

/** The first case that holds. */
export const cases = (
  list: readonly (readonly [condition: Condition, value: Part])[],
  otherwise: Part,
): Formula =>
  list.reduceRight<Formula>(
    (rest, [condition, value]) => when(condition, value, rest),
    part(otherwise),
  );

export const blankUnless = (condition: Condition, formula: Part): Formula =>
  when(condition, formula, '');

export const blankIf = (condition: Condition, formula: Part): Formula =>
  when(condition, '', formula);

/** Nothing as long as one of the cells is blank. */
export const blankWithout = (cells: readonly Formula[], formula: Part): Formula =>
  blankIf(any(...cells.map((cell) => cell.isBlank)), formula);

/** Words, figures and formulas side by side. */
export const joined = (...parts: readonly Part[]): Formula => Formula.joined(parts);

export const sum = (...parts: readonly Formula[]): Formula => call('SUM', ...parts);

/** Rounded up, but not for what the last digits of a division add. */
export const roundedUp = (value: Formula): Formula => call('ROUNDUP', call('ROUND', value, 6), 0);

/** A number as text, written as `format` says ("#,##0.0", "yyyy-mm-dd"). */
export const written = (value: Formula, format: string): Formula => call('TEXT', value, format);

export const isoDate = (day: Formula): Formula => written(day, 'yyyy-mm-dd');

/** True where no sign stands outside brackets and quotes, so that no brackets are needed around it. */
function standsAlone(text: string): boolean {
  let depth = 0;
  const bare = text.replace(/"(?:[^"]|"")*"|'(?:[^']|'')*'/g, '_');
  for (const sign of bare) {
    if (sign === '(' || sign === '{') depth += 1;
    else if (sign === ')' || sign === '}') depth -= 1;
    else if (depth === 0 && '+-*/^&=<>% '.includes(sign)) return false;
  }
  return true;
}

/**
 * A formula text that was made elsewhere: a function's plain equivalent, a look-up. `whole` says that it needs no
 * brackets, where that is known.
 */
export const madeElsewhere = (text: string, whole = standsAlone(text)): Formula =>
  new Formula(text, whole ? WHOLE : LOOSE);
