import { tokenize, type Token } from '@borgar/fx';
import type { Card } from './card';
import { cards, NAMESPACE } from './card-list';
import { storedName } from './stored-name';

/** One call of a GILL function inside a formula text. */
export interface GillCall {
  readonly card: Card;
  /** Formula texts of the arguments, calls inside them already rewritten. */
  readonly args: readonly string[];
  /** The arguments as they were written. */
  readonly given: readonly string[];
  /** The call as it was written. */
  readonly written: string;
  /** Where the call begins in the formula. */
  readonly start: number;
  /** True where the formula is this call and nothing else. */
  readonly whole: boolean;
}

const spellings = new Map<string, Card>();
for (const card of cards) {
  const displayed = `${NAMESPACE}.${card.id}`.toUpperCase();
  spellings.set(displayed, card);
  spellings.set(storedName(card.id).toUpperCase(), card);
  // What some programs make of it on their way: kept so that a repair finds it.
  spellings.set(`_XLUDF.${displayed}`, card);
  spellings.set(`_XLFN.${displayed}`, card);
}

/** A quick look before the formula is taken apart. */
export const mayCallGill = (formula: string): boolean =>
  formula.toUpperCase().includes(NAMESPACE) && formula.includes('(');

/** What belongs to a function name and stands in front of it: "[2]!", "'C:\\…[book.xlam]Sheet'!", "@". */
const PREFIX = /@?(?:(?:'(?:[^']|'')*'|[\p{L}\d_.[\]]+)!)?$/u;

interface Span {
  readonly from: number;
  readonly to: number;
}

/** Token spans of the arguments of the call whose bracket opens at `open`; undefined where it never closes. */
function argumentSpans(
  tokens: readonly Token[],
  open: number,
): { args: Span[]; close: number } | undefined {
  const args: Span[] = [];
  let depth = 0;
  let from = open + 1;
  for (let i = open; i < tokens.length; i++) {
    const token = tokens[i] as Token;
    if (token.value === '(' || token.value === '{') depth += 1;
    if (token.value === ')' || token.value === '}') depth -= 1;
    if (token.value === ',' && depth === 1) {
      args.push({ from, to: i });
      from = i + 1;
    }
    if (depth === 0) {
      args.push({ from, to: i });
      return { args, close: i };
    }
  }
  return undefined;
}

/**
 * Goes through a formula (without "=") and puts `rewrite`'s text in place of every GILL call, the inner
 * calls first. Everything else stays to the letter. Names that are no card are left alone.
 */
export function rewriteCalls(formula: string, rewrite: (call: GillCall) => string): string {
  const tokens = tokenize(formula, { mergeRefs: true }) as Token[];
  /** Where each token begins in the formula. */
  const starts: number[] = [];
  /** Calls by the token at which they begin. */
  const calls = new Map<number, { card: Card; at: number }>();
  let read = '';
  tokens.forEach(({ type, value }, at) => {
    starts.push(read.length);
    const card = type === 'func' ? spellings.get(value.toUpperCase()) : undefined;
    if (card) {
      const start = read.search(PREFIX);
      calls.set(
        starts.findIndex((value) => value >= start),
        { card, at },
      );
    }
    read += value;
  });
  const join = (from: number, to: number, whole: boolean): string => {
    let out = '';
    for (let i = from; i < to; i++) {
      const call = calls.get(i);
      const spans = call && argumentSpans(tokens, call.at + 1);
      if (!spans) {
        out += (tokens[i] as Token).value;
        continue;
      }
      const args = spans.args.map((span) => join(span.from, span.to, false).trim());
      const given = spans.args.map(({ from, to }) =>
        formula.slice(starts[from], starts[to]).trim(),
      );
      const isEmpty = args.length === 1 && args[0] === '';
      const close = starts[spans.close] as number;
      const rest = tokens.slice(spans.close + 1, to).every((t) => t.type === 'whitespace');
      out += rewrite({
        card: call.card,
        args: isEmpty ? [] : args,
        given: isEmpty ? [] : given,
        start: starts[i] as number,
        written: formula.slice(starts[call.at], close + 1),
        whole: whole && out.trim() === '' && rest,
      });
      i = spans.close;
    }
    return out;
  };
  return join(0, tokens.length, true);
}

const renamedCalls = (formula: string, name: (card: Card) => string): string =>
  mayCallGill(formula)
    ? rewriteCalls(formula, ({ card, args }) => `${name(card)}(${args.join(',')})`)
    : formula;

/** A formula with every GILL call as a person reads it, whatever a file or another program made of its name. */
export const displayedCalls = (formula: string): string =>
  renamedCalls(formula, ({ id }) => `${NAMESPACE}.${id}`);

/** A formula with every GILL call under the name that Excel stores. */
export const boundCalls = (formula: string): string =>
  renamedCalls(formula, ({ id }) => storedName(id));

/** True where a formula calls a GILL function, under whatever name. */
export function callsGill(formula: string): boolean {
  if (!mayCallGill(formula)) return false;
  let found = false;
  rewriteCalls(formula, ({ written }) => {
    found = true;
    return written;
  });
  return found;
}

/** How a name begins that a GILL function has or had, whatever a program made of it on its way. */
const OF_GILL = new RegExp(`^(?:_xldudf_|_xludf\\.|_xlfn\\.)?${NAMESPACE}[._]`, 'i');

/** Names of GILL functions in a formula that Gillbed does not have, as they stand there. */
export function unknownCalls(formula: string): readonly string[] {
  if (!mayCallGill(formula)) return [];
  const names = tokenize(formula, { mergeRefs: true }).flatMap(({ type, value }) =>
    type === 'func' && OF_GILL.test(value) && !spellings.has(value.toUpperCase()) ? [value] : [],
  );
  return [...new Set(names)];
}

/** What is to be said of names that Gillbed does not have. */
export const unknownSentence = (names: readonly string[]): string =>
  `Gillbed has no function ${names.join(' and none ')}; a newer Gillbed may have it, or its name was changed`;
