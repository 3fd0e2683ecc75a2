import { GillError, notKnown, wrongValue } from '../core/errors';
import { closeName, nameKey } from '../core/nearest-name';
import { datesMeant, MAX_SERIAL, MIN_SERIAL, serialFromText } from '../core/serial-date';
import { unitWord } from './unit-word';
import { readNumberText, unitFact, type UnitId } from './units';

/** One cell as spreadsheets hand it over; an error in a cell arrives as a GillError. */
export type Cell = number | string | boolean | null | undefined | GillError;

/** One argument: a cell, or a range as rows of cells. */
export type Argument = Cell | readonly (readonly Cell[])[];

/**
 * One parameter of a card. `T` is what the card's arithmetic receives:
 * `undefined` is in it where the parameter may be left out and has no fixed default.
 */
export interface Parameter<N extends string = string, T = unknown> {
  readonly name: N;
  readonly meaning: string;
  readonly kind: 'number' | 'date' | 'name' | 'choice' | 'series';
  readonly unit: UnitId;
  readonly optional: boolean;
  /** What it takes, in words: "more than 0 g, at most 200000 g". */
  readonly takes: string;
  /** What is taken when it is left out, in words. */
  readonly defaultText?: string;
  /** The cell value that stands for a left-out argument; absent where the card decides. */
  readonly fallback?: number | string;
  /** True where 0 is impossible, so that a 0 (a blank cell on some platforms) counts as missing. */
  readonly zeroIsMissing: boolean;
  /** Bounds within which a plain number needs no further look; NaN where every value does. */
  readonly low: number;
  readonly high: number;
  /** Known names, for drop-down lists. */
  readonly names?: () => readonly string[];
  /** Those names with all their other spellings, for a search. */
  readonly spellings?: () => readonly string[];
  /** Words that formulas choose by, with the other spellings of each. */
  readonly words?: Words;
  /** The table that a name is a row of. */
  readonly table?: NamedTable;
  /** From a cell that is not missing to what the arithmetic takes; throws a GillError. */
  readonly read: (cell: Exclude<Cell, null | undefined>) => T;
  /** From a whole range, for a series. */
  readonly readSeries?: (cells: readonly (readonly Cell[])[]) => T;
  /** Spreadsheet condition that is TRUE where `text` would be accepted; absent where looking it up decides. */
  readonly plainGuard?: (text: string) => string;
}

/** Words with the other spellings of each. */
export type Words = Readonly<Record<string, readonly string[]>>;

/** A table as formulas look it up: the beginning of its defined names, and which heads its blocks of numbers have. */
export interface NamedTable {
  readonly prefix: string;
  readonly heads: Readonly<Record<string, string>>;
}

interface Common {
  readonly optional?: boolean;
  readonly defaultText?: string;
}

interface NumberRange {
  readonly min?: number;
  /** Exclusive lower bound. */
  readonly above?: number;
  readonly max?: number;
  /** Exclusive upper bound. */
  readonly below?: number;
  readonly whole?: boolean;
  /** The scale begins at 0, but a 0 in a cell is a blank rather than a reading (a pH). */
  readonly zeroIsBlank?: boolean;
}

const withUnit = (value: number, unit: UnitId): string => {
  if (['', 'pH', 'share', '1/h', 'money'].includes(unit)) return String(value);
  const many = (unit === 'day' || unit === 'week') && value !== 1 ? 's' : '';
  return `${value} ${unitWord(unit)}${many}`;
};

function rangeWords(range: NumberRange, unit: UnitId): string {
  const { min, above, max, below } = range;
  const whole = range.whole ? 'a whole number, ' : '';
  // The usual slip is 85 for 85 %.
  const shareWords = unit === 'share' ? `, such as ${unitFact(unit).example}` : '';
  if (min !== undefined && max !== undefined) {
    return `${whole}between ${min} and ${withUnit(max, unit)}${shareWords}`;
  }
  const parts: string[] = [];
  if (min !== undefined) parts.push(`at least ${withUnit(min, unit)}`);
  if (above !== undefined) parts.push(`more than ${withUnit(above, unit)}`);
  if (max !== undefined) parts.push(`at most ${withUnit(max, unit)}`);
  if (below !== undefined) parts.push(`less than ${withUnit(below, unit)}`);
  return whole + parts.join(' and ') + shareWords;
}

const shown = (cell: unknown): string =>
  typeof cell === 'string'
    ? `"${cell}"`
    : typeof cell === 'boolean'
      ? cell
        ? 'TRUE'
        : 'FALSE'
      : String(cell);

