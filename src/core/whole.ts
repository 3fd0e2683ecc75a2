/**
 * Whole numbers of things that cannot be cut. Arithmetic leaves traces in the last digits
 * (640 fish come out as 640.0000001): what is within half a millionth of a whole number is that number.
 */
const withoutTraces = (amount: number): number => Math.round(amount * 1e6) / 1e6;

/** The most whole pieces that fit in `amount`. */
export const wholeDown = (amount: number): number => Math.floor(withoutTraces(amount));

/** The fewest whole pieces that make up `amount`. */
export const wholeUp = (amount: number): number => Math.ceil(withoutTraces(amount));
