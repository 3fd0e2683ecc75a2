/** What the functions of spreadsheets do, in words. */

const listed = (words: readonly string[]): string =>
  words.length < 2
    ? (words[0] ?? '')
    : `${words.slice(0, -1).join(', ')} and ${words.at(-1) as string}`;

/** ">0" as "above 0", "raft" as itself. */
function criterion(words: string): string {
  const bare = words.replace(/^"([<>=]+)"\s*/, '$1').replace(/^"(.*)"$/s, '$1');
  const found = /^(<=|>=|<>|<|>|=)(.*)$/s.exec(bare);
  if (!found) return `is ${words}`;
  const signs: Readonly<Record<string, string>> = {
    '<=': 'is at most',
    '>=': 'is at least',
    '<>': 'is not',
    '<': 'is below',
    '>': 'is above',
    '=': 'is',
  };
  const rest = found[2] ?? '';
  return `${signs[found[1] as string] ?? 'is'} ${rest === '' ? 'blank' : rest}`;
}

const pairs = (words: readonly string[]): string => {
  const parts: string[] = [];
  for (let i = 0; i + 1 < words.length; i += 2)
    parts.push(`${words[i] as string} ${criterion(words[i + 1] as string)}`);
  return parts.join(' and ');
};

type Phrase = (a: readonly string[]) => string;

const phrases: Readonly<Record<string, Phrase>> = {
  SUM: (a) => `the sum of ${listed(a)}`,
  AVERAGE: (a) => `the mean of ${listed(a)}`,
  MIN: (a) => `the least of ${listed(a)}`,
  MAX: (a) => `the most of ${listed(a)}`,
  MEDIAN: (a) => `the middle one of ${listed(a)}`,
  COUNT: (a) => `how many numbers are in ${listed(a)}`,
  COUNTA: (a) => `how many cells are filled in ${listed(a)}`,
  COUNTIF: (a) => `how often ${pairs(a)}`,
  COUNTIFS: (a) => `how often ${pairs(a)}`,
  SUMIF: ([range = '', is = '', sum]) =>
    `the sum of ${sum ?? range} where ${range} ${criterion(is)}`,
  SUMIFS: ([sum = '', ...rest]) => `the sum of ${sum} where ${pairs(rest)}`,
  AVERAGEIFS: ([mean = '', ...rest]) => `the mean of ${mean} where ${pairs(rest)}`,
  SUMPRODUCT: (a) => `the sum, row by row, of ${a.join(' × ')}`,
  ROUND: ([x = '', places]) => `${x}, rounded${places === '0' ? '' : ` to ${places ?? 0} places`}`,
  ROUNDUP: ([x = '']) => `${x}, rounded up`,
  ROUNDDOWN: ([x = '']) => `${x}, rounded down`,
  INT: ([x = '']) => `${x}, rounded down`,
  ABS: ([x = '']) => `the size of (${x})`,
  MOD: ([x = '', by = '']) => `what is left of ${x} divided by ${by}`,
  INDEX: ([from = '', row = '', column]) =>
    `line ${row}${column === undefined ? '' : `, column ${column}`} of ${from}`,
  MATCH: ([what = '', list = '']) => `the line of ${what} in ${list}`,
  LOOKUP: ([what = '', list = '', from]) => `what stands for ${what} in ${from ?? list}`,
  SMALL: ([list = '', n = '']) => `number ${n} from below in ${list}`,
  MONTH: ([x = '']) => `the month of ${x}`,
  YEAR: ([x = '']) => `the year of ${x}`,
  WEEKDAY: ([x = '']) => `the day of the week of ${x}`,
  DATE: (a) => `the day ${a.join('-')}`,
  N: ([x = '']) => x,
  TEXT: ([x = '']) => x,
  VALUE: ([x = '']) => x,
  TRIM: ([x = '']) => x,
  ROWS: ([x = '']) => `the number of rows of ${x}`,
  ISNUMBER: ([x = '']) => `${x} is a number`,
  ISTEXT: ([x = '']) => `${x} is words`,
  ISERROR: ([x = '']) => `${x} is an error`,
  NOT: ([x = '']) => `it is not so that ${x}`,
  AND: (a) => a.map((condition) => `(${condition})`).join(' and '),
  OR: (a) => a.map((condition) => `(${condition})`).join(' or '),
  IF: ([is = '', then = '', otherwise]) =>
    `if ${is} then ${then}${otherwise === undefined ? '' : `, otherwise ${otherwise}`}`,
  IFERROR: ([x = '', otherwise = '']) => `${x}, or ${otherwise} where that is an error`,
};

/** How firmly what is said holds together beside signs of arithmetic. */
const WHOLE = 5;
const OPEN = 0;

/** A call in words; a function that is not in the list stays as it is written. */
export function functionWords(
  name: string,
  args: readonly string[],
): { words: string; binds: number } {
  const phrase = Object.hasOwn(phrases, name) ? phrases[name] : undefined;
  if (!phrase) return { words: `${name}(${args.join(', ')})`, binds: WHOLE };
  const plain = ['N', 'TEXT', 'VALUE', 'TRIM'].includes(name);
  return { words: phrase(args), binds: plain ? WHOLE : OPEN };
}
