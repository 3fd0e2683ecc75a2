import { leapDays, yearsAfter } from '../day-parts';
import {
  all,
  blankIf,
  call,
  cases,
  type Formula,
  isoDate,
  joined,
  part,
  sum,
  when,
} from '../formula-parts';
import { nth } from '../names';
import { inShownUnits, shownIn } from '../quantities';
import { cellRef, columnRef, fixedRef, rowRef, span } from '../references';
import { area } from '../sheet-builder';
import type { FormatId } from '../workbook-model';
import { WEEK_ROWS } from './stock-weeks-block';
import {
  TANK_YEAR,
  HEAD_ROW,
  FIRST_ROW,
  FIRST_TANK,
  TURNS,
  type TankYear,
  parameterIds,
} from './tank-year-layout';
import { tankInWeek, type WeekOfYear } from './tank-in-week';

const NEARLY_FULL = 0.9;

/** What the sheet says of the year above its weeks. */
function verdictOn(year: TankYear): void {
  const { sheet, tanks, lines, place, keys, at } = year;
  const more = call('COUNT', keys).above(lines);
  const turnsOfAll = fixedRef(area(FIRST_ROW, place.turn, WEEK_ROWS, tanks));
  const unplanned = call('COUNTIF', turnsOfAll, TURNS.sold);
  sheet.wide(2, 2, 4 + Math.min(tanks, 8), {
    formula: cases(
      [
        [
          call('COUNT', keys).is(0),
          'No row is planned: sold at the selling weight, then stocked anew. Plan ahead.',
        ],
        [
          more,
          joined(
            'Of the planned rows only the first ',
            lines,
            ' are followed, up to ',
            isoDate(cellRef(FIRST_ROW + lines - 1, at('day'))),
            '.',
          ),
        ],
        [
          unplanned.above(0),
          joined(
            'Sales without a planned row (',
            unplanned,
            '): at the selling weight, then stocked anew.',
          ),
        ],
      ],
      'Fish go unfed on the day before they are moved or sold. Yellow: nearly full; red: over the limit.',
    ),
    look: 'verdict',
  });
}

function weekHeads({ ctx, sheet, tanks }: TankYear): void {
  const { system } = ctx;
  const mass = shownIn('mass', system).unit;
  sheet.heads(HEAD_ROW, 0, [
    'Week',
    'Date',
    `Sold, ${mass}`,
    'Stocked',
    `Feed, ${shownIn('feedDay', system).unit}`,
    'Fullest',
  ]);
  sheet.heading(
    HEAD_ROW - 1,
    FIRST_TANK,
    tanks,
    `Density, ${shownIn('density', system).unit}, on the last day of each week`,
  );
  for (let k = 0; k < tanks; k++) {
    const name = nth('Tanks_name', k + 1);
    sheet.put(HEAD_ROW, FIRST_TANK + k, {
      formula: blankIf(name.isBlank, name),
      look: 'columnHead',
    });
  }
}

/** Of each tank what its turns need, its last planned row, and the day from which its turns hold. */
function tankParameters(year: TankYear): void {
  const { tanks, place, today, put, ofRows, most } = year;
  for (let k = 0; k < tanks; k++) {
    const tankLine = nth('Tanks_line', k + 1);
    parameterIds.forEach((id, i) =>
      put(
        place.parameters + i,
        place.lastRow + k,
        id === 'line' ? call('IFERROR', tankLine.orZero, 0) : nth(`Weeks_${id}`, 1, k + 1),
      ),
    );
    put(
      place.parameters + parameterIds.length,
      place.lastRow + k,
      when(most(k).above(0), part(1).over(call('MAX', most(k), 1e-9)), 0),
    );
    const lastMark = call(
      'SUMPRODUCT',
      call(
        'MAX',
        ofRows('marksX')
          .is(k + 1)
          .times(ofRows('no')),
        ofRows('marksY')
          .is(k + 1)
          .times(ofRows('no')),
      ),
    );
    put(place.lastMark, place.lastRow + k, lastMark, 'whole');
    put(
      place.lastMark + 1,
      place.lastRow + k,
      when(
        columnRef(place.lastMark, place.lastRow + k).is(0),
        today,
        call('INDEX', ofRows('day'), columnRef(place.lastMark, place.lastRow + k)),
      ),
      'date',
    );
  }
}

function weekOfYear(year: TankYear, week: number): WeekOfYear {
  const { sheet, place, today, put, ofRows } = year;
  const row = FIRST_ROW + week;
  const day = rowRef(row, 1);
  sheet.put(row, 0, { value: week, look: 'label' });
  sheet.put(row, 1, { formula: today.plus(7 * week), look: 'label', format: 'date' });
  const [years, month, days, leap] = [0, 1, 2, 3].map((i) => rowRef(row, place.day + i)) as [
    Formula,
    Formula,
    Formula,
    Formula,
  ];
  put(row, place.day, yearsAfter(day));
  put(row, place.day + 1, call('MONTH', day));
  put(row, place.day + 2, call('DAY', day).minus(1));
  put(row, place.day + 3, leapDays(day, { years, month, days }), 'whole');
  put(row, place.water, nth('Month_water', month));
  put(row, place.done, call('COUNTIF', ofRows('day'), joined('<=', day)));
  return { year, week, row, day, dayParts: { years, month, days, leap } };
}

