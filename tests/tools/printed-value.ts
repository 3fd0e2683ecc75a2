import type { MathNode } from 'mathjs';
import { nameKey } from '../../src/core/nearest-name';
import { calendarDate, serialOf } from '../../src/core/serial-date';
import { roundDownToWhole, roundUpToWhole } from '../../src/core/whole';
import type { Card } from '../../src/functions/card';
import { expressionOf } from '../../src/functions/expression';
import { factName, type Formula, resultOf } from '../../src/functions/formula';
import { lookupTables } from '../../src/functions/lookup-tables';
import type { Cell, Parameter } from '../../src/functions/parameter';
import { mathTree } from '../../src/reference/formula-tree';

/** What the printed mathematics is computed with, beside what mathjs has. */
const functions: Readonly<Record<string, unknown>> = {
  leftOut: (value: unknown) => value === '',
  given: (value: unknown) => value !== '',
  isNumber: (value: unknown) => typeof value === 'number',
  same: (one: unknown, other: unknown) => one === other,
  roundUpToWhole,
  roundDownToWhole,
  noAnswer: (sentence = 'no answer') => {
    throw new Error(sentence);
  },
  negativeBinomialQuantile: (sure: number, wanted: number, share: number) => {
    let logTerm = wanted * Math.log(share);
    let chance = Math.exp(logTerm);
    let failures = 0;
    while (chance < sure - 1e-12 && failures < 5000) {
      failures += 1;
      logTerm += Math.log(((wanted + failures - 1) / failures) * (1 - share));
      chance += Math.exp(logTerm);
    }
    return failures;
  },
  YEAR: (serial: number) => calendarDate(serial).year,
  DATE: (year: number, month: number, day: number) => serialOf({ year, month, day }),
};

const tableOf = (parameter: Parameter | undefined) =>
  lookupTables.find(({ prefix }) => prefix === parameter?.table?.prefix);

/** The block of a table at `x`, along straight lines; outside its heads the end values. */
function along(heads: readonly number[], values: readonly number[], x: number): number {
  const at = heads.findIndex((head) => x < head);
  if (at === 0) return values[0] as number;
  if (at < 0) return values.at(-1) as number;
  const [from, to] = [heads[at - 1] as number, heads[at] as number];
  const [low, high] = [values[at - 1] as number, values[at] as number];
  return low + ((high - low) * (x - from)) / (to - from);
}

/** Names of a formula with their values, computed when they are asked for. */
class Scope {
  private readonly known = new Map<string, unknown>();

  constructor(
    private readonly card: Card & { readonly formula: Formula },
    private readonly cells: readonly Cell[],
  ) {}

  has(name: string): boolean {
    return (
      name in functions ||
      name === 'along' ||
      name.includes('.') ||
      name in this.card.formula ||
      this.card.parameters.some((parameter) => parameter.name === name)
    );
  }

  get(name: string): unknown {
    if (!this.known.has(name)) this.known.set(name, this.value(name));
    return this.known.get(name);
  }

  set(name: string, value: unknown): this {
    this.known.set(name, value);
    return this;
  }

  keys(): IterableIterator<string> {
    return this.known.keys();
  }

  private value(name: string): unknown {
    if (name in functions) return functions[name];
    if (name === 'along') {
      return ([heads, values]: [number[], number[]], x: number) => along(heads, values, x);
    }
    const fact = factName(name);
    if (fact) return this.fact(...fact);
    const at = this.card.parameters.findIndex((parameter) => parameter.name === name);
    if (at >= 0) return this.argument(this.card.parameters[at] as Parameter, this.cells[at]);
    return this.evaluate(this.card.formula[name] as string);
  }

  private argument(parameter: Parameter, cell: Cell): unknown {
    const isMissing = cell === null || cell === '' || (cell === 0 && parameter.zeroIsMissing);
    const given = isMissing ? parameter.fallback : (cell ?? parameter.fallback);
    if (given === undefined) return '';
    const value = parameter.read(given);
    const word = Object.entries(parameter.words ?? {}).find(([key, spellings]) =>
      [key, ...spellings].some((spelling) => nameKey(spelling) === nameKey(String(given))),
    );
    if (word) return word[0];
    return typeof value === 'object' || value === undefined ? String(given) : value;
  }

  /** A figure of the row that an argument names; a block as its heads and its values. */
  private fact(owner: string, fact: string): unknown {
    const at = this.card.parameters.findIndex((parameter) => parameter.name === owner);
    const parameter = this.card.parameters[at];
    const table = tableOf(parameter);
    const row = table?.book.find(String(this.cells[at] ?? parameter?.fallback));
    if (!table || row === undefined) throw new Error(`${owner} names no row`);
    const heads = table.matrices.find((matrix) => matrix.heads.fact === fact)?.heads.values;
    if (heads) return heads;
    const column = table.columns.find((column) => column.fact === fact);
    const block = table.matrices.find((matrix) => matrix.fact === fact);
    return column?.of(row) ?? [block?.heads.values, block?.of(row)];
  }

  evaluate(text: string): unknown {
    return (mathTree(expressionOf(text)) as MathNode).evaluate(this as unknown as object);
  }
}

/** What the printed mathematics of a card gives for arguments; throws where it prints "no answer". */
export const printedValue = (
  card: Card & { readonly formula: Formula },
  cells: readonly Cell[],
): unknown => new Scope(card, cells).evaluate(resultOf(card.formula)[1]);
