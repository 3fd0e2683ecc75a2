import type { CellPlace, SnapshotValue } from '../plan/book-snapshot';
import { cellWords, showsDay, shownValue } from './cell-words';
import type { AskedBook } from './explain-cell';
import { isTypedNumber } from './leaf';
import { tracedCell } from './traced-cells';
import { placeText } from '../plan/book-snapshot';

/** A part of the workbook in which a number can be changed to see what comes out. */
export interface Recalculated {
  valueAt(place: CellPlace): SnapshotValue;
  withNumber<T>(place: CellPlace, was: number, number: number, read: () => T): T;
}

/** A typed number, and what it does to the figure that was asked about. */
export interface Mover {
  readonly place: CellPlace;
  readonly where: string;
  readonly name?: string;
  readonly label: string;
  readonly was: number;
  /** As the cell shows it. */
  readonly shown: string;
  /** What was put in its place: a tenth more. */
  readonly with: string;
  /** What then comes out. */
  readonly gives: string;
  /** Change of the figure, as a share of it; undefined for words. */
  readonly change?: number;
  /** What it would have to be for a figure that is a tenth higher; undefined where no value near does it. */
  readonly needed?: { readonly shown: string; readonly change: number };
}

export interface Movers {
  /** Those that move it most, the strongest first. */
  readonly strongest: readonly Mover[];
  /** Typed numbers that it hangs on, days left out. */
  readonly tried: number;
  /** Those of them that change it at all. */
  readonly moving: number;
  /** Those with which nothing could be computed any more. */
  readonly failing: number;
  /** Those that were left out so that the answer comes soon: the ones furthest from the figure. */
  readonly left: number;
  /** Why nothing was computed. */
  readonly not?: string;
}

const SHARE = 0.1;
const NAMED = 3;
const SAME = 1e-9;
/** Numbers that are tried at most: a register may hold thousands, and each asks for a whole computation. */
export const MAX_TRIED = 40;

const nothing = (not: string): Movers => ({
  strongest: [],
  tried: 0,
  moving: 0,
  failing: 0,
  left: 0,
  not,
});

const isClose = (a: number, b: number): boolean =>
  Math.abs(a - b) <= 1e-6 * Math.max(1e-9, Math.abs(a), Math.abs(b));

/** A tenth more; of what is counted whole the next whole number. */
const more = (value: number): number => Number((value * (1 + SHARE)).toPrecision(12));

/** The value of an input between a tenth and ten times of what it is at which the figure reaches its aim. */
function solve(
  at: (x: number) => number | undefined,
  was: number,
  aim: number,
): number | undefined {
  const miss = (x: number): number | undefined => {
    const y = at(x);
    return y === undefined ? undefined : y - aim;
  };
  let [low, lowMiss] = [was, miss(was)];
  if (lowMiss === undefined) return undefined;
  // Away from where it is, in both directions, until the aim lies between two values.
  for (const factor of [1.1, 1 / 1.1, 1.3, 1 / 1.3, 2, 0.5, 5, 0.2, 10, 0.1]) {
    const x = factor === 1 + SHARE ? more(was) : was * factor;
    const found = miss(x);
    if (found === undefined || Math.sign(found) === Math.sign(lowMiss)) continue;
    let [high, highMiss] = [x, found];
    let answer = high;
    // Where the line between the two ends meets the aim; every third time half way, which bends cannot slow down.
    for (let i = 0; i < 40 && Math.abs(high - low) > 1e-4 * Math.abs(was); i++) {
      answer =
        i % 3 === 2 ? (low + high) / 2 : (low * highMiss - high * lowMiss) / (highMiss - lowMiss);
      const value = miss(answer);
      if (value === undefined) return undefined;
      if (Math.abs(value) <= 1e-6 * Math.abs(aim)) break;
      if (Math.sign(value) === Math.sign(lowMiss)) [low, lowMiss] = [answer, value];
      else [high, highMiss] = [answer, value];
    }
    const reached = at(answer);
    // Across a jump the aim lies between two values and is reached at none.
    return reached !== undefined && Math.abs(reached - aim) <= 0.005 * Math.abs(aim)
      ? answer
      : undefined;
  }
  return undefined;
}

/** Typed numbers that are tried, and how many more there are. */
export interface ToTry {
  readonly tried: readonly CellPlace[];
  readonly left: number;
}

