import { howMany } from '../tools/how-many';

/** How long the soak is: by `npm run soak` long, otherwise short. */
export const LONG = process.env['SOAK'] === 'long';
export const EDITS = LONG ? 10_000 : howMany(15, 40);
/** How often the edited workbook is looked over. */
export const LOOKS = LONG ? 10 : 1;
export const BUILDS = LONG ? 1_000 : 40;
/** Tanks and beds of a large farm: in the long form the most that are taken. */
export const LARGE_FARM: readonly [number, number] = LONG ? [200, 1000] : [40, 200];
/** Of the builds, those of the whole demo plan. */
export const WHOLE_BUILDS = LONG ? 100 : 2;
