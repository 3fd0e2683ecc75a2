import { GillError } from '../core/errors';
import { callCard } from '../functions/call';
import { findCard } from '../functions/card-list';
import type { Argument } from '../functions/parameter';

/** Asks the functions of the catalogue, so that a proposal says what a cell would say. */

function cellOf(id: string, args: readonly Argument[]): unknown {
  const card = findCard(id);
  if (!card) throw new Error(`there is no function ${id}`);
  const cell = callCard(card, args);
  if (cell instanceof GillError) throw cell;
  return cell;
}

/** The number that a function gives. Throws its GillError where it has none. */
export function ask(id: string, ...args: readonly Argument[]): number {
  const cell = cellOf(id, args);
  if (typeof cell !== 'number') throw new Error(`GILL.${id} gives no number here`);
  return cell;
}

/** The figures of a block of two columns, by the words of the first. */
export function askFigures(id: string, ...args: readonly Argument[]): (label: string) => number {
  const rows = new Map(
    (cellOf(id, args) as readonly (readonly [string, number])[]).map(
      ([label, figure]) => [label, figure] as const,
    ),
  );
  return (label) => {
    const figure = rows.get(label);
    if (figure === undefined) throw new Error(`GILL.${id} has no row "${label}"`);
    return figure;
  };
}
