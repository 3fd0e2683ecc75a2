import {
  all,
  any,
  blankIf,
  blankUnless,
  call,
  cases,
  type Formula,
  joined,
  not,
  part,
  when,
} from '../formula-parts';
import { named } from '../names';
import { columnRef, fixedRef, rowRef } from '../references';
import { area } from '../sheet-builder';
import { WEEK_ROWS } from './stock-weeks-block';
import { TANK_YEAR, FIRST_ROW, TURNS, type ColumnId, type TankYear } from './tank-year-layout';

/** What is worked out of each tank below the weeks. Places of rows and weeks count from 1; 0 is none. */
const outcomes = [
  ['next row', 'whole'],
  ['sale row', 'whole'],
  ['stocking row', 'whole'],
  ['week of sale', 'whole'],
  ['week of stocking', 'whole'],
  ['week over limit', 'whole'],
  ['Ahead_next_day', 'date'],
  ['Ahead_next_what', 'general'],
  ['Ahead_sale_day', 'date'],
  ['Ahead_sale_fish', 'whole'],
  ['Ahead_sale_weight', 'whole'],
  ['Ahead_stock_day', 'date'],
  ['Ahead_stock_fish', 'whole'],
  ['Ahead_over_day', 'date'],
  ['Ahead_over_fish', 'whole'],
  ['most grams', 'whole'],
  ['Ahead_full_place', 'whole'],
] as const;
type OutcomeId = (typeof outcomes)[number][0];

const rowOf = ({ place }: TankYear, id: OutcomeId): number =>
  place.outcomes + outcomes.findIndex(([outcome]) => outcome === id);

/** A tank whose outcomes are asked for: cells of its own columns, of its rows and of its weeks. */
function tankAhead(year: TankYear, k: number) {
  const { lines, place, today, ofRows, most } = year;
  const outcome = (id: OutcomeId): Formula => columnRef(rowOf(year, id), place.lastRow + k);
  const ofTank = (column: number, from = 0, rows = WEEK_ROWS): Formula =>
    fixedRef(area(FIRST_ROW + from, column + k, rows));
  const weekNumbers = (rows = WEEK_ROWS): Formula => fixedRef(area(FIRST_ROW, 0, rows));
  const limit = most(k);
  /**
   * The first of `all` places whose conditions hold, `further` places on; 0 where there is none. `before`: how many
   * places are left from each on.
   */
  const firstOf = (
    all: number,
    before: Formula,
    conditions: readonly Formula[],
    further = 0,
  ): Formula => {
    const product = conditions.reduce((parts, condition) => parts.times(condition), before);
    const left = part(all + 1 + further).minus(call('SUMPRODUCT', call('MAX', product)));
    return call('MOD', left, all + 1 + further);
  };
  const rowsLeft = part(lines + 1).minus(ofRows('no'));
  const weeksLeft = (rows: number): Formula => part(rows).minus(weekNumbers(rows));
  const ofX = ofRows('x').is(k + 1);
  const inRow = (row: OutcomeId, id: ColumnId): Formula => call('INDEX', ofRows(id), outcome(row));
  const inWeek = (week: OutcomeId, column: number): Formula =>
    call('INDEX', ofTank(column), outcome(week));
  const dayOf = (week: OutcomeId): Formula => today.plus(outcome(week).minus(1).times(7));
  const rowOrWeek = (
    row: OutcomeId,
    week: OutcomeId,
    byRow: Formula,
    byWeek: Formula,
    without: Formula | string = '',
  ): Formula =>
    cases(
      [
        [outcome(row).above(0), byRow],
        [outcome(week).above(0), byWeek],
      ],
      without,
    );
  const mass = ofTank(place.fish).times(ofTank(place.grams));
  const untilSale = when(
    outcome('Ahead_sale_day').isNumber,
    outcome('Ahead_sale_day'),
    today.plus(7 * WEEK_ROWS),
  );
  return {
    year,
    k,
    outcome,
    ofTank,
    limit,
    mass,
    untilSale,
    /** The tank holds fish in the first week. */
    stands: rowRef(FIRST_ROW, place.fish + k).above(0),
    inRow,
    inWeek,
    dayOf,
    rowOrWeek,
    /** The first planned row that sells of the tank, or stocks it. */
    firstRow: (what: 'soldKg' | 'stocked'): Formula =>
      firstOf(lines, rowsLeft, [ofX, ofRows(what).above(0)]),
    /** The first week whose conditions hold. */
    firstWeek: (conditions: readonly Formula[], rows = WEEK_ROWS, further = 0): Formula =>
      firstOf(rows, weeksLeft(rows), conditions, further),
  };
}
type TankAhead = ReturnType<typeof tankAhead>;

