/** The normal distribution. */

/**
 * Area below `z` standard deviations. Series and continued fraction of the incomplete gamma function
 * (Abramowitz & Stegun 1964, 26.2.10 and 26.2.14), right to the last digits.
 */
export function normalBelow(z: number): number {
  if (Number.isNaN(z)) return NaN;
  const x = Math.abs(z);
  let tail: number;
  if (x > 38) tail = 0;
  else if (x > 3) {
    // Q(x) = density / (x + 1/(x + 2/(x + 3/(x + ...))))
    let fraction = x;
    for (let term = 120; term >= 1; term--) fraction = x + term / fraction;
    tail = normalDensity(x) / fraction;
  } else {
    // P(x) - 1/2 = density * (x + x^3/3 + x^5/(3*5) + ...)
    let sum = x;
    let part = x;
    for (let odd = 3; part > 1e-18; odd += 2) {
      part *= (x * x) / odd;
      sum += part;
    }
    tail = 0.5 - normalDensity(x) * sum;
  }
  return z > 0 ? 1 - tail : tail;
}

/** Height of the curve at `z` standard deviations. */
export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** Standard deviations below which a share lies, by halving: `share` above 0 and below 1. */
export function normalQuantile(share: number): number {
  let low = -40;
  let high = 40;
  for (let step = 0; step < 200 && high - low > 1e-14; step++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
