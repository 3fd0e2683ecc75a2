import type { AstExpression, BinaryExpression, CallExpression } from '@borgar/fx';
import { nameKey } from '../core/nearest-name';
import { MAX_FAILURES } from '../core/seed';
import { expressionOf } from './expression';
import { factName, type Formula, resultOf } from './formula';
import { NUMBER_LITERAL, PLAIN_NO_ANSWER, quoted, TEXT_LITERAL } from './literals';
import { lookupAlong, lookupFact } from './lookup';
import type { Parameter } from './parameter';
import { isAnyOf } from './plain-words';

/** What a formula is made into text with; `N` are its parameters. */
export interface FormulaPlaces<N extends string = string> {
  /** A formula text for each parameter; undefined or absent where the argument is left out. */
  readonly arguments: { readonly [K in N]?: string | undefined };
  /** Steps that stand in a cell of their own, and names that only a cell of a block knows. */
  readonly steps?: Readonly<Record<string, string>>;
  /** Where the facts of a parameter's row stand; without it they are looked up by its name. */
  readonly facts?: (parameter: string, fact: string) => string | undefined;
}

/** What a formula belongs to: a card, or as much of one as its formula needs. */
export interface WithFormula<N extends string = string, F extends Formula = Formula> {
  readonly parameters: readonly Parameter<N, unknown>[];
  readonly formula: F;
}

type Known = number | string | boolean;

export interface Written {
  readonly text: string;
  /** How firmly its outermost operator holds it together; see `firmness`. */
  readonly binds: number;
  /** Its value, where that can be told from the text. */
  readonly known?: Known;
  /** True of a constant of the formula itself. */
  readonly own?: true;
}

const ATOM = 9;
/** A number with a sign: in brackets, but at the beginning of a sum. */
const SIGNED = 2.5;
const COMPARED = 1;
const firmness: Readonly<Record<string, number>> = {
  '&': 2,
  '+': 3,
  '-': 3,
  '*': 4,
  '/': 4,
  '^': 5,
};

/** True where the text is one call or one pair of brackets from its first to its last character. */
function isClosed(text: string): boolean {
  if (!/^[A-Z.\d]*\(.*\)$/s.test(text)) return false;
  let depth = 0;
  let inText = false;
  for (let i = 0; i < text.length; i++) {
    const sign = text[i];
    if (sign === '"') inText = !inText;
    if (inText) continue;
    if (sign === '(') depth += 1;
    if (sign === ')') depth -= 1;
    if (depth === 0 && sign === ')' && i < text.length - 1) return false;
  }
  return true;
}

