/**
 * The tanks through a year by the rows of the Fish log that are still to come. The forecast is that of core/fish-log.ts:
 * between rows fish grow in the water of each month and die at the expected rate, whole at each row. After its last
 * row a tank goes on by its turns, as in stock-weeks-block.ts and core/fish-turns.ts; without any planned row all
 * weeks are those.
 *
 * Beside the weeks, folded away, stand the rows in order of time, each with what it leaves in its tanks. A weight stands
 * as its cube root less what the tank's fish grow from the first of the year of the plan to the day of the row, so
 * that it stays the same between rows.
 */
import type { PlanContext } from '../context';
import { SheetBuilder } from '../sheet-builder';
import type { SheetModel } from '../workbook-model';
import { SPARE_TANKS } from './tanks-sheet';
import { TANK_YEAR, FIRST_ROW, tankYearOn } from './tank-year-layout';
import { heldTanks, rateOfDeaths } from './tank-year-held';
import { plannedRows } from './tank-year-rows';
import { yearWeeks } from './tank-year-weeks';
import { tankOutcomes } from './tank-year-outcomes';
import { rowsToDo } from './tank-year-list';
import { tankYearPicture } from './tank-year-picture';

export function tankYearSheet(ctx: PlanContext): SheetModel {
  const tanks = ctx.farm.tanks.length + SPARE_TANKS;
  const sheet = new SheetBuilder(TANK_YEAR, {
    title: 'Tank year',
    question:
      'How full does each tank get, week by week, if the planned rows of the Fish log are done?',
    widths: [7, 11, 11, 9, 9, 9, ...Array.from({ length: tanks }, () => 9)],
    landscape: true,
    headRows: FIRST_ROW,
    headColumns: 2,
  });
  const year = tankYearOn(sheet, ctx, tanks);
  sheet.fold(year.place.rows);
  heldTanks(year);
  rateOfDeaths(year);
  plannedRows(year);
  yearWeeks(year);
  tankOutcomes(year);
  rowsToDo(year);
  tankYearPicture(year);
  return sheet.model();
}
