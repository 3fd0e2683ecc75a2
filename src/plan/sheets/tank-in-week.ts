import type { DayParts } from '../day-parts';
import {
  all,
  blankUnless,
  call,
  cases,
  type Condition,
  type Formula,
  not,
  part,
  when,
} from '../formula-parts';
import { named, nth } from '../names';
import { inShownUnits, shownIn } from '../quantities';
import { cellRef, columnRef, fixedRef, rowRef } from '../references';
import { area } from '../sheet-builder';
import { feedRate, feedStep } from './tank-feed';
import { FIRST_ROW, FIRST_TANK, TURNS, type TankYear, cubeRoot } from './tank-year-layout';

/** A week of the year: its line, and what is asked of it for each tank. */
export interface WeekOfYear {
  readonly year: TankYear;
  /** From 0, the week that begins on the day of the plan. */
  readonly week: number;
  readonly row: number;
  readonly day: Formula;
  readonly dayParts: DayParts;
}

interface TankInWeek extends WeekOfYear {
  readonly k: number;
  readonly number: Formula;
  /** Twice the last row that spoke of the tank, and one more where the tank was the other of the two; 0 for none. */
  readonly q: Formula;
  readonly fish: Formula;
  readonly grams: Formula;
  readonly stands: Condition;
  readonly turnBefore: Formula;
  /** Fish may be handled in the water of the week. */
  readonly handled: readonly Condition[];
  readonly mark: (what: 'fishThenX' | 'rootThenX') => Formula;
  /** Without any planned row the weeks are those of the turns. */
  readonly byTurnsAlone: (weeks: 'Weeks_fish' | 'Weeks_weights', formula: Formula) => Formula;
}

function tankOf(of: WeekOfYear, k: number): TankInWeek {
  const { year, week, row } = of;
  const { place, heldNow, ofRows, parameter } = year;
  const number = part(k + 1);
  const q = rowRef(row, place.lastRow + k);
  const water = rowRef(row, place.water);
  const fish = rowRef(row, place.fish + k);
  return {
    ...of,
    k,
    number,
    q,
    fish,
    grams: rowRef(row, place.grams + k),
    stands: fish.above(0),
    turnBefore: cellRef(row - 1, place.turn + k),
    handled: [
      water.atLeast(parameter('handling_low', k)),
      water.atMost(parameter('handling_high', k)),
    ],
    mark: (what) =>
      when(
        q.is(0),
        heldNow(what === 'fishThenX' ? 0 : 1, number),
        call('INDEX', ofRows(what, 2), call('INT', q.over(2)), part(1).plus(call('MOD', q, 2))),
      ),
    byTurnsAlone: (weeks, formula) =>
      when(named('Ahead_rows').is(0), nth(weeks, week + 1, k + 1), formula),
  };
}

/** The last row that spoke of the tank up to the week. */
function lastRowOf({ year, week, row, k, number }: TankInWeek): void {
  const { place, put, ofRows } = year;
  const isDone = ofRows('no').atMost(rowRef(row, place.done));
  put(
    row,
    place.lastRow + k,
    week === 0
      ? part(0)
      : call(
          'SUMPRODUCT',
          call(
            'MAX',
            ofRows('marksX').is(number).times(isDone).times(ofRows('no')).times(2),
            ofRows('marksY').is(number).times(isDone).times(ofRows('no').times(2).plus(1)),
          ),
        ),
  );
}

function fishOf(tank: TankInWeek): void {
  const { year, week, row, day, k, number, q, turnBefore, handled, mark, byTurnsAlone } = tank;
  const { place, put, today, alive, heldNow, ofRows, parameter } = year;
  const since = when(q.is(0), today, call('INDEX', ofRows('day'), call('INT', q.over(2))));
  /** An empty tank of which no row speaks is stocked on the day of the plan where its turn is now. */
  const stockedNow = all(
    columnRef(place.lastMark, place.lastRow + k).is(0),
    heldNow(0, number).is(0),
    parameter('first', k).is(0),
    ...handled,
  );
  put(
    row,
    place.fish + k,
    byTurnsAlone(
      'Weeks_fish',
      week === 0
        ? when(stockedNow, parameter('head', k).orZero, mark('fishThenX'))
        : cases(
            [
              [turnBefore.is(TURNS.byRows), alive(mark('fishThenX'), day.minus(since))],
              [turnBefore.is(TURNS.stands), alive(cellRef(row - 1, place.fish + k), part(7))],
              [
                all(parameter('first', k).orZero.atMost(week), ...handled),
                parameter('head', k).orZero,
              ],
            ],
            0,
          ),
    ),
    'whole',
  );
}

