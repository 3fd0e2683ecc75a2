import type { Argument, Cell } from '../functions/parameter';
import { callCard } from '../functions/call';
import { findCard } from '../functions/list';
import { serialFromIsoText } from '../core/serial-date';
import { type Shown, type Step } from './guide';

/** A block of results, row by row. */
export type Block = readonly (readonly (number | string)[])[];

/** The figures of a guide's sheet as they stand after a step, for its picture. */
export interface SheetFigures {
  /** What a cell shows, as a number; a day as its serial, a share as 0 to 1. */
  readonly number: (address: string) => number;
  /** What a cell shows. */
  readonly text: (address: string) => string;
  /** Everything that a cell's GILL formula fills, with the rows that the guide leaves out. */
  readonly block: (address: string) => Block;
  /** A cell's GILL formula with some of its arguments changed, counted from 0. */
  readonly changed: (address: string, args: Readonly<Record<number, number | string>>) => number;
}

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