function checkedNumber(name: string, unit: UnitId, range: NumberRange, takes: string) {
  const { min = -Infinity, above = -Infinity, max = Infinity, below = Infinity, whole } = range;
  return (cell: Exclude<Cell, null | undefined>): number => {
    if (cell instanceof GillError) throw cell;
    if (typeof cell === 'boolean') {
      throw wrongValue(`${name} takes ${unitFact(unit).measures}; got ${shown(cell)}`);
    }
    const value = typeof cell === 'number' ? cell : readNumberText(cell, unit, name);
    const fits =
      value >= min && value > above && value <= max && value < below && Number.isFinite(value);
    if (!fits || (whole && !Number.isInteger(value))) {
      throw wrongValue(`${name} must be ${takes}; got ${cell}`);
    }
    return value;
  };
}

/** A condition in the spreadsheet's own words; the bounds are those of the card. */
const numberGuard =
  ({ min, above, max, below, whole }: NumberRange) =>
  (text: string): string => {
    const parts = [`ISNUMBER(${text})`];
    if (min !== undefined) parts.push(`${text}>=${min}`);
    if (above !== undefined) parts.push(`${text}>${above}`);
    if (max !== undefined) parts.push(`${text}<=${max}`);
    if (below !== undefined) parts.push(`${text}<${below}`);
    if (whole) parts.push(`INT(N(${text}))=${text}`);
    return parts.length === 1 ? (parts[0] as string) : `AND(${parts.join(',')})`;
  };

type NumberOptions = NumberRange & Common & { readonly unit?: UnitId };

/** A number with a unit. Text with another unit of the same kind is converted. */
export function number<const N extends string>(
  name: N,
  meaning: string,
  options: NumberOptions & { default: number },
): Parameter<N, number>;
export function number<const N extends string>(
  name: N,
  meaning: string,
  options: NumberOptions & { optional: true },
): Parameter<N, number | undefined>;
export function number<const N extends string>(
  name: N,
  meaning: string,
  options: NumberOptions,
): Parameter<N, number>;
export function number(
  name: string,
  meaning: string,
  options: NumberOptions & { default?: number },
): Parameter<string, number | undefined> {
  const { unit = '', optional = false, defaultText } = options;
  const fallback = options.default;
  const range: NumberRange = options;
  const takes = rangeWords(range, unit);
  const zeroFits =
    !range.zeroIsBlank &&
    (range.min ?? -1) <= 0 &&
    (range.above ?? -1) < 0 &&
    (range.max ?? 1) >= 0 &&
    (range.below ?? 1) > 0;
  // The quick way through takes the open interval, so that exclusive bounds need no second test.
  const quick = range.whole === undefined;
  // A blank cell arrives as 0 on some platforms. Where 0 is a real value that differs from the default,
  // taking either would be a guess.
  const zeroIsDoubtful = zeroFits && (optional || fallback !== undefined) && fallback !== 0;
  const checked = checkedNumber(name, unit, range, takes);
  return {
    name,
    meaning,
    kind: 'number',
    unit,
    optional: optional || fallback !== undefined,
    takes,
    ...(fallback !== undefined && {
      fallback,
      defaultText: defaultText ?? withUnit(fallback, unit),
    }),
    ...(fallback === undefined && defaultText !== undefined && { defaultText }),
    zeroIsMissing: !zeroFits,
    low: quick
      ? Math.max(range.min ?? -Infinity, range.above ?? -Infinity, zeroIsDoubtful ? 0 : -Infinity)
      : NaN,
    high: quick ? Math.min(range.max ?? Infinity, range.below ?? Infinity) : NaN,
    read: (cell) => {
      if (cell === 0 && zeroIsDoubtful) {
        throw wrongValue(
          `${name} is 0 or a blank cell; leave ${name} out, or give it the measured value (0.01 for almost nothing)`,
        );
      }
      return checked(cell);
    },
    plainGuard: (text) =>
      zeroIsDoubtful || range.zeroIsBlank
        ? `AND(${numberGuard(range)(text)},${text}<>0)`
        : numberGuard(range)(text),
  };
}

/** A date as a sheet serial of the 1900 system; text that cannot be misread is taken too. */
export function date<const N extends string>(name: N, meaning: string): Parameter<N, number> {
  const takes = `a date from 1900-03-01 on (a date cell or text such as "2026-03-01" or "1 March 2026")`;
  return {
    name,
    meaning,
    kind: 'date',
    unit: '',
    optional: false,
    takes,
    zeroIsMissing: true,
    low: NaN,
    high: NaN,
    read: (cell) => {
      if (cell instanceof GillError) throw cell;
      const serial =
        typeof cell === 'string'
          ? serialFromText(cell)
          : typeof cell === 'number' && Number.isFinite(cell)
            ? Math.floor(cell)
            : undefined;
      if (serial === undefined || serial < MIN_SERIAL || serial > MAX_SERIAL) {
        const meant = typeof cell === 'string' ? datesMeant(cell) : [];
        const either = meant.length > 0 ? `; write ${meant.join(' or ')}` : '';
        throw wrongValue(`${name} must be ${takes}; got ${shown(cell)}${either}`);
      }
      return serial;
    },
    plainGuard: (text) => `AND(ISNUMBER(${text}),${text}>=${MIN_SERIAL},${text}<${MAX_SERIAL + 1})`,
  };
}

