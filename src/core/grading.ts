/**
 * Fish of a group by size, from their mean weight and the coefficient of variation of their weights (standard
 * deviation over mean), taken as normally distributed. Coefficients found: 0.07 in graded tilapia at the
 * start, 0.23 in yellow perch, 0.29 to 0.42 in African catfish; the usual textbook example has 0.25 (0.5 kg
 * on 2 kg). Above 0.5 so many fish would have to weigh less than nothing that the distribution cannot be meant.
 */
import { noAnswer, wrongValue } from './errors';
import { weightLeft } from './groups';
import { roundDownToWhole } from './whole';
import { normalBelow, normalDensity, normalQuantile } from './normal';

export const MAX_SPREAD = 0.5;

/** A part of a group that is graded out, and what stays. */
export interface Grading {
  /** Whole fish graded out. */
  readonly out: number;
  /** Their mean weight, g; 0 where there are none. */
  readonly outWeight: number;
  readonly left: number;
  /** Mean weight of those that stay, g: (N w - n w_out)/(N - n); 0 where none stay. */
  readonly leftWeight: number;
}

interface Sizes {
  readonly fish: number;
  /** Mean, g. */
  readonly weight: number;
  /** Coefficient of variation, 0 to 0.5. */
  readonly spread: number;
}

function checked({ fish, weight, spread }: Sizes): void {
  if (!(Number.isInteger(fish) && fish >= 0)) throw wrongValue(`fish must be whole; got ${fish}`);
  if (!(weight > 0)) throw wrongValue(`weight must be above 0; got ${weight}`);
  if (!(spread >= 0 && spread <= MAX_SPREAD)) {
    throw wrongValue(`spread must be a share from 0 to ${MAX_SPREAD}; got ${spread}`);
  }
}

/** Share of the fish that weigh more than `size` g. */
export function shareAbove({ weight, spread }: Omit<Sizes, 'fish'>, size: number): number {
  if (spread === 0) return weight > size ? 1 : 0;
  return normalBelow((weight - size) / (spread * weight));
}

/** Fish above a size, whole. */
export function fishAbove(sizes: Sizes, size: number): number {
  checked(sizes);
  return roundDownToWhole(sizes.fish * shareAbove(sizes, size) + 0.5);
}

/** Mean weight of the heaviest `share` of the fish, g: mean + deviation * density(cut)/share. */
export function weightOfTop({ weight, spread }: Omit<Sizes, 'fish'>, share: number): number {
  if (share >= 1 || spread === 0) return weight;
  return weight * (1 + (spread * normalDensity(normalQuantile(share))) / share);
}

function graded(sizes: Sizes, out: number): Grading {
  const { fish, weight } = sizes;
  const outWeight = out === 0 ? 0 : weightOfTop(sizes, out / fish);
  const left = fish - out;
  const leftWeight = left === 0 ? 0 : weightLeft(fish, weight, out, outWeight);
  if (left > 0 && !(leftWeight > 0)) {
    throw noAnswer(
      `with a spread of ${sizes.spread} the smallest ${left} of ${fish} fish cannot be told by it: grade at a larger size`,
    );
  }
  return { out, outWeight, left, leftWeight };
}

/** The heaviest `share` of the fish are graded out, such as a third. */
export function topShare(sizes: Sizes, share: number): Grading {
  checked(sizes);
  if (!(share >= 0 && share <= 1)) throw wrongValue(`share must be from 0 to 1; got ${share}`);
  return graded(sizes, Math.round(sizes.fish * share));
}

/** All fish above a size are graded out. */
export const allAbove = (sizes: Sizes, size: number): Grading =>
  graded(sizes, fishAbove(sizes, size));
