import { unitWord } from '../functions/unit-word';
import { type QuantityId, shownIn, toShown, type UnitSystem } from './quantities';

/** Four or five figures that count, never an exponent for everyday sizes. */
export function numberText(value: number): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e9 || size < 1e-4) return value.toExponential(3);
  if (size >= 1000) return value.toLocaleString('en-GB', { maximumFractionDigits: 1 });
  return String(Number(value.toPrecision(4)));
}

/** A metric figure as the grower reads it: "1,240 L" or "328 gal". */
export function figureText(value: number, id: QuantityId, system: UnitSystem): string {
  const { unit } = shownIn(id, system);
  const shown = toShown(value, id, system);
  return `${numberText(Number(shown.toPrecision(3)))}${unit ? ` ${unitWord(unit)}` : ''}`;
}