/** Places of rows and weeks: by its planned rows, and where there is none by its turns. */
function placesAhead(tank: TankAhead) {
  const { year, k, outcome, ofTank, limit, mass, untilSale, stands, firstRow, firstWeek } = tank;
  const { lines, place, heldNow, ofRows } = year;
  const rowOfTank = (id: 'x' | 'y'): Formula =>
    call('IFERROR', call('MATCH', k + 1, ofRows(id), 0), lines + 1);
  const isEmptyNow = heldNow(0, part(k + 1)).is(0);
  return {
    'next row': call('MOD', call('MIN', rowOfTank('x'), rowOfTank('y')), lines + 1),
    'sale row': firstRow('soldKg'),
    'stocking row': firstRow('stocked'),
    'week of sale': when(
      outcome('sale row').above(0),
      0,
      call('IFERROR', call('MATCH', TURNS.sold, ofTank(place.turn), 0), 0),
    ),
    // Empty at the end of a week, and stocked in the next.
    'week of stocking': cases(
      [
        [outcome('stocking row').above(0), 0],
        [all(isEmptyNow, stands), 1],
      ],
      firstWeek(
        [
          ofTank(place.turn, 0, WEEK_ROWS - 1).atLeast(TURNS.empty),
          ofTank(place.fish, 1, WEEK_ROWS - 1).above(0),
        ],
        WEEK_ROWS - 1,
        1,
      ),
    ),
    'week over limit': when(
      limit.is(0),
      0,
      firstWeek([
        mass.above(limit.times(1 + 1e-6)),
        fixedRef(area(FIRST_ROW, 1, WEEK_ROWS)).atMost(untilSale),
      ]),
    ),
  };
}

function nextRow({ outcome, inRow }: TankAhead) {
  const what = call('INDEX', named('Fishlog_what'), inRow('next row', 'row'));
  const ofNext = inRow('next row', 'out');
  return {
    Ahead_next_day: blankIf(outcome('next row').is(0), inRow('next row', 'day')),
    Ahead_next_what: blankIf(
      outcome('next row').is(0),
      joined(what, when(ofNext.orZero.above(0), joined(' ', ofNext), '')),
    ),
  };
}

function saleAndStocking(tank: TankAhead) {
  const { year, outcome, stands, inRow, inWeek, dayOf, rowOrWeek } = tank;
  const { place } = year;
  return {
    Ahead_sale_day: rowOrWeek(
      'sale row',
      'week of sale',
      inRow('sale row', 'day'),
      dayOf('week of sale'),
      blankIf(not(any(stands, outcome('next row').above(0))), part('after a year')),
    ),
    Ahead_sale_fish: rowOrWeek(
      'sale row',
      'week of sale',
      inRow('sale row', 'out'),
      call('ROUNDDOWN', inWeek('week of sale', place.fish), 0),
    ),
    Ahead_sale_weight: rowOrWeek(
      'sale row',
      'week of sale',
      inRow('sale row', 'outGrams'),
      inWeek('week of sale', place.grams),
    ),
    Ahead_stock_day: rowOrWeek(
      'stocking row',
      'week of stocking',
      inRow('stocking row', 'day'),
      dayOf('week of stocking'),
      blankUnless(any(outcome('Ahead_sale_day').isNumber, not(stands)), part('after a year')),
    ),
    Ahead_stock_fish: rowOrWeek(
      'stocking row',
      'week of stocking',
      inRow('stocking row', 'fish'),
      inWeek('week of stocking', place.fish),
    ),
  };
}

/** When the tank is over its limit first, by how many fish at the worst, and when it is fullest. */
function fullest(tank: TankAhead) {
  const { year, outcome, ofTank, limit, mass, untilSale, dayOf, firstWeek } = tank;
  const { place } = year;
  return {
    Ahead_over_day: blankIf(outcome('week over limit').is(0), dayOf('week over limit')),
    // As many as are too many on the worst day before the sale.
    Ahead_over_fish: blankIf(
      outcome('week over limit').is(0),
      call(
        'ROUNDUP',
        call(
          'SUMPRODUCT',
          call(
            'MAX',
            mass
              .minus(limit)
              .over(ofTank(place.grams).plus(ofTank(place.grams).is(0)))
              .times(fixedRef(area(FIRST_ROW, 1, WEEK_ROWS)).atMost(untilSale)),
          ),
        ),
        0,
      ),
    ),
    'most grams': call('SUMPRODUCT', call('MAX', mass)),
    Ahead_full_place: blankIf(
      outcome('most grams').is(0),
      firstWeek([mass.atLeast(outcome('most grams'))]),
    ),
  };
}

/** Of each tank what comes next, by the planned rows and then by its turns. */
export function tankOutcomes(year: TankYear): void {
  const { ctx, tanks, place, put } = year;
  for (let k = 0; k < tanks; k++) {
    const tank = tankAhead(year, k);
    const formulas: Readonly<Record<OutcomeId, Formula>> = {
      ...placesAhead(tank),
      ...nextRow(tank),
      ...saleAndStocking(tank),
      ...fullest(tank),
    };
    for (const [id, format] of outcomes)
      put(rowOf(year, id), place.lastRow + k, formulas[id], format);
  }
  for (const [id] of outcomes) {
    if (id.startsWith('Ahead_')) {
      ctx.name(
        id as Extract<OutcomeId, `Ahead_${string}`>,
        TANK_YEAR,
        area(rowOf(year, id), place.lastRow, 1, tanks),
      );
    }
  }
  ctx.name('Ahead_planned', TANK_YEAR, area(place.lastMark, place.lastRow, 1, tanks));
}
