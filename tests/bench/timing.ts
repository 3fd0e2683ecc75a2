/** Milliseconds that one run takes, its result kept so that nothing is optimised away. */
function once(work: () => unknown): number {
  const start = performance.now();
  kept = work();
  return performance.now() - start;
}

let kept: unknown;
/** What the last run gave. */
export const lastResult = (): unknown => kept;

const median = (times: number[]): number =>
  times.sort((a, b) => a - b)[Math.floor(times.length / 2)] as number;

/**
 * Medians, in milliseconds, of works that take turns, each round in another order: what else the machine does
 * meets all of them alike, and the memory that one leaves behind is not always cleared away at the cost of the
 * same other. The first rounds only warm up.
 */
export function medians(
  works: readonly (() => unknown)[],
  { rounds = 9, warmUp = 3 } = {},
): number[] {
  const times: number[][] = works.map(() => []);
  for (let round = 0; round < rounds + warmUp; round++) {
    for (let turn = 0; turn < works.length; turn++) {
      const i = (turn + round) % works.length;
      const time = once(works[i] as () => unknown);
      if (round >= warmUp) times[i]?.push(time);
    }
  }
  return times.map(median);
}

/** The power of the size with which the time grows: slope of least squares through the logarithms. */
export function exponentOfGrowth(points: readonly { size: number; time: number }[]): number {
  const xs = points.map(({ size }) => Math.log(size));
  const ys = points.map(({ time }) => Math.log(time));
  const mean = (all: number[]): number => all.reduce((sum, value) => sum + value, 0) / all.length;
  const [mx, my] = [mean(xs), mean(ys)];
  const above = xs.reduce((sum, x, i) => sum + (x - mx) * ((ys[i] as number) - my), 0);
  return above / xs.reduce((sum, x) => sum + (x - mx) ** 2, 0);
}
