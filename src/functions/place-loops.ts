import type { Outcome } from './card';

type Seven<T> = readonly [T, T, T, T, T, T, T];
export type Compute = (...values: unknown[]) => number | string;

/**
 * A ranged call in the making: the answers are filled in at every place where `quick` is 1, each as the
 * row of one cell that a spreadsheet takes back: making those rows afterwards would cost another pass.
 */
export interface Work {
  readonly compute: Compute;
  readonly values: Seven<ArrayLike<unknown>>;
  readonly masks: Seven<number>;
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
  (
    { compute, values: [a, b, c, d, e, f, g], masks: [ma, mb, mc, md, me, mf, mg], quick, answers },
    at,
  ) => {
    for (let i = at.place; i < quick.length; i++) {
      at.place = i;
      if (quick[i] === 1)
        answers[i] = [
          compute(a[i & ma], b[i & mb], c[i & mc], d[i & md], e[i & me], f[i & mf], g[i & mg]),
        ];
    }
  },
];
/** The slower one for more arguments. */
const anyLoop: Loop = ({ compute, values, masks, quick, answers }, at) => {
  const row: unknown[] = [];
  for (let i = at.place; i < quick.length; i++) {
    at.place = i;
    if (quick[i] !== 1) continue;
    for (let k = 0; k < values.length; k++) {
      row[k] = (values[k] as ArrayLike<unknown>)[i & (masks[k] as number)];
    }
    answers[i] = [compute(...row)];
  }
};

export const loopFor = ({ values }: Work): Loop => loops[values.length - 1] ?? anyLoop;