/** Names that stand for rows of a table: case and spacing ignored, singular or plural, aliases. */
export interface NameBook<R> {
  /** What one of them is called: "crop". */
  readonly what: string;
  /** The function that lists them, for the error sentence. */
  readonly listedBy: string;
  readonly names: readonly string[];
  /** Other names for the same rows: American, British, botanical. */
  readonly otherNames?: readonly string[];
  /** The table that workbooks carry of them. */
  readonly table?: NamedTable;
  readonly find: (name: string) => R | undefined;
}

interface NameOptions extends Common {
  readonly default?: string;
}

function readName<R>(
  parameter: string,
  book: NameBook<R>,
  cell: Exclude<Cell, null | undefined>,
): R {
  if (cell instanceof GillError) throw cell;
  if (typeof cell !== 'string') {
    throw wrongValue(`${parameter} takes the name of a ${book.what}; got ${shown(cell)}`);
  }
  const row = book.find(cell);
  if (row === undefined) {
    const near = closeName(cell, [...book.names, ...(book.otherNames ?? [])]);
    const hint = near === undefined ? '' : `the nearest name is "${near}", `;
    throw notKnown(
      `${parameter}: no ${book.what} is called "${cell.slice(0, 60)}"; ${hint}${book.listedBy} lists all`,
    );
  }
  return row;
}

/** Spellings that a parameter keeps; far more than a sheet has, and no more than memory should hold. */
const MAX_SPELLINGS = 1000;

/** The name of a row in a table, such as a crop or a species. */
export function tableName<const N extends string, R>(
  name: N,
  meaning: string,
  book: NameBook<R>,
  options: NameOptions & ({ default: string } | { optional?: false }),
): Parameter<N, R>;
export function tableName<const N extends string, R>(
  name: N,
  meaning: string,
  book: NameBook<R>,
  options: NameOptions & { optional: true },
): Parameter<N, R | undefined>;
export function tableName<R>(
  name: string,
  meaning: string,
  book: NameBook<R>,
  options: NameOptions,
): Parameter<string, R | undefined> {
  // Columns repeat names: each spelling is looked up once.
  const known = new Map<string, R>();
  return {
    name,
    meaning,
    kind: 'name',
    unit: '',
    optional: options.optional === true || options.default !== undefined,
    takes: `the name of a ${book.what}`,
    ...(options.default !== undefined && { fallback: options.default }),
    ...((options.defaultText ?? options.default) !== undefined && {
      defaultText: options.defaultText ?? options.default,
    }),
    zeroIsMissing: true,
    low: NaN,
    high: NaN,
    names: () => book.names,
    spellings: () => [...book.names, ...(book.otherNames ?? [])],
    ...(book.table && { table: book.table }),
    read: (cell) => {
      let row = known.get(cell as string);
      if (row === undefined) {
        row = readName(name, book, cell);
        if (known.size < MAX_SPELLINGS) known.set(cell as string, row);
      }
      return row;
    },
  };
}

type NameOrNumberOptions<R, T> = NumberRange &
  Common & {
    readonly unit?: UnitId;
    readonly default?: string | number;
    /** Names that formulas choose by, with their other spellings, where no table holds them. */
    readonly words?: Words;
    readonly of: (row: R) => T;
  };

/**
 * A name that stands for a number (a crop for its feed ratio), or that number itself.
 * `of` picks from the row what the arithmetic takes, and throws where the table has none: the number,
 * or the row where more than one figure of it is needed.
 */
