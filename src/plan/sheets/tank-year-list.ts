import { kindIs } from '../fish-log-columns';
import { all, any, blankIf, blankUnless, call, cases, type Formula, when } from '../formula-parts';
import { named, nth } from '../names';
import { fixedRef, rowRef } from '../references';
import { area } from '../sheet-builder';
import type { FormatId } from '../workbook-model';
import { FIRST_ROW, FIRST_TANK, type ColumnId, type TankYear } from './tank-year-layout';

/** Rows to come that are listed to be done. */
export const LISTED = 14;

/** What is to be done next. */
export function rowsToDo({ sheet, tanks, place, at }: TankYear): void {
  const { list } = place;
  sheet.heading(list, 0, FIRST_TANK + Math.min(tanks, 6), 'To do next');
  sheet.heads(list + 1, 0, [
    'In weeks',
    'Date',
    'No feed on',
    'What',
    'Fish',
    '',
    'From',
    '',
    'To',
  ]);
  sheet.heads(list + 1, 10, ['Water then']);
  for (let n = 0; n < LISTED; n++) {
    const row = list + 2 + n;
    const from = (id: ColumnId): Formula => fixedRef(area(FIRST_ROW + n, at(id)));
    const isIn = from('row').isFilled;
    const cell = (column: number, formula: Formula, format: FormatId = 'text'): void =>
      sheet.put(row, column, { formula: blankUnless(isIn, formula), look: 'computed', format });
    cell(0, call('INT', from('day').minus(named('Farm_week')).over(7)), 'whole');
    cell(1, from('day'), 'date');
    const handled = any(kindIs(from('kind'), 'moved'), kindIs(from('kind'), 'sold'));
    cell(2, blankUnless(handled, from('day').minus(1)), 'date');
    cell(3, nth('Fishlog_what', from('row')));
    cell(4, when(from('out').above(0), from('out'), from('fish')), 'whole');
    cell(6, nth('Fishlog_tank', from('row')));
    const to = nth('Fishlog_to_tank', from('row'));
    cell(8, blankIf(to.isBlank, to));
    const water = nth('Month_water', from('month'));
    const bound = (which: 'low' | 'high'): Formula => nth(`Weeks_handling_${which}`, 1, from('x'));
    cell(
      10,
      blankUnless(
        any(handled, kindIs(from('kind'), 'stocked')),
        cases(
          [
            [water.below(bound('low')), 'too cold'],
            [all(bound('high').isNumber, water.above(bound('high'))), 'too warm'],
          ],
          '',
        ),
      ),
    );
  }
  const due = area(list + 2, 0, LISTED, 9);
  sheet.mark(due, all(rowRef(list + 2, 0).isNumber, rowRef(list + 2, 0).is(0)), 'watch');
  sheet.mark(area(list + 2, 10, LISTED), rowRef(list + 2, 10).isFilled, 'bad');
}
