import { GillError, type ErrorCode } from '../core/errors';
import { closeName, nearestName } from '../core/nearest-name';
import { cards, findCard, NAMESPACE } from '../functions/card-list';

const ids = cards.map(({ id }) => id);

/** What the engine alone has, as the nearest error that every spreadsheet knows. */
const translated: Readonly<Record<string, readonly [code: ErrorCode, sentence: string]>> = {
  '#BAD_EXPR': ['#VALUE!', 'the formula cannot be read'],
  '#CYCLE': ['#CALC!', 'the formula refers to its own cell, directly or through others'],
};

/** What the engine says of a formula that it cannot read, as somebody would who looks for the slip. */
const slips: Readonly<Record<string, string>> = {
  'Wrong function call': 'a bracket may be missing or too many',
  'Invalid expression': 'it is made of functions, cells, numbers and texts in quotes',
};

/** The engine's error as ours; its message becomes the sentence. */
export function gillError(value: string, message: string | undefined): GillError {
  const [code, lead] = translated[value] ?? [value as ErrorCode, ''];
  const bare = /^Unknown function: "(?!GILL\.)(.+)"/.exec(message ?? '')?.[1];
  if (bare !== undefined) {
    // Names of ours have a point in them; the rest may be anything that other spreadsheets have.
    const meant = findCard(bare)?.id ?? (bare.includes('.') ? closeName(bare, ids) : undefined);
    const hint = meant === undefined ? '' : `; Gillbed has ${NAMESPACE}.${meant}`;
    return new GillError(code, `there is no function ${bare}${hint}`);
  }
  const unknown = /^Unknown function: "GILL\.(.+)"/.exec(message ?? '')?.[1];
  if (unknown !== undefined) {
    const near = nearestName(unknown, ids);
    return new GillError(code, `there is no GILL.${unknown}; the nearest name is GILL.${near}`);
  }
  const said = message?.toString() ?? '';
  const sentence = [lead, slips[said] ?? said].filter((part) => part !== '').join(': ');
  return new GillError(code, sentence || `the formula gives ${code}`);
}
