// The file itself: the package's entry has a terminal read six hundred files for it.
// @ts-expect-error It has no types.
import { createUnitClass } from '../../node_modules/mathjs/lib/esm/type/unit/Unit.js';

interface UnitOfNumber {
  toNumber(unit: string): number;
}
type UnitClass = new (value: number, unit: string) => UnitOfNumber;

/** Stands for big and complex numbers: with fractions most of the size of mathjs, and none comes here. */
class NoSuchNumber {}

/** The fractions that mathjs has in its table of units (5/9 for degF), of which it takes the number. */
class Quotient {
  readonly isFraction = true;
  constructor(
    private readonly above: number,
    private readonly below: number,
  ) {}
  /** With one rounding: zero degrees on the scales of temperature hang on it. */
  times(factor: number): number {
    return (this.above * factor) / this.below;
  }
  valueOf(): number {
    return this.above / this.below;
  }
}

const withNumbersAlone = {
  config: { predictable: false, number: 'number' },
  addScalar: (a: number, b: number) => a + b,
  subtractScalar: (a: number, b: number) => a - b,
  multiplyScalar: (a: number | Quotient, b: number) => (a instanceof Quotient ? a.times(b) : a * b),
  divideScalar: (a: number, b: number) => a / b,
  pow: (a: number, b: number) => a ** b,
  abs: Math.abs,
  fix: Math.trunc,
  round: Math.round,
  equal: (a: number, b: number) => a === b,
  isNumeric: (value: unknown) => typeof value === 'number',
  format: String,
  number: Number,
  Complex: NoSuchNumber,
  BigNumber: NoSuchNumber,
  Fraction: Quotient,
};

let unitClass: UnitClass | undefined;

/** Made when a text first carries a unit. */
const units = (): UnitClass =>
  (unitClass ??= (createUnitClass as (math: object) => UnitClass)(withNumbersAlone));

/** A number with a unit that mathjs knows in another unit; throws where the two measure different things. */
export const converted = (value: number, from: string, to: string): number =>
  new (units())(value, from).toNumber(to);
