import { nameKey } from '../core/nearest-name';
import type { NameBook } from './parameter';

/** One column of a table that plain formulas look things up in. */
export interface LookupColumn<R> {
  /** Part of the defined name: bed_days gives Crop_bed_days. */
  readonly fact: string;
  readonly label: string;
  readonly unit: string;
  readonly of: (row: R) => number | string;
  /** What somebody's own figure may be; left out, any. */
  readonly range?: FigureRange;
}

export type FigureRange = readonly [least: number, most: number];

/** Two facts, the first of which lies below the second, or at most as high where `equal`. */
export type FactOrder = readonly [low: string, high: string, equal: boolean];

/**
 * A block of numbers beside a table: one line for each row of the table, one column for each head value
 * (feed by fish weight). Two defined names: `<prefix>_<heads>` is the one row of head values above,
 * `<prefix>_<fact>` the block; both also without their last column (`_low`) and without their first (`_high`). Between head values straight lines, outside them the end values.
 */
export interface LookupMatrix<R> {
  readonly fact: string;
  readonly label: string;
  readonly unit: string;
  readonly heads: {
    readonly fact: string;
    readonly label: string;
    readonly unit: string;
    /** At least two, rising. */
    readonly values: readonly number[];
  };
  /** One number for each head value. */
  readonly of: (row: R) => readonly number[];
  /** What each number may be where it is somebody's own; left out, any. */
  readonly range?: FigureRange;
  /** Facts with which the whole line goes in proportion, and what is said of it. */
  readonly goesWith?: {
    readonly facts: readonly string[];
    readonly label: string;
    readonly note: string;
  };
}

/**
 * A table that a workbook carries for its plain formulas. Each column has a defined name
 * `<prefix>_<fact>`, all of them side by side `<prefix>_facts`; `<prefix>_key` lists every known spelling and `<prefix>_row` beside it the row.
 */
export interface LookupTable<R> {
  readonly prefix: string;
  /** The sheet that shows it. */
  readonly sheet: string;
  readonly rows: readonly R[];
  readonly nameOf: (row: R) => string;
  readonly columns: readonly LookupColumn<R>[];
  /** How many of the first columns are for daily use; ranges and sources follow. */
  readonly daily: number;
  readonly matrices: readonly LookupMatrix<R>[];
  readonly orders: readonly FactOrder[];
  /** Every accepted spelling (see nameKey) with the index of its row, from 1. */
  readonly spellings: readonly (readonly [key: string, row: number])[];
  readonly book: NameBook<R>;
}

/** "tomato", "tomatoes"; "celery", "celeries"; "radish", "radishes". */
const plural = (name: string): string =>
  /[^aeiou]y$/.test(name)
    ? `${name.slice(0, -1)}ies`
    : /(?:s|x|z|ch|sh|[^aeiou]o)$/.test(name)
      ? `${name}es`
      : `${name}s`;

interface LookupSpec<R> {
  readonly prefix: string;
  readonly sheet: string;
  readonly what: string;
  readonly listedBy: string;
  readonly rows: readonly R[];
  readonly nameOf: (row: R) => string;
  readonly aliasesOf: (row: R) => readonly string[];
  readonly columns: readonly LookupColumn<R>[];
  readonly daily: number;
  readonly matrices?: readonly LookupMatrix<R>[];
  readonly orders?: readonly FactOrder[];
}

export function lookupTable<R>(spec: LookupSpec<R>): LookupTable<R> {
  const byKey = new Map<string, number>();
  const put = (name: string, index: number): void => {
    const key = nameKey(name);
    if (!byKey.has(key)) byKey.set(key, index);
  };
  // Names first, so that no alias or plural of another row can take a name away.
  spec.rows.forEach((row, i) => put(spec.nameOf(row), i + 1));
  spec.rows.forEach((row, i) => spec.aliasesOf(row).forEach((alias) => put(alias, i + 1)));
  spec.rows.forEach((row, i) =>
    [spec.nameOf(row), ...spec.aliasesOf(row)].forEach((name) => {
      put(plural(name), i + 1);
      put(`${name}s`, i + 1);
    }),
  );
  return {
    prefix: spec.prefix,
    sheet: spec.sheet,
    rows: spec.rows,
    nameOf: spec.nameOf,
    columns: spec.columns,
    daily: spec.daily,
    matrices: spec.matrices ?? [],
    orders: spec.orders ?? [],
    spellings: [...byKey],
    book: {
      what: spec.what,
      listedBy: spec.listedBy,
      names: spec.rows.map(spec.nameOf),
      otherNames: spec.rows.flatMap(spec.aliasesOf),
      table: {
        prefix: spec.prefix,
        heads: Object.fromEntries(
          (spec.matrices ?? []).map(({ fact, heads }) => [fact, heads.fact]),
        ),
      },
      find: (name) => {
        const index = byKey.get(nameKey(name));
        return index === undefined ? undefined : spec.rows[index - 1];
      },
    },
  };
}

/** Formula for how a name is spelled in a key column; case needs no care, as MATCH ignores it. */
export const plainKey = (name: string): string =>
  `SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(${name}," ",""),"-",""),"_","")`;