/** A text that comes from outside the formula. */
export function given(text: string): Written {
  if (NUMBER_LITERAL.test(text)) {
    const known = text.endsWith('%') ? Number(text.slice(0, -1)) / 100 : Number(text);
    return { text, known, binds: /^[+-]/.test(text) ? SIGNED : ATOM };
  }
  if (TEXT_LITERAL.test(text)) {
    return { text, known: text.slice(1, -1).replaceAll('""', '"'), binds: ATOM };
  }
  const whole = /^[$!'\p{L}\d_.]+$/u.test(text) || isClosed(text);
  return { text, binds: whole ? ATOM : COMPARED };
}

const truth = (known: boolean): Written => ({ text: known ? 'TRUE' : 'FALSE', known, binds: ATOM });

const call = (name: string, parts: readonly Written[]): Written => ({
  text: `${name}(${parts.map(({ text }) => text).join(',')})`,
  binds: ATOM,
});

/** Counts the numbers of attempts, failure by failure, whose chance of too few successes is still too great. */
function negativeBinomialQuantile(sure: Written, wanted: Written, share: Written): Written {
  const failed = `${wanted.text}-1+ROW($A$1:$A$${MAX_FAILURES})`;
  const tooFew = `BINOMDIST(${wanted.text}-1,${failed},${share.text},1)`;
  return given(`SUMPRODUCT((${tooFew}>1-${sure.text}+0.000000000001)*1)`);
}

const compare: Readonly<Record<string, (left: Known, right: Known) => boolean>> = {
  '=': (left, right) => left === right,
  '<>': (left, right) => left !== right,
  '<': (left, right) => left < right,
  '<=': (left, right) => left <= right,
  '>': (left, right) => left > right,
  '>=': (left, right) => left >= right,
};

/** True of what needs no brackets anywhere. */
export const isWhole = ({ binds }: Written): boolean => binds === ATOM;

/** What stands for the names of a formula, as a writer asks for it. */
export interface Places {
  readonly argument: (name: string) => Written | undefined;
  readonly step: (name: string) => Written | undefined;
  readonly fact: (parameter: string, fact: string) => Written | undefined;
}

const givenOrNot = (text: string | undefined): Written | undefined =>
  text === undefined ? undefined : given(text);

const placesOf = ({ arguments: args, steps, facts }: FormulaPlaces): Places => ({
  argument: (name) => givenOrNot(args[name]),
  step: (name) => givenOrNot(steps?.[name]),
  fact: (parameter, fact) => givenOrNot(facts?.(parameter, fact)),
});

/** Writes expressions of one card with given places. */
class Writer {
  private readonly written = new Map<string, Written>();

  constructor(
    private readonly card: WithFormula,
    private readonly places: Places,
  ) {}

  write(tree: AstExpression): Written {
    switch (tree.type) {
      case 'Literal':
        return typeof tree.value === 'boolean'
          ? truth(tree.value)
          : { text: tree.raw, known: tree.value as Known, binds: ATOM, own: true };
      case 'ReferenceIdentifier':
        return this.name(tree.value);
      case 'BinaryExpression':
        return this.operation(tree);
      case 'CallExpression':
        return this.call(tree);
      default:
        throw new Error(`A formula may not hold ${tree.type}`);
    }
  }

  private parameter(name: string): Parameter | undefined {
    return this.card.parameters.find((parameter) => parameter.name === name);
  }

  private name(name: string): Written {
    let found = this.written.get(name);
    if (found) return found;
    const fact = factName(name);
    const step = this.places.step(name);
    const formula = this.card.formula[name];
    if (step) found = step;
    else if (fact) found = this.fact(...fact);
    else if (this.parameter(name)) found = this.places.argument(name) ?? given('""');
    else if (formula !== undefined) found = this.write(expressionOf(formula));
    else throw new Error(`${resultOf(this.card.formula)[0]}: nothing is called ${name}`);
    this.written.set(name, found);
    return found;
  }

  private fact(parameter: string, fact: string): Written {
    const own = this.places.fact(parameter, fact);
    if (own) return own;
    const table = this.parameter(parameter)?.table;
    if (!table) throw new Error(`${parameter} names no row of a table`);
    if (Object.values(table.heads).includes(fact)) return given(`${table.prefix}_${fact}`);
    return given(lookupFact(table.prefix, fact, this.name(parameter).text));
  }

  private operation({ operator, arguments: [left, right] }: BinaryExpression): Written {
    const [a, b] = [left as AstExpression, right as AstExpression];
    const compared = compare[operator];
    if (compared) return this.comparison(operator, a, b, compared);
    const binds = firmness[operator];
    if (binds === undefined) throw new Error(`A formula may not hold the operator "${operator}"`);
    const [first, second] = [this.write(a), this.write(b)];
    // A choice that left 1 behind is no factor.
    if (second.own && second.known === 1 && (operator === '*' || operator === '/')) return first;
    const isSum = operator === '+' || operator === '-';
    const openLeft = first.binds >= binds || (isSum && first.binds === SIGNED);
    const openRight =
      second.binds > binds || (second.binds === binds && (operator === '+' || operator === '*'));
    const bracketed = ({ text }: Written, open: boolean): string => (open ? text : `(${text})`);
    return {
      text: `${bracketed(first, openLeft)}${operator}${bracketed(second, openRight)}`,
      binds,
    };
  }

  private comparison(
    operator: string,
    a: AstExpression,
    b: AstExpression,
    compared: (left: Known, right: Known) => boolean,
  ): Written {
    const words = a.type === 'ReferenceIdentifier' ? this.parameter(a.value)?.words : undefined;
    const [first, second] = [this.write(a), this.write(b)];
    const isWord = words && typeof second.known === 'string' && second.known !== '';
    if (isWord) return this.isWord(first, words, second.known as string);
    if (first.known !== undefined && second.known !== undefined) {
      return truth(compared(first.known, second.known));
    }
    return { text: `${first.text}${operator}${second.text}`, binds: COMPARED };
  }

  /** Whether a text is a word in any of its spellings. */
  private isWord(
    text: Written,
    words: Readonly<Record<string, readonly string[]>>,
    word: string,
  ): Written {
    const spellings = words[word];
    if (!spellings) throw new Error(`No word of this parameter: ${word}`);
    const keys = [...new Set([word, ...spellings].map(nameKey))];
    if (typeof text.known === 'string') return truth(keys.includes(nameKey(text.known)));
    if (text.known !== undefined) return truth(false);
    return { text: isAnyOf(text.text, keys), binds: ATOM };
  }

  private call({ callee: { name }, arguments: args }: CallExpression): Written {
    const [first, second, third] = args as [AstExpression, AstExpression, AstExpression];
    switch (name) {
      case 'IF':
        return this.choice(
          this.write(first),
          () => this.write(second),
          () => this.write(third),
        );
      case 'SWITCH':
        return this.switch(first, args.slice(1));
      case 'AND':
      case 'OR':
        return this.junction(name, args);
      case 'ISNUMBER': {
        const asked = this.write(first);
        return asked.known === undefined
          ? call(name, [asked])
          : truth(typeof asked.known === 'number');
      }
      case 'NO_ANSWER':
        return { text: PLAIN_NO_ANSWER, binds: firmness['^'] as number };
      case 'ALONG':
        return this.along(first, this.write(second));
      case 'NEGBINOM_INV':
        return negativeBinomialQuantile(this.write(first), this.write(second), this.write(third));
      default:
        return call(
          name,
          args.map((arg) => this.write(arg)),
        );
    }
  }

  private choice(condition: Written, then: () => Written, otherwise: () => Written): Written {
    if (condition.known === true) return then();
    if (condition.known === false) return otherwise();
    return call('IF', [condition, then(), otherwise()]);
  }

  /** AND and OR, without what is known of them. */
  private junction(name: 'AND' | 'OR', args: readonly AstExpression[]): Written {
    const decides = name === 'OR';
    const parts = args.map((arg) => this.write(arg));
    if (parts.some(({ known }) => known === decides)) return truth(decides);
    const open = parts.filter(({ known }) => known === undefined);
    if (open.length === 0) return truth(!decides);
    return open.length === 1 ? (open[0] as Written) : call(name, open);
  }

  /** A choice by word; any other word is an error that names those that are known. */
  private switch(chosen: AstExpression, args: readonly AstExpression[]): Written {
    const name = chosen.type === 'ReferenceIdentifier' ? chosen.value : '';
    const words = this.parameter(name)?.words;
    if (!words) throw new Error('SWITCH chooses by a parameter that takes words');
    const pairs: (readonly [string, AstExpression])[] = [];
    for (let i = 0; i + 1 < args.length; i += 2) {
      const word = this.write(args[i] as AstExpression).known;
      pairs.push([word as string, args[i + 1] as AstExpression]);
    }
    const last = args.length % 2 === 1 ? args.at(-1) : undefined;
    const wrong = `${name} must be one of: ${Object.keys(words).join(', ')}`;
    const otherwise = (): Written =>
      last ? this.write(last) : { text: `VALUE(${quoted(wrong)})`, binds: ATOM };
    const text = this.name(name);
    return pairs.reduceRight<() => Written>(
      (rest, [word, then]) =>
        () =>
          this.choice(this.isWord(text, words, word), () => this.write(then), rest),
      otherwise,
    )();
  }

  private along(block: AstExpression, x: Written): Written {
    const [parameter, fact] =
      (block.type === 'ReferenceIdentifier' ? factName(block.value) : undefined) ?? [];
    const table = parameter === undefined ? undefined : this.parameter(parameter)?.table;
    const heads = fact === undefined ? undefined : table?.heads[fact];
    if (!table || parameter === undefined || fact === undefined || heads === undefined) {
      throw new Error('ALONG reads a block of a table');
    }
    const name = this.name(parameter).text;
    return given(lookupAlong(table.prefix, { fact, heads: { fact: heads } }, name, x.text));
  }
}

/** Writes a card's formula, or one of its steps, without checks of the arguments around it. */
export const writtenWith = (
  card: WithFormula,
  places: Places,
  step: string | undefined,
): Written => {
  const text = step === undefined ? resultOf(card.formula)[1] : (card.formula[step] as string);
  return new Writer(card, places).write(expressionOf(text));
};

/**
 * The text of a card's formula, or of one of its steps, without checks of the arguments around it.
 * What can be told from the texts is decided here: a left-out argument leaves no IF behind.
 */
export const formulaText = <N extends string, F extends Formula>(
  card: WithFormula<N, F>,
  places: FormulaPlaces<N>,
  step?: keyof F & string,
): string => writtenWith(card, placesOf(places), step).text;
