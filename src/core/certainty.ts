/** How sure a count or a mean is: intervals and sample sizes. Shares from 0 to 1. */
import { roundUpToWhole } from './whole';

/** Coefficients of PPND7, from the highest power down (Wichura 1988, AS 241). */
export const nearMiddle = {
  above: [59.10937472, 159.29113202, 50.434271938, 3.3871327179],
  below: [67.1875636, 78.757757664, 17.895169469, 1],
} as const;
export const farOut = {
  above: [0.17023821103, 1.3067284816, 2.75681539, 1.4234372777],
  below: [0.12021132975, 0.7370016425, 1],
} as const;
/** Up to this certainty the first holds. */
export const MIDDLE = 0.85;

const polynomial = (powers: readonly number[], x: number): number =>
  powers.reduce((sum, coefficient) => sum * x + coefficient, 0);

/**
 * Standard deviations to either side of the mean between which a share `sure` of a normal distribution lies:
 * 1.959964 for 0.95. Wichura 1988, Applied Statistics 37:477, PPND7, right to seven digits.
 */
export function deviationsFor(sure: number): number {
  if (sure <= MIDDLE) {
    const r = MIDDLE ** 2 / 4 - (sure / 2) ** 2;
    return ((sure / 2) * polynomial(nearMiddle.above, r)) / polynomial(nearMiddle.below, r);
  }
  const r = Math.sqrt(-Math.log((1 - sure) / 2)) - 1.6;
  return polynomial(farOut.above, r) / polynomial(farOut.below, r);
}

export type Interval = readonly [lowest: number, highest: number];

/** Between which the true share lies when `hits` of `tries` succeeded: score interval, Wilson 1927. */
export function wilsonInterval(hits: number, tries: number, sure: number): Interval {
  const z = deviationsFor(sure);
  const middle = 2 * hits + z ** 2;
  const half = z * Math.sqrt(z ** 2 + 4 * hits * (1 - hits / tries));
  const whole = 2 * (tries + z ** 2);
  return [Math.max(0, (middle - half) / whole), Math.min(1, (middle + half) / whole)];
}

/** Fish to weigh so that the mean is right within a share of it; `stock` fish at most, Infinity where unknown. */
export function fishToWeigh(within: number, spread: number, sure: number, stock: number): number {
  const many = ((deviationsFor(sure) * spread) / within) ** 2;
  return roundUpToWhole(many / (1 + many / stock));
}
