/** How long the soak is: by `npm run soak` long, otherwise short. */
const long = process.env['SOAK'] === 'long';
export const EDITS = long ? 10_000 : 300;
export const BUILDS = long ? 1_000 : 100;
