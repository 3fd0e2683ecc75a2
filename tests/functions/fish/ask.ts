import { callCard } from '../../../src/functions/call';
import type { Outcome } from '../../../src/functions/card';
import { findCard } from '../../../src/functions/card-list';
import type { Argument } from '../../../src/functions/parameter';

/** What a cell with this function would hold: a value, an error, or the rows of a spill. */
export function ask(id: string, ...args: Argument[]): Outcome | Outcome[][] {
  const card = findCard(id);
  if (!card) throw new Error(`no function is called ${id}`);
  return callCard(card, args);
}

/** The same where a number is expected; anything else fails the test with what came instead. */
export function askNumber(id: string, ...args: Argument[]): number {
  const answer = ask(id, ...args);
  if (typeof answer !== 'number') throw new Error(`${id} gave ${String(answer)}`);
  return answer;
}

/** The rows of a spill. */
export function askRows(id: string, ...args: Argument[]): Outcome[][] {
  const answer = ask(id, ...args);
  if (!Array.isArray(answer)) throw new Error(`${id} gave ${String(answer)}`);
  return answer;
}

/** The values of STOCK.ROTATION under short names. */
export function askRotation(...args: Argument[]) {
  const values = askRows('STOCK.ROTATION', ...args).map((row) => row[1] as number);
  const [days, weeks, stocked, harvested, batch, litres, standing, mean, peak, fingerlings] =
    values as [number, number, number, number, number, number, number, number, number, number];
  return { days, weeks, stocked, harvested, batch, litres, standing, mean, peak, fingerlings };
}
