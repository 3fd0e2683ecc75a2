import { equationLines } from '../functions/formula';
import { NAMESPACE } from '../functions/card-list';
import { sourceLine } from '../functions/source-words';
import type { Card } from '../functions/card';
import type { Read, Step } from './explain-cell';
import type { CallWords } from './formula-words';
import type { Mover, Movers } from './movers';

/** The answer to "why this number?" in lines of text, for every face of it. */

export interface Section {
  readonly head: string;
  readonly lines: readonly string[];
}

const named = (where: string, name: string | undefined): string =>
  name === undefined ? where : `${where} (${name})`;

/** Method and sources of a card, in full where it comes up for the first time. */
const cardLines = (card: Card, withEquation: boolean, told: Set<Card>): string[] => {
  if (told.has(card)) return ['Method and sources: above.'];
  told.add(card);
  return [
    `Method: ${card.method}`,
    ...(withEquation && card.formula !== undefined
      ? equationLines(card.formula).map((line) => `  ${line.trim()}`)
      : []),
    ...card.sources.map((source) => `Source: ${sourceLine(source)}`),
  ];
};

function callLines({ card, args, leftOut }: CallWords, told: Set<Card>): string[] {
  return [
    `${NAMESPACE}.${card.id}: ${card.summary}.`,
    ...args.map(({ parameter, meaning, words, shown }) => {
      const is = shown === undefined ? words : `${shown}, ${words}`;
      return `  ${parameter} (${meaning}): ${shown === words ? words : is}`;
    }),
    ...leftOut.map((line) => `  ${line}`),
    ...cardLines(card, true, told).map((line) => `  ${line}`),
  ];
}

const readLine = ({ label, where, name, shown, kind }: Read): string =>
  `${label}: ${shown}; ${named(where, name)}; ${kind}`;

/** One computed cell: what it says, what it is made of, on whose word. */
export function stepSection(step: Step, told: Set<Card>): Section {
  const { where, name, label, shown, words, because, calls, rests, reads, lost } = step;
  return {
    head: `${label === '' ? where : label}: ${shown}`,
    lines: [
      `in ${named(where, name)}${step.filledFrom ? `, filled by the formula of ${step.filledFrom}` : ''}`,
      ...because.map((line) => `because ${line}`),
      `It is ${/^GILL\.[\w.]+$/.test(words) ? `the answer of ${words}` : words}.`,
      ...(step.writtenOut.length > 0
        ? [
            `Written with the spreadsheet's own functions: ${[...new Set(step.writtenOut)].map((id) => `${NAMESPACE}.${id}`).join(', ')}.`,
          ]
        : []),
      ...calls.flatMap((call) => callLines(call, told)),
      ...rests.flatMap((card) => [
        `Rests on ${NAMESPACE}.${card.id}: ${card.summary}.`,
        ...cardLines(card, false, told).map((line) => `  ${line}`),
      ]),
      ...(step.remark === '' ? [] : [`Beside it: ${step.remark}`]),
      ...(reads.length > 0 ? ['From'] : []),
      ...reads.map((read) => `  ${readLine(read)}`),
      ...lost.map((text) => `  ${text.slice(0, 80)} cannot be followed inside this workbook.`),
    ],
  };
}

const percent = (share: number): string =>
  `${share > 0 ? '+' : share < 0 ? '−' : ''}${Math.abs(share * 100).toLocaleString('en-GB', { maximumSignificantDigits: 3 })} %`;

function moverLine({ label, where, name, shown, with: put, gives, change, needed }: Mover): string {
  const moves = change === undefined ? `gives ${gives}` : `gives ${gives} (${percent(change)})`;
  const asks =
    change === undefined
      ? ''
      : needed === undefined
        ? '; alone it cannot make it a tenth more'
        : `; for a tenth more it would have to be ${needed.shown} (${percent(needed.change)})`;
  return `${label === '' ? where : `${label}, ${named(where, name)}`}, now ${shown}: a tenth more (${put}) ${moves}${asks}`;
}

const times = (many: number, what: string): string => `${many} ${what}${many === 1 ? '' : 's'}`;

/** What would change the figure by a tenth. */
export function moversSection(movers: Movers): Section {
  const { strongest, tried, moving, failing, left, not } = movers;
  const head = 'What would change it by 10 %';
  if (not !== undefined) return { head, lines: [`Not computed: ${not}.`] };
  if (tried === 0) return { head, lines: ['It hangs on no typed number.'] };
  return {
    head,
    lines: [
      `Of ${times(tried, 'typed number')} that it can hang on, each made a tenth larger alone and all computed anew, ${moving} ${moving === 1 ? 'changes' : 'change'} it${failing > 0 ? `; with ${failing} more it could not be computed any longer` : ''}.${left > 0 ? ` ${times(left, 'number')} further from it ${left === 1 ? 'was' : 'were'} not tried: each asks for the whole computation. Ask about a cell nearer to them to see what they move.` : ''}`,
      ...strongest.map(moverLine),
    ],
  };
}
