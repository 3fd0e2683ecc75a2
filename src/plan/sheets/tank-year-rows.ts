import { fishEvents } from '../../core/fish-log';
import { kindIs } from '../fish-log-columns';
import { type DayParts, leapDays, yearsAfter } from '../day-parts';
import {
  all,
  any,
  blankUnless,
  call,
  cases,
  type Condition,
  type Formula,
  not,
  part,
  when,
} from '../formula-parts';
import { nth } from '../names';
import { columnRef, rowRef, span } from '../references';
import { dayOfDayKey, rowOfKey } from '../register-keys';
import type { FormatId } from '../workbook-model';
import {
  HEAD_ROW,
  FIRST_ROW,
  columns,
  type ColumnId,
  type TankYear,
  cubeRoot,
} from './tank-year-layout';

/** A planned row of the Fish log as it is worked out: its line, and what is asked of it more than once. */
interface PlannedRow {
  readonly year: TankYear;
  readonly n: number;
  readonly row: number;
  readonly c: (id: ColumnId) => Formula;
  /** A formula that is blank where no row is left to come. */
  readonly write: (id: ColumnId, formula: Formula, format?: FormatId) => void;
  readonly moves: Condition;
  readonly is: (what: (typeof fishEvents)[number]) => Condition;
  /** Fish go out of the tank. */
  readonly leaves: Condition;
  /** Grams that are left in it. */
  readonly massLeft: Formula;
}

function plannedRow(year: TankYear, n: number): PlannedRow {
  const row = FIRST_ROW + n;
  const c = (id: ColumnId): Formula => rowRef(row, year.at(id));
  const isIn = c('row').isFilled;
  const is = (what: (typeof fishEvents)[number]): Condition => kindIs(c('kind'), what);
  return {
    year,
    n,
    row,
    c,
    write: (id, formula, format = 'general') =>
      year.put(row, year.at(id), blankUnless(isIn, formula), format),
    moves: all(isIn, c('y').orZero.above(0)),
    is,
    leaves: any(is('moved'), is('sold'), is('died')),
    massLeft: c('fishX')
      .times(c('gramsX'))
      .minus(c('out').times(c('outGrams'))),
  };
}

/** Which row it is, and what it says. */
function whatItSays({ year, n, row, c, write }: PlannedRow): void {
  const { sheet, at, put, keys } = year;
  sheet.put(row, at('no'), { value: n + 1, look: 'source' });
  put(row, at('order'), when(call('COUNT', keys).below(n + 1), '', call('SMALL', keys, n + 1)));
  put(row, at('row'), blankUnless(c('order').isNumber, rowOfKey(c('order'))));
  write('day', dayOfDayKey(c('order')), 'date');
  write('years', yearsAfter(c('day')));
  write('month', call('MONTH', c('day')));
  write('days', call('DAY', c('day')).minus(1));
  write(
    'leap',
    leapDays(c('day'), { years: c('years'), month: c('month'), days: c('days') }),
    'whole',
  );
  write('x', nth('Fishlog_tank_number', c('row')));
  write('y', nth('Fishlog_to_number', c('row')).orZero);
  write('kind', nth('Fishlog_kind', c('row')));
  const typed = (name: 'Fishlog_fish' | 'Fishlog_weight'): Formula => {
    const cell = nth(name, c('row'));
    return blankUnless(cell.isNumber, cell);
  };
  write('fish', typed('Fishlog_fish'));
  write('weight', typed('Fishlog_weight'));
}