export function nameOrNumber<const N extends string, R, T = number>(
  name: N,
  meaning: string,
  book: NameBook<R>,
  options: NameOrNumberOptions<R, T> & { optional: true; default?: undefined },
): Parameter<N, T | number | undefined>;
export function nameOrNumber<const N extends string, R, T = number>(
  name: N,
  meaning: string,
  book: NameBook<R>,
  options: NameOrNumberOptions<R, T>,
): Parameter<N, T | number>;
export function nameOrNumber<R, T>(
  name: string,
  meaning: string,
  book: NameBook<R>,
  options: NameOrNumberOptions<R, T>,
): Parameter<string, T | number> {
  const { unit = '', optional = false } = options;
  const takes = `the name of a ${book.what}, or ${options.whole ? '' : 'a number '}${rangeWords(options, unit)}`;
  const readNumber = checkedNumber(name, unit, options, takes);
  const quick = options.whole === undefined;
  return {
    name,
    meaning,
    kind: 'name',
    unit,
    optional: optional || options.default !== undefined,
    takes,
    ...(options.default !== undefined && { fallback: options.default }),
    ...((options.defaultText ?? options.default) !== undefined && {
      defaultText: options.defaultText ?? String(options.default),
    }),
    zeroIsMissing: true,
    low: quick ? Math.max(options.min ?? -Infinity, options.above ?? -Infinity) : NaN,
    high: quick ? Math.min(options.max ?? Infinity, options.below ?? Infinity) : NaN,
    names: () => book.names,
    spellings: () => [...book.names, ...(book.otherNames ?? [])],
    ...(book.table && { table: book.table }),
    ...(options.words && { words: options.words }),
    read: (cell) =>
      typeof cell === 'string' && !/^\s*[+-]?[\d.]/.test(cell)
        ? options.of(readName(name, book, cell))
        : readNumber(cell),
    plainGuard: (text) => `OR(ISTEXT(${text}),${numberGuard(options)(text)})`,
  };
}

/** One of a few words; `choices` maps each word to its other spellings. */
export function choice<const N extends string, const C extends string>(
  name: N,
  meaning: string,
  choices: Readonly<Record<C, readonly string[]>>,
  options: { default?: NoInfer<C>; defaultText?: string } = {},
): Parameter<N, C> {
  const words = Object.keys(choices) as C[];
  const byKey = new Map<string, C>();
  for (const word of words) {
    for (const spelling of [word, ...choices[word]]) byKey.set(nameKey(spelling), word);
  }
  const takes = `one of ${words.map((word) => `"${word}"`).join(', ')}`;
  return {
    name,
    meaning,
    kind: 'choice',
    unit: '',
    optional: options.default !== undefined,
    takes,
    ...(options.default !== undefined && {
      fallback: options.default,
      defaultText: options.defaultText ?? options.default,
    }),
    zeroIsMissing: true,
    low: NaN,
    high: NaN,
    names: () => words,
    words: choices,
    read: (cell) => {
      if (cell instanceof GillError) throw cell;
      const word = typeof cell === 'string' ? byKey.get(nameKey(cell)) : undefined;
      if (word === undefined) throw wrongValue(`${name} must be ${takes}; got ${shown(cell)}`);
      return word;
    },
  };
}

/** Values in one text, such as "20; 61; 130". */
const listed = (
  cell: Exclude<Cell, null | undefined>,
): readonly Exclude<Cell, null | undefined>[] =>
  typeof cell === 'string' && cell.includes(';')
    ? cell.split(';').map((value) => value.trim())
    : [cell];

/** A row, a column or a text of values, each read by itself. */
function seriesOf<const N extends string>(
  { name, meaning, unit, takes }: Pick<Parameter<N>, 'name' | 'meaning' | 'unit' | 'takes'>,
  readOne: (cell: Exclude<Cell, null | undefined>) => number,
): Parameter<N, readonly number[]> {
  const readAll = (cells: readonly Cell[]): number[] =>
    cells.map((cell, i) => {
      if (cell === null || cell === undefined || cell === '') {
        throw wrongValue(
          `${name}: value ${i + 1} of ${cells.length} is blank; each place needs one`,
        );
      }
      return readOne(cell);
    });
  return {
    name,
    meaning,
    kind: 'series',
    unit,
    optional: false,
    takes,
    zeroIsMissing: false,
    low: NaN,
    high: NaN,
    read: (cell) => readAll(listed(cell)),
    readSeries: (cells) => {
      const width = cells[0]?.length ?? 0;
      if (cells.length > 1 && width > 1) {
        throw wrongValue(
          `${name} must be one row or one column; got ${cells.length} rows of ${width}`,
        );
      }
      return readAll(cells.flat());
    },
  };
}

/** One value or several that belong together (a temperature for each week). */
export function series<const N extends string>(
  name: N,
  meaning: string,
  options: NumberRange & { unit?: UnitId },
): Parameter<N, readonly number[]> {
  const { unit = '' } = options;
  const takes = `one value, a row or column of values, or a text such as "1; 2; 3", each ${rangeWords(options, unit)}`;
  return seriesOf({ name, meaning, unit, takes }, checkedNumber(name, unit, options, takes));
}

/** Days that belong together (those of weighings), as serials. */
export function dateSeries<const N extends string>(
  name: N,
  meaning: string,
): Parameter<N, readonly number[]> {
  const dateParameter = date(name, meaning);
  const takes = 'a row or column of dates, or a text such as "2026-03-01; 2026-04-01"';
  // A day in a text of several may be a serial, as a cell holds it.
  return seriesOf({ name, meaning, unit: '', takes }, (cell) =>
    dateParameter.read(typeof cell === 'string' && /^\d+$/.test(cell) ? Number(cell) : cell),
  );
}