/** The first of these places that hold a typed number, days left out. */
export function numbersToTry(places: readonly CellPlace[], { cells, facts }: AskedBook): ToTry {
  const numbers = places.filter((place) => {
    const cell = tracedCell(place, cells);
    return (
      typeof cell.value === 'number' &&
      cell.value !== 0 &&
      isTypedNumber(cell, cells, facts.typed) &&
      !showsDay(place, cells)
    );
  });
  return {
    tried: numbers.slice(0, MAX_TRIED),
    left: Math.max(0, numbers.length - MAX_TRIED),
  };
}

/** How far the work is. */
export interface Progress {
  readonly done: number;
  readonly of: number;
}

/**
 * What would change a figure by a tenth: every number to try is made a tenth larger, one at a
 * time, and the figure computed anew.
 */
export function* moversOf(
  target: CellPlace,
  { tried, left }: ToTry,
  { cells }: AskedBook,
  book: Recalculated,
): Generator<Progress, Movers> {
  const stored = tracedCell(target, cells).value;
  const base = book.valueAt(target);
  if (typeof base !== typeof stored || (base === '') !== (stored === ''))
    return nothing(
      `computed anew the cell shows ${shownValue(base, cells.formatAt(target))}, not what the file holds (${shownValue(stored, cells.formatAt(target))}): have the workbook recalculated and saved, and ask again`,
    );
  if (typeof base === 'number' && !isClose(base, stored as number))
    return nothing(
      `computed anew the cell shows ${base}, not ${String(stored)} as the file holds: have the workbook recalculated and saved, and ask again`,
    );
  const { unit } = cellWords(target, cells);
  const format = cells.formatAt(target);
  let failing = 0;
  let done = 0;
  const moving: {
    place: CellPlace;
    was: number;
    now: number;
    value: SnapshotValue;
    size: number;
  }[] = [];
  for (const place of tried) {
    yield { done: done++, of: tried.length };
    const was = tracedCell(place, cells).value as number;
    const read = (): SnapshotValue => book.valueAt(target);
    let now = more(was);
    let value = book.withNumber(place, was, now, read);
    const isFailed = (answer: SnapshotValue): boolean =>
      typeof base === 'number' && typeof answer !== 'number';
    if (isFailed(value) && Number.isInteger(was) && !Number.isInteger(now)) {
      now = Math.ceil(now);
      value = book.withNumber(place, was, now, read);
    }
    if (isFailed(value)) {
      failing += 1;
      continue;
    }
    const size =
      typeof base === 'number' && typeof value === 'number'
        ? Math.abs(value - base) / Math.max(1e-300, Math.abs(base))
        : value === base
          ? 0
          : 1;
    if (size > SAME) moving.push({ place, was, now, value, size });
  }
  moving.sort((a, b) => b.size - a.size);
  const strongest: Mover[] = [];
  for (const { place, was, now, value } of moving.slice(0, NAMED)) {
    yield { done, of: tried.length };
    const words = cellWords(place, cells);
    const shape = cells.formatAt(place);
    const shown = (figure: number): string => shownValue(figure, shape, words.unit);
    const name = cells.nameOf(place);
    const known = new Map<number, SnapshotValue>([
      [was, base],
      [now, value],
    ]);
    const at = (x: number): number | undefined => {
      const got = known.get(x) ?? book.withNumber(place, was, x, () => book.valueAt(target));
      known.set(x, got);
      return typeof got === 'number' ? got : undefined;
    };
    const aim = typeof base === 'number' && base !== 0 ? base * (1 + SHARE) : undefined;
    const answer = aim === undefined ? undefined : solve(at, was, aim);
    strongest.push({
      place,
      where: placeText(place),
      ...(name !== undefined && { name }),
      label: words.label,
      was,
      shown: shown(was),
      with: shownValue(now, undefined, /%/.test(shape ?? '') ? '' : words.unit),
      gives: shownValue(value, format, unit),
      ...(typeof base === 'number' &&
        typeof value === 'number' &&
        base !== 0 && { change: (value - base) / Math.abs(base) }),
      ...(answer !== undefined && {
        needed: {
          shown: shownValue(
            Number(answer.toPrecision(4)),
            undefined,
            /%/.test(shape ?? '') ? '' : words.unit,
          ),
          change: answer / was - 1,
        },
      }),
    });
  }
  return { strongest, tried: tried.length, moving: moving.length, failing, left };
}
