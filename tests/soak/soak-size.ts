/** How long the soak is: by `npm run soak` long, otherwise short. */
export const LONG = process.env['SOAK'] === 'long';
export const EDITS = LONG ? 10_000 : 200;
/** How often the edited workbook is looked over. */
export const LOOKS = LONG ? 10 : 2;
export const BUILDS = LONG ? 1_000 : 100;
/** Of the builds, those of the whole demo plan. */
export const WHOLE_BUILDS = LONG ? 100 : 2;
