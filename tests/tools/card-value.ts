import { GillError } from '../../src/core/errors';
import { callCard } from '../../src/functions/call';
import { findCard } from '../../src/functions/card-list';
import type { Argument } from '../../src/functions/parameter';

/** What a cell with this function shows: a value, rows of them, or the error with its sentence. */
export function cellOf(id: string, ...args: readonly Argument[]): ReturnType<typeof callCard> {
  const card = findCard(id);
  if (!card) throw new Error(`There is no function ${id}`);
  return callCard(card, args);
}

/** The number in the cell; throws its sentence where there is none. */
export function numberOf(id: string, ...args: readonly Argument[]): number {
  const cell = cellOf(id, ...args);
  if (cell instanceof GillError) throw cell;
  if (typeof cell !== 'number') throw new Error(`${id} gives ${JSON.stringify(cell)}, no number`);
  return cell;
}

/** "#VALUE! sentence" of a cell with an error. */
export function errorOf(id: string, ...args: readonly Argument[]): string {
  const cell = cellOf(id, ...args);
  if (!(cell instanceof GillError))
    throw new Error(`${id} gives ${JSON.stringify(cell)}, no error`);
  return `${cell.code} ${cell.message}`;
}
