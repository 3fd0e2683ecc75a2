/**
 * Words that earlier versions wrote onto sheets of the plan and today's does not: whoever takes a text away from a sheet,
 * or puts it otherwise, adds it here, so that a renewal takes it for the plan's and not for somebody's own. A test
 * holds it for the workbooks of version 0.1.0.
 */
export const earlierWords: ReadonlySet<string> = new Set([
  'Water today and doses',
  'Is the water fit for fish and plants, and what has to be added?',
  'Losses if not given',
  // Of Start, before its list went by groups.
  'The sheets',
  // Of the Stock weeks, before the Tank year alone said what the fish bring.
  'Biomass, kg',
  'Feed, g/day',
  'Place in the feed table',
  'Harvests so far',
  'Fullest tank, share of limit',
  'Sold, kg',
  'Fish stocked',
  'Share of the limit by 1 kg',
]);

/** Sheets on which nothing is typed, and whose lines differ from version to version. */
export const untypedSheets: ReadonlySet<string> = new Set(['Sources']);
