import { tokenize, type Token } from '@borgar/fx';
import type { Card } from './card';
import { cards, NAMESPACE } from './list';
import { storedName } from './stored-name';

/** One call of a GILL function inside a formula text. */
export interface GillCall {
  readonly card: Card;
  /** Formula texts of the arguments, calls inside them already rewritten. */
  readonly args: readonly string[];
  /** The call as it was written. */
  readonly written: string;
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

/** The card behind a function name in any of its spellings. */
export const cardOfFunction = (name: string): Card | undefined =>
  spellings.get(name.replace(/^@/, '').toUpperCase());

/** A quick look before the formula is taken apart. */
export const mayCallGill = (formula: string): boolean =>
  formula.toUpperCase().includes(NAMESPACE) && formula.includes('(');

/**
 * Where the text in front of a function name that belongs to it begins: "[2]!", "'…[book.xlam]Sheet'!", "@".
 * The place of the name itself without one.
 */
function prefixStart(tokens: readonly Token[], at: number): number {
  let i = at;
  if (tokens[i - 1]?.value === '!') {
    i -= 2;
    const closer = tokens[i]?.value ?? '';
    const opener = closer.endsWith("'") ? "'" : closer === ']' ? '[' : undefined;
    while (
      opener &&
      i > 0 &&
      (tokens[i]?.value === opener || !tokens[i]?.value.startsWith(opener))
    ) {
      if (tokens[i]?.value === '[') break;
      i -= 1;
    }
    if (i < 0) i = at;
  }
  return tokens[i - 1]?.value === '@' ? i - 1 : i;
}

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
    if (token.type !== 'operator') continue;
    if (token.value === '(' || token.value === '{') depth += 1;
    if (token.value === ')' || token.value === '}') depth -= 1;
    if (token.value === ',' && depth === 1) {
      args.push({ from, to: i });
      from = i + 1;
    }
    if (depth === 0) {
      args.push({ from, to: i });
      const blank =
        args.length === 1 && tokens.slice(from, i).every((t) => t.type === 'whitespace');
      return { args: blank ? [] : args, close: i };
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
  const functionFrom = new Map<number, number>();
  tokens.forEach((token, at) => {
    if (token.type === 'func') functionFrom.set(prefixStart(tokens, at), at);
  });
  const join = (from: number, to: number, whole: boolean): string => {
    let out = '';
    for (let i = from; i < to; i++) {
      const token = tokens[i] as Token;
      const functionAt = functionFrom.get(i);
      if (functionAt === undefined) {
        out += token.value;
        continue;
      }
      const card = cardOfFunction(tokens[functionAt]?.value ?? '');
      const spans = argumentSpans(tokens, functionAt + 1);
      if (!card || !spans) {
        out += token.value;
        continue;
      }
      const args = spans.args.map((span) => join(span.from, span.to, false).trim());
      const last = spans.close;
      const rest = tokens.slice(last + 1, to).every((t) => t.type === 'whitespace');
      out += rewrite({
        card,
        args,
        written: tokens
          .slice(functionAt, last + 1)
          .map((t) => t.value)
          .join(''),
        whole: whole && out.trim() === '' && rest,
      });
      i = last;
    }
    return out;
  };
  return join(0, tokens.length, true);
}