/** What all tanks together sell, stock, eat and hold in a week. */
function sumsOfWeek({ year, week, row, day }: WeekOfYear): void {
  const { ctx, sheet, tanks, place, put, ofRows } = year;
  const { system } = ctx;
  const inWeek = (id: 'soldKg' | 'stocked'): Formula =>
    call(
      'SUMIFS',
      ofRows(id),
      ofRows('day'),
      joined('>=', day),
      ofRows('day'),
      joined('<', day.plus(7)),
    );
  const figure = (column: number, formula: Formula, format: FormatId): void =>
    sheet.put(row, column, { formula, look: 'computed', format });
  const ofTanks = (first: number, at = row): Formula =>
    span(rowRef(at, first), rowRef(at, first + tanks - 1));
  const soldInTurn = call(
    'SUMPRODUCT',
    ofTanks(place.turn).is(TURNS.sold).times(ofTanks(place.fish)).times(ofTanks(place.grams)),
  ).over(1000);
  const stockedInTurn = call(
    'SUMPRODUCT',
    ofTanks(place.turn, row - 1)
      .atLeast(TURNS.empty)
      .times(ofTanks(place.fish)),
  );
  put(row, place.sold, inWeek('soldKg').plus(soldInTurn), 'one');
  figure(2, inShownUnits(rowRef(row, place.sold), 'mass', system), shownIn('mass', system).format);
  figure(
    3,
    inWeek('stocked').plus(
      week === 0
        ? sum(ofTanks(place.fish)).minus(sum(fixedRef(area(FIRST_ROW, place.held, tanks))))
        : stockedInTurn,
    ),
    'whole',
  );
  put(row, place.fed, sum(ofTanks(place.feed)), 'whole');
  figure(
    4,
    inShownUnits(rowRef(row, place.fed), 'feedDay', system),
    shownIn('feedDay', system).format,
  );
  put(
    row,
    place.standing,
    call('SUMPRODUCT', ofTanks(place.fish).times(ofTanks(place.grams))).over(1000),
    'one',
  );
  figure(
    5,
    call(
      'SUMPRODUCT',
      call(
        'MAX',
        ofTanks(place.fish)
          .times(ofTanks(place.grams))
          .times(fixedRef(area(place.parameters + parameterIds.length, place.lastRow, 1, tanks))),
      ),
    ),
    'percent',
  );
}

function weekNames({ ctx, tanks, place, keys, put }: TankYear): void {
  const series = [
    ['Ahead_feed', place.fed],
    ['Ahead_standing', place.standing],
    ['Ahead_sold', place.sold],
    ['Ahead_stocked', 3],
    ['Ahead_fullest', 5],
  ] as const;
  for (const [name, column] of series)
    ctx.name(name, TANK_YEAR, area(FIRST_ROW, column, WEEK_ROWS));
  ctx.name('Ahead_fish', TANK_YEAR, area(FIRST_ROW, place.fish, WEEK_ROWS, tanks));
  ctx.name('Ahead_weights', TANK_YEAR, area(FIRST_ROW, place.grams, WEEK_ROWS, tanks));
  put(HEAD_ROW - 1, place.day, call('COUNT', keys));
  ctx.name('Ahead_rows', TANK_YEAR, area(HEAD_ROW - 1, place.day));
}

/** Yellow where a tank is nearly full, red over its limit. */
function fullTanks({ sheet, tanks, place, most }: TankYear): void {
  for (let k = 0; k < tanks; k++) {
    const cells = area(FIRST_ROW, FIRST_TANK + k, WEEK_ROWS);
    const held = cellRef(FIRST_ROW, place.fish + k).times(cellRef(FIRST_ROW, place.grams + k));
    sheet.mark(cells, all(most(k).above(0), held.above(most(k).times(1 + 1e-6))), 'bad');
    sheet.mark(cells, all(most(k).above(0), held.above(most(k).times(NEARLY_FULL))), 'watch');
  }
}

/** The tanks, week by week. */
export function yearWeeks(year: TankYear): void {
  verdictOn(year);
  weekHeads(year);
  tankParameters(year);
  for (let w = 0; w < WEEK_ROWS; w++) {
    const week = weekOfYear(year, w);
    for (let k = 0; k < year.tanks; k++) tankInWeek(week, k);
    sumsOfWeek(week);
  }
  weekNames(year);
  fullTanks(year);
}
