import { type QuantityId, shownIn, toMetric, toShown, type UnitSystem } from '../plan/quantities';

/** Figures of a proposal in words, and rounded as a shop sells them. */

const WORDS = new Map<QuantityId, string>([
  ['count', 'fish'],
  ['plants', 'plants'],
]);

/** "1,240 L", "328 gal": three digits. */
export function inWords(value: number, id: QuantityId, system: UnitSystem): string {
  const unit = WORDS.get(id) ?? shownIn(id, system).unit;
  const shown = Number(toShown(value, id, system).toPrecision(3));
  const text = shown.toLocaleString('en-GB', { maximumFractionDigits: 3 });
  return unit === '' ? text : `${text} ${unit}`;
}

/** A count with its noun. */
export const counted = (count: number, noun: string): string =>
  `${count.toLocaleString('en-GB')} ${noun}${count === 1 ? '' : 's'}`;

/** A share as whole percents. */
export const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** Up to two digits in the units that are shown; metric again. */
export function roundedUpShown(value: number, id: QuantityId, system: UnitSystem): number {
  if (value <= 0) return 0;
  const shown = toShown(value, id, system);
  const step = 10 ** (Math.floor(Math.log10(shown)) - 1);
  return toMetric(Number((Math.ceil(shown / step - 1e-9) * step).toPrecision(12)), id, system);
}

/** Beds are cut to a tenth of a metre, or to half a foot. */
export const LENGTH_STEP = 0.1;
export const LENGTH_STEP_US = 0.5;

/** Up to such a step. */
export function lengthUp(metres: number, system: UnitSystem): number {
  const step = system === 'US' ? LENGTH_STEP_US : LENGTH_STEP;
  const shown = toShown(metres, 'length', system);
  const pieces = Math.max(1, Math.ceil(shown / step - 1e-9));
  return toMetric(Number((pieces * step).toPrecision(12)), 'length', system);
}
