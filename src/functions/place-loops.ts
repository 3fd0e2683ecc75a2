import type { Outcome } from './card';

type Six<T> = readonly [T, T, T, T, T, T];
export type Compute = (...values: unknown[]) => number | string;

/**
 * A ranged call in the making: the answers are filled in at every place where `quick` is 1, each as the
 * row of one cell that a spreadsheet takes back: making those rows afterwards would cost another pass.
 */
export interface Work {
  readonly compute: Compute;
  readonly values: Six<ArrayLike<unknown>>;
  readonly masks: Six<number>;
  readonly quick: Uint8Array;
  readonly answers: Outcome[][];
}
type Loop = (work: Work, at: { place: number }) => void;

/**
 * Loops from a place on, for one argument, for two and so on. Each number of arguments has a loop of its own:
 * only so can the engine build the arithmetic into the loop; otherwise handing over the arguments costs more
 * than the arithmetic of most cards.
 */
const loops: readonly Loop[] = [
  ({ compute, values: [a], masks: [ma], quick, answers }, at) => {
    for (let i = at.place; i < quick.length; i++) {
      at.place = i;
      if (quick[i] === 1) answers[i] = [compute(a[i & ma])];
    }
  },
  ({ compute, values: [a, b], masks: [ma, mb], quick, answers }, at) => {
    for (let i = at.place; i < quick.length; i++) {
      at.place = i;
      if (quick[i] === 1) answers[i] = [compute(a[i & ma], b[i & mb])];
    }
  },
  ({ compute, values: [a, b, c], masks: [ma, mb, mc], quick, answers }, at) => {
    for (let i = at.place; i < quick.length; i++) {
      at.place = i;
      if (quick[i] === 1) answers[i] = [compute(a[i & ma], b[i & mb], c[i & mc])];
    }
  },
  ({ compute, values: [a, b, c, d], masks: [ma, mb, mc, md], quick, answers }, at) => {
    for (let i = at.place; i < quick.length; i++) {
      at.place = i;
      if (quick[i] === 1) answers[i] = [compute(a[i & ma], b[i & mb], c[i & mc], d[i & md])];
    }
  },
  ({ compute, values: [a, b, c, d, e], masks: [ma, mb, mc, md, me], quick, answers }, at) => {
    for (let i = at.place; i < quick.length; i++) {
      at.place = i;
      if (quick[i] === 1)
        answers[i] = [compute(a[i & ma], b[i & mb], c[i & mc], d[i & md], e[i & me])];
    }
  },
  (
    { compute, values: [a, b, c, d, e, f], masks: [ma, mb, mc, md, me, mf], quick, answers },
    at,
  ) => {
    for (let i = at.place; i < quick.length; i++) {
      at.place = i;
      if (quick[i] === 1)
        answers[i] = [compute(a[i & ma], b[i & mb], c[i & mc], d[i & md], e[i & me], f[i & mf])];
    }
  },
];
/** The slow one for more arguments, which no card has so far. */
const anyLoop: Loop = ({ compute, values, masks, quick, answers }, at) => {
  for (let i = at.place; i < quick.length; i++) {
    at.place = i;
    if (quick[i] === 1)
      answers[i] = [compute(...values.map((value, k) => value[i & (masks[k] as number)]))];
  }
};

export const loopFor = ({ values }: Work): Loop => loops[values.length - 1] ?? anyLoop;
