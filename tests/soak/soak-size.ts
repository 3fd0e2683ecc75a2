/** How long the soak is: short with the other tests, long by `npm run soak`. */
const long = process.env['SOAK'] === 'long';
export const EDITS = long ? 10_000 : 300;
export const BUILDS = long ? 1_000 : 100;
