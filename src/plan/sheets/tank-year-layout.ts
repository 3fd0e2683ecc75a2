import type { PlanContext } from '../context';
import type { DayParts } from '../day-parts';
import { call, type Formula, part } from '../formula-parts';
import { named, nth } from '../names';
import { columnRef, fixedRef } from '../references';
import { area, type SheetBuilder } from '../sheet-builder';
import type { FormatId } from '../workbook-model';
import { WEEK_ROWS } from './stock-weeks-block';

export const TANK_YEAR = 'Tank year';
/** The row of headings, and the first below it. */
export const HEAD_ROW = 5;
export const FIRST_ROW = HEAD_ROW + 1;
/** Week, date, sold, stocked, feed, fullest; then the tanks. */
export const FIRST_TANK = 6;
/**
 * What holds of a tank at the end of a week: it stands as its rows say; it stands as its turns say, its rows being
 * done; it is empty and free to be stocked; its fish are sold in the week that begins.
 */
export const TURNS = { byRows: 0, stands: 1, empty: 2, sold: 3 } as const;

/** What is worked out of each planned row. */
export const columns = [
  'no',
  'order',
  'row',
  'day',
  'years',
  'month',
  'days',
  'leap',
  'x',
  'y',
  'kind',
  'fish',
  'weight',
  'qx',
  'qy',
  'fishX',
  'gramsX',
  'grownX',
  'fishY',
  'gramsY',
  'grownY',
  'out',
  'outGrams',
  'marksX',
  'marksY',
  'fishThenX',
  'fishThenY',
  'rootThenX',
  'rootThenY',
  'soldKg',
  'stocked',
] as const;
export type ColumnId = (typeof columns)[number];

/** What the turns of each tank need, from Stock plan; below them the part of its limit that a gram is. */
export const parameterIds = [
  'line',
  'harvest',
  'head',
  'first',
  'handling_low',
  'handling_high',
] as const;
export type ParameterId = (typeof parameterIds)[number];

/** Rows to come that are followed. */
const linesFor = (tanks: number): number => Math.min(240, Math.max(60, 8 * tanks));

export const cubeRoot = (weight: Formula): Formula => weight.power(part(1).over(3));

/** Columns of what is worked out beside the weeks, and rows of what is worked out below them. */
function places(tanks: number) {
  const rows = FIRST_TANK + tanks + 1;
  const day = rows + columns.length + 1;
  const block = (index: number): number => day + 11 + index * (tanks + 1);
  const held = block(7);
  const parameters = FIRST_ROW + WEEK_ROWS + 2;
  const lastMark = parameters + parameterIds.length + 1;
  return {
    /** The planned rows. */
    rows,
    /** Of each week the parts of its day, then sums of all tanks. */
    day,
    fed: day + 4,
    standing: day + 5,
    sold: day + 6,
    limit: day + 7,
    water: day + 8,
    done: day + 9,
    /** Of each week and tank its last row, then what it holds. */
    lastRow: block(0),
    fish: block(1),
    grams: block(2),
    feedStep: block(3),
    feed: block(4),
    grown: block(5),
    turn: block(6),
    /** One line a tank: what it holds on the day of the plan. */
    held,
    life: held + 6,
    parameters,
    /** Of each tank its last planned row, and the day from which its turns hold. */
    lastMark,
    outcomes: lastMark + 3,
    /** Where the rows to come are listed. */
    list: FIRST_ROW + WEEK_ROWS + 1,
  };
}

/** What all parts of the sheet share: where each stands, and how they ask each other. */
export function tankYearOn(sheet: SheetBuilder, ctx: PlanContext, tanks: number) {
  const lines = linesFor(tanks);
  const place = places(tanks);
  const today = named('Farm_date');
  const at = (id: ColumnId): number => place.rows + columns.indexOf(id);
  return {
    ctx,
    sheet,
    tanks,
    lines,
    place,
    today,
    /** The rows of the Fish log that are to come, as keys in order of time. */
    keys: named('Fishlog_coming'),
    at,
    put(row: number, column: number, formula: Formula, format: FormatId = 'general'): void {
      sheet.put(row, column, { formula, look: 'source', format });
    },
    /** A column of all planned rows, or so many columns from it. */
    ofRows: (id: ColumnId, wide = 1): Formula => fixedRef(area(FIRST_ROW, at(id), lines, wide)),
    /** What the cube root of a weight gains in a tank from the first of the year up to a day. */
    grown: (tank: Formula, { years, month, days, leap }: DayParts): Formula =>
      years
        .times(nth('Journal_before', tank, 13))
        .plus(nth('Journal_before', tank, month))
        .plus(days.times(nth('Journal_rise', tank, month)))
        .plus(leap.times(nth('Journal_rise', tank, 2))),
    alive: (fish: Formula, days: Formula): Formula =>
      call('ROUND', fish.times(named('Ahead_survival').power(days)), 0),
    /** Fish (0) or the root of their weight (1) in a tank on the day of the plan. */
    heldNow: (what: 0 | 1, tank: Formula): Formula =>
      call('INDEX', fixedRef(area(FIRST_ROW, place.held + what, tanks)), tank),
    parameter: (id: ParameterId, tank: number): Formula =>
      columnRef(place.parameters + parameterIds.indexOf(id), place.lastRow + tank),
    /** Grams that a tank holds at its limit. */
    most: (tank: number): Formula =>
      fixedRef(area(FIRST_ROW + tank, place.held + 2)).times(
        fixedRef(area(FIRST_ROW + tank, place.held + 3)),
      ),
  };
}
export type TankYear = ReturnType<typeof tankYearOn>;