function gramsOf(tank: TankInWeek): void {
  const { year, week, row, dayParts, k, number, stands, turnBefore, mark, byTurnsAlone } = tank;
  const { place, put, grown, heldNow } = year;
  put(row, place.grown + k, when(stands, grown(number, dayParts), 0));
  const grownNow = rowRef(row, place.grown + k);
  const byRows = mark('rootThenX').plus(grownNow).power(3);
  put(
    row,
    place.grams + k,
    byTurnsAlone(
      'Weeks_weights',
      week === 0
        ? cases(
            [
              [not(stands), 0],
              [heldNow(0, number).above(0), byRows],
            ],
            named('Stock_start_weight').orZero,
          )
        : cases(
            [
              [not(stands), 0],
              [turnBefore.is(TURNS.byRows), byRows],
              [
                turnBefore.is(TURNS.stands),
                cubeRoot(cellRef(row - 1, place.grams + k))
                  .plus(grownNow.minus(cellRef(row - 1, place.grown + k)))
                  .power(3),
              ],
            ],
            named('Stock_start_weight').orZero,
          ),
    ),
    'whole',
  );
}

/** How it stands at the end of the week: between its planned rows nothing is sold that they do not sell. */
function turnOf(tank: TankInWeek): void {
  const { year, week, row, day, k, number, grams, stands, turnBefore, handled } = tank;
  const { place, put, heldNow, parameter } = year;
  put(
    row,
    place.turn + k,
    cases(
      [
        [day.below(columnRef(place.lastMark + 1, place.lastRow + k)), TURNS.byRows],
        [not(stands), TURNS.empty],
        [
          all(
            parameter('harvest', k).isNumber,
            call('ROUND', grams, 6).atLeast(parameter('harvest', k)),
            ...handled,
          ),
          TURNS.sold,
        ],
      ],
      week === 0
        ? when(heldNow(0, number).is(0), TURNS.stands, TURNS.byRows)
        : call('MIN', turnBefore, TURNS.stands),
    ),
    'whole',
  );
}

function densityOf({ year, row, k, number, fish, grams }: TankInWeek): void {
  const { ctx, sheet, tanks, place } = year;
  const volume = call('INDEX', fixedRef(area(FIRST_ROW, place.held + 3, tanks)), number);
  sheet.put(row, FIRST_TANK + k, {
    formula: blankUnless(
      all(nth('Tanks_name', k + 1).isFilled, volume.above(0)),
      inShownUnits(fish.times(grams).over(volume), 'density', ctx.system),
    ),
    look: 'computed',
    format: shownIn('density', ctx.system).format,
  });
}

function feedOf({ year, row, dayParts, k, number, fish, grams, stands }: TankInWeek): void {
  const { place, put, parameter } = year;
  // A weight that meets a head of the feed table to the last digits is at that head in every spreadsheet.
  put(row, place.feedStep + k, when(stands, feedStep(call('ROUND', grams, 6)), 0), 'whole');
  put(
    row,
    place.feed + k,
    when(
      stands,
      fish
        .times(grams)
        .times(
          feedRate(
            grams,
            rowRef(row, place.feedStep + k),
            parameter('line', k),
            nth('Journal_appetite', number, dayParts.month),
          ),
        ),
      0,
    ),
    'whole',
  );
}

/** What a tank holds at the end of a week, by its rows and then by its turns, and the feed of a day. */
export function tankInWeek(week: WeekOfYear, k: number): void {
  const tank = tankOf(week, k);
  lastRowOf(tank);
  fishOf(tank);
  gramsOf(tank);
  turnOf(tank);
  densityOf(tank);
  feedOf(tank);
}
