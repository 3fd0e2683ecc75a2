import type { Argument, Cell } from '../functions/parameter';
import { callCard } from '../functions/call';
import { findCard } from '../functions/card-list';
import { serialFromIsoText } from '../core/serial-date';
import type { Shown, Step } from './guide';
import type { Block, SheetFigures } from './picture';

const asNumber = (text: string): number =>
  serialFromIsoText(text) ?? (text.endsWith(' %') ? Number(text.slice(0, -2)) / 100 : Number(text));

/** Function and arguments of a formula that is one GILL call; strings may hold no comma. */
function callOf(formula: string): { id: string; args: string[] } {
  const match = /^=GILL\.([A-Z0-9.]+)\(([^()]*)\)$/.exec(formula);
  if (!match) throw new Error(`A picture can only follow a single GILL call; got ${formula}`);
  return { id: match[1] ?? '', args: (match[2] ?? '').split(',') };
}

export function sheetFigures(steps: readonly Step[], shown: Shown): SheetFigures {
  const text = (address: string): string => {
    const cell = shown.get(address);
    if (!cell) throw new Error(`A picture speaks of ${address}, which shows nothing by then`);
    return cell.text;
  };
  const number = (address: string): number => {
    const value = asNumber(text(address));
    if (!Number.isFinite(value)) throw new Error(`${address} shows no number: ${text(address)}`);
    return value;
  };
  const formulaAt = (address: string): string => {
    const cells = steps.flatMap(({ cells = [] }) => cells).filter(({ at }) => at === address);
    const formula = cells.filter((cell) => cell.formula !== undefined).at(-1)?.formula;
    if (formula === undefined) throw new Error(`${address} holds no formula`);
    return formula;
  };
  const argument = (source: string): Cell => {
    if (source === '') return undefined;
    if (/^".*"$/.test(source)) return source.slice(1, -1);
    if (/^[A-Z]+\d+$/.test(source)) {
      const value = asNumber(text(source));
      return Number.isFinite(value) ? value : text(source);
    }
    return Number(source);
  };
  const called = (
    address: string,
    changes: Readonly<Record<number, number | string>> = {},
  ): Block => {
    const { id, args } = callOf(formulaAt(address));
    const card = findCard(id);
    if (!card) throw new Error(`There is no GILL.${id}`);
    const given: Argument[] = args.map((source, i) => changes[i] ?? argument(source));
    const outcome = callCard(card, given);
    const rows = Array.isArray(outcome) ? outcome : [[outcome]];
    return rows.map((row) =>
      row.map((value) => {
        if (value instanceof Error || typeof value === 'object') throw value;
        return value;
      }),
    );
  };
  return {
    number,
    text,
    block: (address) => called(address),
    changed: (address, args) => Number(called(address, args)[0]?.[0]),
  };
}
