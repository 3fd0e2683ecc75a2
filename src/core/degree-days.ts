import { noAnswer } from './errors';

/**
 * degC day of one day from its highest and lowest air temperature.
 *
 * Without `ceiling`: the mean of the two less the base, never below 0 (McMaster & Wilhelm 1997, method 1).
 * With it: both are first limited to between base and ceiling, so that neither heat nor cold beyond what
 * the crop uses counts. The two differ on cold nights and hot days.
 */
export function degreeDays(
  high: number,
  low: number,
  base: number,
  ceiling: number | undefined,
): number {
  if (low > high) throw noAnswer(`low (${low} °C) must not be above high (${high} °C)`);
  if (ceiling === undefined) return Math.max(0, (high + low) / 2 - base);
  if (ceiling <= base) {
    throw noAnswer(`ceiling (${ceiling} °C) must be above base (${base} °C)`);
  }
  const limited = (t: number): number => Math.min(Math.max(t, base), ceiling);
  return (limited(high) + limited(low)) / 2 - base;
}