/** The row before it that spoke of each of its tanks, and what they hold when its day comes. */
function tanksBefore({ year, n, row, c, write, moves }: PlannedRow): void {
  const { at, put, today, grown, alive, heldNow } = year;
  const above = (id: ColumnId): Formula =>
    span(columnRef(FIRST_ROW, at(id)), rowRef(row - 1, at(id)));
  const last = (tank: Formula): Formula =>
    n === 0
      ? part(0)
      : call(
          'SUMPRODUCT',
          call(
            'MAX',
            above('marksX').is(tank).times(above('no')).times(2),
            above('marksY').is(tank).times(above('no').times(2).plus(1)),
          ),
        );
  write('qx', last(c('x')));
  put(row, at('qy'), blankUnless(moves, last(c('y'))));
  const markOf = (what: 'fishThenX' | 'rootThenX', q: Formula, tank: Formula): Formula =>
    n === 0
      ? heldNow(what === 'fishThenX' ? 0 : 1, tank)
      : when(
          q.is(0),
          heldNow(what === 'fishThenX' ? 0 : 1, tank),
          call(
            'INDEX',
            span(columnRef(FIRST_ROW, at(what)), rowRef(row - 1, at(what) + 1)),
            call('INT', q.over(2)),
            part(1).plus(call('MOD', q, 2)),
          ),
        );
  const dayOfMark = (q: Formula): Formula =>
    n === 0 ? today : when(q.is(0), today, call('INDEX', above('day'), call('INT', q.over(2))));
  const parts: DayParts = {
    years: c('years'),
    month: c('month'),
    days: c('days'),
    leap: c('leap'),
  };
  const state = (who: 'X' | 'Y', shown: (id: ColumnId, formula: Formula) => void): void => {
    const [tank, q] = who === 'X' ? [c('x'), c('qx')] : [c('y'), c('qy')];
    shown(`fish${who}`, alive(markOf('fishThenX', q, tank), c('day').minus(dayOfMark(q))));
    shown(`grown${who}`, grown(tank, parts));
    shown(
      `grams${who}`,
      when(
        c(`fish${who}`).above(0),
        markOf('rootThenX', q, tank)
          .plus(c(`grown${who}`))
          .power(3),
        0,
      ),
    );
  };
  state('X', write);
  state('Y', (id, formula) => put(row, at(id), blankUnless(moves, formula)));
}

/** What goes out, and whether the row can be done at all. */
function whatGoesOut({ c, write, is, leaves, massLeft }: PlannedRow): void {
  write(
    'out',
    when(leaves, when(c('fish').isNumber, call('MIN', c('fish'), c('fishX')), c('fishX')), 0),
  );
  write('outGrams', when(all(c('weight').isNumber, not(is('died'))), c('weight'), c('gramsX')));
  const cannot = any(
    all(c('fishX').is(0), not(is('stocked')), not(all(is('counted'), c('fish').isNumber))),
    all(is('counted'), c('fishX').is(0), c('fish').orZero.above(0)),
    all(is('weighed'), c('fish').orZero.above(c('fishX'))),
    all(leaves, c('out').below(c('fishX')), massLeft.atMost(0)),
  );
  const isOpen = any(
    all(is('weighed'), c('weight').isBlank),
    all(is('counted'), c('fish').isBlank),
  );
  write('marksX', when(any(cannot, isOpen), 0, c('x')));
  write('marksY', when(all(c('marksX').above(0), is('moved')), c('y'), 0));
}

/** What it leaves in its tanks. */
function tanksAfter({ year, row, c, write, moves, is, massLeft }: PlannedRow): void {
  const { at, put } = year;
  write(
    'fishThenX',
    cases(
      [
        [is('stocked'), c('fishX').plus(c('fish'))],
        [is('counted'), c('fish')],
        [is('weighed'), c('fishX')],
      ],
      c('fishX').minus(c('out')),
    ),
  );
  const rootOf = (grams: Formula, growth: ColumnId): Formula => cubeRoot(grams).minus(c(growth));
  write(
    'rootThenX',
    when(
      any(c('fishThenX').orZero.is(0), c('marksX').is(0)),
      0,
      rootOf(
        cases(
          [
            [
              is('stocked'),
              c('fishX')
                .times(c('gramsX'))
                .plus(c('fish').times(c('weight')))
                .over(c('fishThenX')),
            ],
            [is('weighed'), c('weight')],
            [is('counted'), when(c('weight').isNumber, c('weight'), c('gramsX'))],
          ],
          massLeft.over(c('fishThenX')),
        ),
        'grownX',
      ),
    ),
  );
  const goes = all(moves, c('marksY').orZero.above(0));
  put(row, at('fishThenY'), when(goes, c('fishY').plus(c('out')), 0));
  put(
    row,
    at('rootThenY'),
    when(
      goes,
      rootOf(
        c('fishY')
          .times(c('gramsY'))
          .plus(c('out').times(c('outGrams')))
          .over(c('fishThenY')),
        'grownY',
      ),
      0,
    ),
  );
  write(
    'soldKg',
    when(all(is('sold'), c('marksX').above(0)), c('out').times(c('outGrams')).over(1000), 0),
  );
  write('stocked', when(is('stocked'), c('fish'), 0));
}

/** The rows to come in order of time, folded away beside the weeks. */
export function plannedRows(year: TankYear): void {
  columns.forEach((id) => year.sheet.put(HEAD_ROW, year.at(id), { value: id, look: 'columnHead' }));
  for (let n = 0; n < year.lines; n++) {
    const planned = plannedRow(year, n);
    whatItSays(planned);
    tanksBefore(planned);
    whatGoesOut(planned);
    tanksAfter(planned);
  }
}
