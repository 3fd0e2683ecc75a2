/**
 * Student's t for nine means in ten (Student 1908, Biometrika 6:1): standard errors to either side between which the
 * true figure lies in 90 % of all samples.
 */

/** For 1, 2, 3, … degrees of freedom. */
export const NINE_IN_TEN = [
  6.31375151, 2.91998558, 2.35336342, 2.13184678, 2.01504834, 1.94318027, 1.89457858, 1.85954803,
  1.83311292, 1.8124611, 1.79588478, 1.78228749, 1.77093338, 1.76131012, 1.75305033, 1.74588363,
  1.73960667, 1.73406353, 1.72913279, 1.72471822, 1.72074287, 1.71714434, 1.71387148, 1.71088202,
  1.70814069, 1.70561784, 1.70328842, 1.70113091, 1.699127, 1.69726085,
] as const;

/**
 * Beyond them a series in one over the degrees of freedom (Abramowitz & Stegun 1964, 26.7.5), for the normal
 * distribution's 1.64485363: right to seven digits.
 */
export const BEYOND = [1.64485363, 1.52376915, 1.42020298, 0.98300151, 0.43387645] as const;

/** @param freedom whole, from 1 */
export const nineInTen = (freedom: number): number =>
  NINE_IN_TEN[freedom - 1] ??
  BEYOND.reduceRight<number>((sum, higher) => sum / freedom + higher, 0);
