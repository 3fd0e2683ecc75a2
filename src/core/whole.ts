/**
 * Whole numbers of things that cannot be cut. Arithmetic leaves traces in the last digits
 * (640 fish come out as 640.0000001): what is within half a millionth of a whole number is that number.
 */
const withoutRoundingNoise = (amount: number): number => Math.round(amount * 1e6) / 1e6;

/** The most whole pieces that fit in `amount`. */
export const roundDownToWhole = (amount: number): number =>
  Math.floor(withoutRoundingNoise(amount));

/** The fewest whole pieces that make up `amount`. */
export const roundUpToWhole = (amount: number): number => Math.ceil(withoutRoundingNoise(amount));
