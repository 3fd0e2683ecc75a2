import { cautions } from '../functions/cautions';
import type { PlanName } from '../plan/names';

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
  // Of Spacings and What to buy, before they stood on Money.
  'What comes in, what does it cost, and at which price does it pay?',
  'Two spacings',
  'Which spacing of the same crop brings more from the same bed?',
  'Spacings',
  'The crop',
  'Wide spacing',
  'Close spacing',
  'Power',
  'What to buy',
  'What runs on power, what must run when the mains fail, and what must be bought?',
  'The fish to sell of the Stock plan.',
  // Of Money, before it counted the year, with what the rotation eats.
  'What the Tanks sheet feeds a day now.',
  'Crops, if the market takes what was agreed',
  'Fish, as the Stock plan wants it',
  'Left after all costs',
  'Costs as now',
  'Income as the Harvest log has it; a month without entries has no balance. The last month is not over yet.',
  'Cost a year',
  'By these hours. What counts in the balance is typed among the costs a month.',
  // Of Season, before its first column was narrower.
  'What stands in each bed',
  'Hours, where they are typed',
  // Of Start, before a plan was renewed in its own sheets.
  'A rebuilt plan goes into new sheets. Nothing that you typed here is ever overwritten; copy over what you want to keep.',
  // Of Own figures, before their reason stood in the note of the column.
  'shown, not chosen: income is reckoned with one price through the year, that of all its sales',
  'shown, not chosen: the plan follows the seasons by the warmth of the months, and would count them twice',
  // Of Stock weeks and Batch, before they stood on Stock plan.
  'Stock weeks',
  'Stock, week by week',
  'What would stand in each tank if nothing were planned? (metric units)',
  'What stands in each tank in each week of the year ahead? (metric units; nothing to type here)',
  'Batch',
  'One batch',
  'What becomes of a batch that is stocked today, week by week?',
  'Fish stocked, from the Stock plan',
  'Beds as sown: what the rows of the Plantings have in the beds, done and planned, until it is cleared as expected (Season sheet). Feed given: by the planned rows of the Fish log (Tank year); a tank whose rows are done goes on by the turns of Stock weeks, sold at its selling weight and stocked anew, and so does the farm where no row is planned. All beds full: every bed with the crop it has now, as long as you follow on.',
  // Of Doses, before it stood on Balance.
  'Doses',
  'Water today, doses and nutrients',
  'Is the water fit for fish and plants, what has to be added, and what do the crops lack?',
  'Do feed, beds, filter and sump fit each other, and what has to change?',
  // Of Pumps, before they stood on Plant room.
  [cautions.electricity, cautions.sulphide].join('\n'),
  'Pumps',
  'How much water must run through each tank, and what does the pump draw?',
  'How long do the fish live when something stops, and what do air, water and heat ask for?',
  'Flow that the Pumps sheet asks for',
  'As on the Pumps sheet. Beds may stand still for hours; fish that live by the flow cannot.',
  'Type the bore on the Pumps sheet.',
  'As the Pumps sheet counts them for each tank.',
]);

/** Sheets on which nothing is typed, and whose lines differ from version to version. */
export const untypedSheets: ReadonlySet<string> = new Set(['Sources']);

/**
 * Sheets of earlier plans that stand on another sheet today, each by names that it had: whoever puts a sheet onto
 * another adds it here, so that a renewal takes its cells along. The names say where they stand now.
 */
export const mergedSheets: readonly (readonly PlanName[])[] = [
  ['Space_crop', 'Space_row_a', 'Space_verdict'],
  ['Plant_energy', 'Plant_outage', 'Plant_price_all'],
  ['Weeks_date', 'Weeks_weights', 'Weeks_fish'],
  ['Batch_weeks'],
  ['Pump_turns', 'Pumps_bore', 'Pumps_verdict'],
  ['Last_tan', 'Most_nitrite', 'Dose_iron'],
];