/** Formula for the row of a name; #N/A where the name is not known. */
export const lookupRow = (prefix: string, name: string): string =>
  `INDEX(${prefix}_row,MATCH(${plainKey(name)},${prefix}_key,0))`;

/** Formula for one fact of a name. */
export const lookupFact = (prefix: string, fact: string, name: string): string =>
  `INDEX(${prefix}_${fact},${lookupRow(prefix, name)})`;

/** The facts of a table by name: what FACT functions take as their second argument. */
export interface FactBook<R> extends NameBook<LookupColumn<R>> {
  /** Every accepted spelling (see nameKey) with the place of its column, from 1. */
  readonly spellings: readonly (readonly [key: string, column: number])[];
}

/** A fact is found by its id ("bed_days", "bed days"), its label, or one of `otherWords`. */
export function factBook<R>(
  table: LookupTable<R>,
  listedBy: string,
  otherWords: Readonly<Record<string, readonly string[]>> = {},
): FactBook<R> {
  const byKey = new Map<string, number>();
  const put = (word: string, column: number): void => {
    const key = nameKey(word);
    if (!byKey.has(key)) byKey.set(key, column);
  };
  table.columns.forEach((column, i) => put(column.fact, i + 1));
  table.columns.forEach((column, i) =>
    [column.label, ...(otherWords[column.fact] ?? [])].forEach((word) => put(word, i + 1)),
  );
  return {
    what: 'fact',
    listedBy,
    names: table.columns.map((column) => column.fact.replaceAll('_', ' ')),
    find: (name) => table.columns[(byKey.get(nameKey(name)) ?? 0) - 1],
    spellings: [...byKey],
  };
}

/** Formulas for a fact: the cell of the table, and what it holds as a value of its own. */
interface NamedFact {
  readonly cell: string;
  /** A text as a function gives it, where the fact is typed: MAX passes over a text in a cell, and stops at it. */
  readonly value: string;
}

/** Formulas for the fact that a cell or text names; `fact` and `name` are formula texts. */
export function lookupNamedFact<R>(
  table: LookupTable<R>,
  facts: FactBook<R>,
  name: string,
  fact: string,
): NamedFact {
  const literal = /^"(.*)"$/s.exec(fact)?.[1];
  const known = literal === undefined ? undefined : facts.find(literal.replaceAll('""', '"'));
  if (known) {
    const cell = lookupFact(table.prefix, known.fact, name);
    const isText = table.rows.some(
      (row) => typeof known.of(row) === 'string' && known.of(row) !== '',
    );
    return { cell, value: isText ? `${cell}&""` : cell };
  }
  const keys = facts.spellings.map(([key]) => `"${key.replaceAll('"', '""')}"`).join(',');
  const places = facts.spellings.map(([, column]) => column).join(',');
  const place = `INDEX({${places}},1,MATCH(${plainKey(fact)},{${keys}},0))`;
  const cell = `INDEX(${table.prefix}_facts,${lookupRow(table.prefix, name)},${place})`;
  return { cell, value: cell };
}

/**
 * Formula for a value of a matrix on the line of a name, at `x` along its head values.
 * `fact` and `heads` are those of the LookupMatrix.
 */
export function lookupAlong(
  prefix: string,
  { fact, heads }: { fact: string; heads: { fact: string } },
  name: string,
  x: string,
): string {
  const along = `${prefix}_${heads.fact}`;
  const inside = `MEDIAN(MIN(${along}),${x},MAX(${along}))`;
  const left = `MIN(MATCH(${inside},${along},1),COUNT(${along})-1)`;
  const head = (shift: string): string => `INDEX(${along},1,${left}${shift})`;
  const at = (shift: string): string =>
    `INDEX(${prefix}_${fact},${lookupRow(prefix, name)},${left}${shift})`;
  return `(${at('')}+(${at('+1')}-${at('')})*(${inside}-${head('')})/(${head('+1')}-${head('')}))`;
}

/**
 * Formula for the sum of `factors` times the matrix value at each of `x`; both are columns of values in one
 * formula text ("{1;2;3}*2"). The straight lines are taken piece by piece, as clipped distances.
 */
export function lookupAlongSum(
  prefix: string,
  { fact, heads }: { fact: string; heads: { fact: string } },
  name: string,
  x: string,
  factors: string,
): string {
  const along = `${prefix}_${heads.fact}`;
  const block = `${prefix}_${fact}`;
  const row = lookupRow(prefix, name);
  const pieces = `COLUMNS(${along}_low)`;
  const headLeft = `${along}_low`;
  const headRight = `${along}_high`;
  const left = `INDEX(${block}_low,${row},0)`;
  const right = `INDEX(${block}_high,${row},0)`;
  const length = `((${headRight})-(${headLeft}))`;
  const clipped = `(ABS(${x}-(${headLeft}))-ABS(${x}-(${headRight}))+${length})/2`;
  const first = `INDEX(${block},${row},1)/${pieces}`;
  return `SUMPRODUCT(${factors}*(${first}+((${right})-(${left}))/${length}*${clipped}))`;
}
