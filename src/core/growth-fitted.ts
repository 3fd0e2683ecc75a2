/** The growth coefficient of a farm's own fish, from several weighings. */
import { noAnswer, wrongValue } from './errors';

export interface Weighing {
  /** Days since any fixed day. */
  readonly day: number;
  /** Mean weight, g. */
  readonly weight: number;
  /** Mean of the temperature that counts for growth since the weighing before, degC; of no use in the first. */
  readonly temperature: number;
}

export interface FittedGrowth {
  /** Thermal-unit growth coefficient, x1000 scale. */
  readonly coefficient: number;
  /** Its standard error; undefined for two weighings, which lie on any line. */
  readonly error: number | undefined;
  /** Of each weighing: degree-days since the first, and the weight on the line, g. */
  readonly line: readonly { readonly warmth: number; readonly weight: number }[];
}

/**
 * Least squares of the cube root of the weight on the degree-days since the first weighing: a thousand times its
 * slope. Throws where fewer than two weighings in order are given, or no warmth lies between them.
 */
export function fittedGrowth(weighings: readonly Weighing[]): FittedGrowth {
  const count = weighings.length;
  if (count < 2) throw wrongValue(`a coefficient needs two weighings or more; got ${count}`);
  let warmth = 0;
  const points = weighings.map(({ day, weight, temperature }, i) => {
    const before = weighings[i - 1];
    if (before !== undefined) {
      if (day <= before.day) {
        throw wrongValue(`weighings must follow each other; number ${i + 1} does not`);
      }
      warmth += temperature * (day - before.day);
    }
    return { x: warmth, y: Math.cbrt(weight) };
  });
  const mean = (of: (point: { x: number; y: number }) => number): number =>
    points.reduce((sum, point) => sum + of(point), 0) / count;
  const [x, y] = [mean((point) => point.x), mean((point) => point.y)];
  const width = mean((point) => (point.x - x) ** 2);
  if (width === 0) throw noAnswer('no warmth lies between the weighings');
  const slope = mean((point) => (point.x - x) * (point.y - y)) / width;
  const left = mean((point) => (point.y - y - slope * (point.x - x)) ** 2);
  return {
    coefficient: 1000 * slope,
    error: count > 2 ? 1000 * Math.sqrt(left / width / (count - 2)) : undefined,
    line: points.map((point) => ({
      warmth: point.x,
      weight: (y + slope * (point.x - x)) ** 3,
    })),
  };
}
