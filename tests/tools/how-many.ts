/** `npm test` takes a few of what `npm run test:long` and `npm run soak` take in full: repetitions that would show the same mistake. */
const LONG = process.env['TESTS'] === 'long' || process.env['SOAK'] === 'long';

export const howMany = (usually: number, inFull: number): number => (LONG ? inFull : usually);

/** The first of some cases, or all of them. */
export const few = <T>(usually: number, cases: readonly T[]): readonly T[] =>
  LONG ? cases : cases.slice(0, usually);
