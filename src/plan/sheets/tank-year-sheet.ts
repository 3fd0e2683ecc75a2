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
import { fishEvents } from '../../core/fish-log';
import { growthWeightCard } from '../../functions/growth-cards';
import { cardStep } from '../card-step';
import type { PlanContext } from '../context';
import { daysBeforeList } from '../fish-journal';
import { kindIs } from '../fish-log-columns';
import {
  all,
  any,
  blankIf,
  blankUnless,
  call,
  cases,
  type Condition,
  type Formula,
  isoDate,
  joined,
  not,
  part,
  sum,
  when,
} from '../formula-parts';
import { named, nth } from '../names';
import { inShownUnits, shownIn } from '../quantities';
import { cellRef, columnRef, fixedRef, rowRef, span } from '../references';
import { dayOfDayKey, rowOfKey } from '../register-keys';
import { area, SheetBuilder } from '../sheet-builder';
import type { FormatId, SheetModel } from '../workbook-model';
import { WEEK_ROWS } from './stock-weeks-block';
import { feedRate, feedStep } from './tank-feed';
import { SPARE_TANKS } from './tanks-sheet';

const SHEET = 'Tank year';
const HEADS = 5;
const FIRST = HEADS + 1;
/** Week, date, sold, stocked, feed, fullest; then the tanks. */
const TANKS = 6;
/** Rows to come that are listed to be done. */
const LISTED = 14;
const NEARLY_FULL = 0.9;
/** Tanks that the picture shows: more lines cannot be told apart. */
const MAX_DRAWN = 8;
/**
 * What holds of a tank at the end of a week: it stands as its rows say; it stands as its turns say, its rows being
 * done; it is empty and free to be stocked; its fish are sold in the week that begins.
 */
const TURNS = { byRows: 0, stands: 1, empty: 2, sold: 3 } as const;

const columns = [
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
type ColumnId = (typeof columns)[number];

/** Rows to come that are followed. */
const linesFor = (tanks: number): number => Math.min(240, Math.max(60, 8 * tanks));

export function tankYearSheet(ctx: PlanContext): SheetModel {
  const { system } = ctx;
  const tanks = ctx.farm.tanks.length + SPARE_TANKS;
  const lines = linesFor(tanks);
  const density = shownIn('density', system);
  const sheet = new SheetBuilder(SHEET, {
    title: 'Tank year',
    question:
      'How full does each tank get, week by week, if the planned rows of the Fish log are done?',
    widths: [7, 11, 11, 9, 9, 9, ...Array.from({ length: tanks }, () => 9)],
    landscape: true,
    headRows: FIRST,
    headColumns: 2,
  });
  const WORK = TANKS + tanks + 1;
  sheet.fold(WORK);
  const at = (id: ColumnId): number => WORK + columns.indexOf(id);
  const AFTER = WORK + columns.length + 1;
  // Of each week: the parts of its day and sums of all tanks, then for each tank the last row, fish and mean weight.
  const PARTS = AFTER;
  const [FED, STANDING, SOLD, LIMIT, WATER, DONE] = [4, 5, 6, 7, 8, 9].map((i) => PARTS + i) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const block = (index: number): number => AFTER + 11 + index * (tanks + 1);
  const [Q, FISH, GRAMS, STEP, FEED, GROWN, TURN] = [0, 1, 2, 3, 4, 5, 6].map(block) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const today = named('Farm_date');
  const put = (row: number, column: number, formula: Formula, format: FormatId = 'general'): void =>
    sheet.put(row, column, { formula, look: 'source', format });

  const yearsOf = (day: Formula): Formula => call('YEAR', day).minus(call('YEAR', today));
  interface Parts {
    readonly years: Formula;
    readonly month: Formula;
    readonly days: Formula;
    readonly leap: Formula;
  }
  const leapOf = (day: Formula, { years, month, days }: Omit<Parts, 'leap'>): Formula =>
    day
      .minus(call('DATE', call('YEAR', today), 1, 1))
      .minus(part(365).times(years))
      .minus(call('INDEX', daysBeforeList, 1, month))
      .minus(days);
  /** What the cube root of a weight gains in a tank from the first of the year up to a day. */
  const grown = (tank: Formula, { years, month, days, leap }: Parts): Formula =>
    years
      .times(nth('Journal_before', tank, 13))
      .plus(nth('Journal_before', tank, month))
      .plus(days.times(nth('Journal_rise', tank, month)))
      .plus(leap.times(nth('Journal_rise', tank, 2)));
  const daily = named('Ahead_survival');
  const alive = (fish: Formula, days: Formula): Formula =>
    call('ROUND', fish.times(daily.power(days)), 0);

  // One line a tank, beside the first rows: what it holds on the day of the plan.
  const HELD = block(7);
  sheet.heads(HEADS, HELD, ['Fish now', 'Root now', 'Limit, kg/m³', 'Water, L']);
  const thisDay: Parts = {
    years: part(0),
    month: call('MONTH', today),
    days: call('DAY', today).minus(1),
    leap: cellRef(HEADS - 1, HELD),
  };
  put(HEADS - 1, HELD, leapOf(today, thisDay), 'whole');
  const leapNow = fixedRef(area(HEADS - 1, HELD));
  for (let k = 0; k < tanks; k++) {
    const row = FIRST + k;
    const number = part(k + 1);
    put(row, HELD, nth('Held_fish', number).orZero);
    put(
      row,
      HELD + 1,
      when(
        rowRef(row, HELD).above(0),
        nth('Held_weight', number)
          .orZero.power(part(1).over(3))
          .minus(grown(number, { ...thisDay, leap: leapNow })),
        0,
      ),
    );
    put(row, HELD + 2, call('IFERROR', nth('Tanks_limit', number).orZero, 0));
    put(row, HELD + 3, nth('Tanks_volume', number).orZero);
  }
  const heldNow = (what: 0 | 1, tank: Formula): Formula =>
    call('INDEX', fixedRef(area(FIRST, HELD + what, tanks)), tank);

  // The expected rate of deaths: those of the main species from stocking to sale, spread over its days in a year's water.
  const LIFE = HELD + 6;
  const line = named('Stock_line');
  const fact = (name: string): Formula => nth(`Fish_${name as 'tgc'}`, line);
  const lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  lengths.forEach((length, m) =>
    put(
      FIRST + m,
      LIFE,
      cardStep(growthWeightCard, 'temperature', {
        arguments: { water: nth('Month_water', m + 1) },
        fact,
      }).times(length),
    ),
  );
  const root = (weight: Formula): Formula => weight.power(part(1).over(3));
  const yearly = sum(fixedRef(area(FIRST, LIFE, 12)));
  put(
    HEADS,
    LIFE,
    when(
      line.isBlank,
      1,
      call(
        'IFERROR',
        named('Stock_survival_counts').power(
          fact('tgc')
            .over(1000)
            .times(yearly)
            .over(365)
            .over(root(named('Stock_harvest_weight')).minus(root(named('Stock_start_weight')))),
        ),
        1,
      ),
    ),
  );
  ctx.name('Ahead_survival', SHEET, area(HEADS, LIFE));

  columns.forEach((id) => sheet.put(HEADS, at(id), { value: id, look: 'columnHead' }));
  const keys = named('Fishlog_coming');
  const whole = (id: ColumnId, wide = 1): Formula => fixedRef(area(FIRST, at(id), lines, wide));
  for (let n = 0; n < lines; n++) {
    const row = FIRST + n;
    const c = (id: ColumnId): Formula => rowRef(row, at(id));
    const isIn = c('row').isFilled;
    const write = (id: ColumnId, formula: Formula, format: FormatId = 'general'): void =>
      put(row, at(id), blankUnless(isIn, formula), format);
    sheet.put(row, at('no'), { value: n + 1, look: 'source' });
    put(row, at('order'), when(call('COUNT', keys).below(n + 1), '', call('SMALL', keys, n + 1)));
    put(row, at('row'), blankUnless(c('order').isNumber, rowOfKey(c('order'))));
    write('day', dayOfDayKey(c('order')), 'date');
    write('years', yearsOf(c('day')));
    write('month', call('MONTH', c('day')));
    write('days', call('DAY', c('day')).minus(1));
    write(
      'leap',
      leapOf(c('day'), { years: c('years'), month: c('month'), days: c('days') }),
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
    const above = (id: ColumnId): Formula =>
      span(columnRef(FIRST, at(id)), rowRef(row - 1, at(id)));
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
    const moves = all(isIn, c('y').orZero.above(0));
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
              span(columnRef(FIRST, at(what)), rowRef(row - 1, at(what) + 1)),
              call('INT', q.over(2)),
              part(1).plus(call('MOD', q, 2)),
            ),
          );
    const dayOfMark = (q: Formula): Formula =>
      n === 0 ? today : when(q.is(0), today, call('INDEX', above('day'), call('INT', q.over(2))));
    const parts: Parts = { years: c('years'), month: c('month'), days: c('days'), leap: c('leap') };
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
    const is = (what: (typeof fishEvents)[number]): Condition => kindIs(c('kind'), what);
    const leaves = any(is('moved'), is('sold'), is('died'));
    write(
      'out',
      when(leaves, when(c('fish').isNumber, call('MIN', c('fish'), c('fishX')), c('fishX')), 0),
    );
    write('outGrams', when(all(c('weight').isNumber, not(is('died'))), c('weight'), c('gramsX')));
    const massLeft = c('fishX')
      .times(c('gramsX'))
      .minus(c('out').times(c('outGrams')));
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
    const rootOf = (grams: Formula, growth: ColumnId): Formula =>
      grams.power(part(1).over(3)).minus(c(growth));
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

  // The tanks, week by week.
  const more = call('COUNT', keys).above(lines);
  const turnsOfAll = fixedRef(area(FIRST, TURN, WEEK_ROWS, tanks));
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
            isoDate(cellRef(FIRST + lines - 1, at('day'))),
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
  const mass = shownIn('mass', system).unit;
  sheet.heads(HEADS, 0, [
    'Week',
    'Date',
    `Sold, ${mass}`,
    'Stocked',
    `Feed, ${shownIn('feedDay', system).unit}`,
    'Fullest',
  ]);
  sheet.heading(HEADS - 1, TANKS, tanks, `Density, ${density.unit}, on the last day of each week`);
  for (let k = 0; k < tanks; k++) {
    const name = nth('Tanks_name', k + 1);
    sheet.put(HEADS, TANKS + k, { formula: blankIf(name.isBlank, name), look: 'columnHead' });
  }
  const PARAMETERS = FIRST + WEEK_ROWS + 2;
  const ids = ['line', 'harvest', 'head', 'first', 'handling_low', 'handling_high'] as const;
  /** Of each tank its last planned row, and the day from which its turns hold. */
  const LAST_MARK = PARAMETERS + ids.length + 1;
  for (let k = 0; k < tanks; k++) {
    const tankLine = nth('Tanks_line', k + 1);
    ids.forEach((id, i) =>
      put(
        PARAMETERS + i,
        Q + k,
        id === 'line' ? call('IFERROR', tankLine.orZero, 0) : nth(`Weeks_${id}`, 1, k + 1),
      ),
    );
    const most = fixedRef(area(FIRST + k, HELD + 2)).times(fixedRef(area(FIRST + k, HELD + 3)));
    put(
      PARAMETERS + ids.length,
      Q + k,
      when(most.above(0), part(1).over(call('MAX', most, 1e-9)), 0),
    );
    const lastMark = call(
      'SUMPRODUCT',
      call(
        'MAX',
        whole('marksX')
          .is(k + 1)
          .times(whole('no')),
        whole('marksY')
          .is(k + 1)
          .times(whole('no')),
      ),
    );
    put(LAST_MARK, Q + k, lastMark, 'whole');
    put(
      LAST_MARK + 1,
      Q + k,
      when(
        columnRef(LAST_MARK, Q + k).is(0),
        today,
        call('INDEX', whole('day'), columnRef(LAST_MARK, Q + k)),
      ),
      'date',
    );
  }
  const parameter = (id: (typeof ids)[number], k: number): Formula =>
    columnRef(PARAMETERS + ids.indexOf(id), Q + k);
  for (let w = 0; w < WEEK_ROWS; w++) {
    const row = FIRST + w;
    const day = rowRef(row, 1);
    sheet.put(row, 0, { value: w, look: 'label' });
    sheet.put(row, 1, { formula: today.plus(7 * w), look: 'label', format: 'date' });
    const [years, month, days, leap] = [0, 1, 2, 3].map((i) => rowRef(row, PARTS + i)) as [
      Formula,
      Formula,
      Formula,
      Formula,
    ];
    put(row, PARTS, yearsOf(day));
    put(row, PARTS + 1, call('MONTH', day));
    put(row, PARTS + 2, call('DAY', day).minus(1));
    put(row, PARTS + 3, leapOf(day, { years, month, days }), 'whole');
    put(row, WATER, nth('Month_water', month));
    put(row, DONE, call('COUNTIF', whole('day'), joined('<=', day)));
    const water = rowRef(row, WATER);
    const isDone = whole('no').atMost(rowRef(row, DONE));
    for (let k = 0; k < tanks; k++) {
      const number = part(k + 1);
      const q = rowRef(row, Q + k);
      put(
        row,
        Q + k,
        w === 0
          ? part(0)
          : call(
              'SUMPRODUCT',
              call(
                'MAX',
                whole('marksX').is(number).times(isDone).times(whole('no')).times(2),
                whole('marksY').is(number).times(isDone).times(whole('no').times(2).plus(1)),
              ),
            ),
      );
      const mark = (what: 'fishThenX' | 'rootThenX'): Formula =>
        when(
          q.is(0),
          heldNow(what === 'fishThenX' ? 0 : 1, number),
          call('INDEX', whole(what, 2), call('INT', q.over(2)), part(1).plus(call('MOD', q, 2))),
        );
      const since = when(q.is(0), today, call('INDEX', whole('day'), call('INT', q.over(2))));
      const handled = [
        water.atLeast(parameter('handling_low', k)),
        water.atMost(parameter('handling_high', k)),
      ] as const;
      const turnBefore = cellRef(row - 1, TURN + k);
      /** An empty tank of which no row speaks is stocked on the day of the plan where its turn is now. */
      const stockedNow = all(
        columnRef(LAST_MARK, Q + k).is(0),
        heldNow(0, number).is(0),
        parameter('first', k).is(0),
        ...handled,
      );
      /** Without any planned row the weeks are those of the turns. */
      const byTurnsAlone = (weeks: 'Weeks_fish' | 'Weeks_weights', formula: Formula): Formula =>
        when(named('Ahead_rows').is(0), nth(weeks, w + 1, k + 1), formula);
      put(
        row,
        FISH + k,
        byTurnsAlone(
          'Weeks_fish',
          w === 0
            ? when(stockedNow, parameter('head', k).orZero, mark('fishThenX'))
            : cases(
                [
                  [turnBefore.is(TURNS.byRows), alive(mark('fishThenX'), day.minus(since))],
                  [turnBefore.is(TURNS.stands), alive(cellRef(row - 1, FISH + k), part(7))],
                  [
                    all(parameter('first', k).orZero.atMost(w), ...handled),
                    parameter('head', k).orZero,
                  ],
                ],
                0,
              ),
        ),
        'whole',
      );
      const fish = rowRef(row, FISH + k);
      const stands = fish.above(0);
      put(row, GROWN + k, when(stands, grown(number, { years, month, days, leap }), 0));
      const grownNow = rowRef(row, GROWN + k);
      const byRows = mark('rootThenX').plus(grownNow).power(3);
      put(
        row,
        GRAMS + k,
        byTurnsAlone(
          'Weeks_weights',
          w === 0
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
                    root(cellRef(row - 1, GRAMS + k))
                      .plus(grownNow.minus(cellRef(row - 1, GROWN + k)))
                      .power(3),
                  ],
                ],
                named('Stock_start_weight').orZero,
              ),
        ),
        'whole',
      );
      const grams = rowRef(row, GRAMS + k);
      // Between its planned rows nothing is sold that they do not sell.
      put(
        row,
        TURN + k,
        cases(
          [
            [day.below(columnRef(LAST_MARK + 1, Q + k)), TURNS.byRows],
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
          w === 0
            ? when(heldNow(0, number).is(0), TURNS.stands, TURNS.byRows)
            : call('MIN', turnBefore, TURNS.stands),
        ),
        'whole',
      );
      const volume = call('INDEX', fixedRef(area(FIRST, HELD + 3, tanks)), number);
      sheet.put(row, TANKS + k, {
        formula: blankUnless(
          all(nth('Tanks_name', k + 1).isFilled, volume.above(0)),
          inShownUnits(fish.times(grams).over(volume), 'density', system),
        ),
        look: 'computed',
        format: density.format,
      });
      // A weight that meets a head of the feed table to the last digits is at that head in every spreadsheet.
      put(row, STEP + k, when(stands, feedStep(call('ROUND', grams, 6)), 0), 'whole');
      put(
        row,
        FEED + k,
        when(
          stands,
          fish
            .times(grams)
            .times(
              feedRate(
                grams,
                rowRef(row, STEP + k),
                parameter('line', k),
                nth('Journal_appetite', number, month),
              ),
            ),
          0,
        ),
        'whole',
      );
    }
    const inWeek = (id: 'soldKg' | 'stocked'): Formula =>
      call(
        'SUMIFS',
        whole(id),
        whole('day'),
        joined('>=', day),
        whole('day'),
        joined('<', day.plus(7)),
      );
    const figure = (column: number, formula: Formula, format: FormatId): void =>
      sheet.put(row, column, { formula, look: 'computed', format });
    const ofTanks = (first: number, at = row): Formula =>
      span(rowRef(at, first), rowRef(at, first + tanks - 1));
    const soldInTurn = call(
      'SUMPRODUCT',
      ofTanks(TURN).is(TURNS.sold).times(ofTanks(FISH)).times(ofTanks(GRAMS)),
    ).over(1000);
    const stockedInTurn = call(
      'SUMPRODUCT',
      ofTanks(TURN, row - 1)
        .atLeast(TURNS.empty)
        .times(ofTanks(FISH)),
    );
    put(row, SOLD, inWeek('soldKg').plus(soldInTurn), 'one');
    figure(2, inShownUnits(rowRef(row, SOLD), 'mass', system), shownIn('mass', system).format);
    figure(
      3,
      inWeek('stocked').plus(
        w === 0 ? sum(ofTanks(FISH)).minus(sum(fixedRef(area(FIRST, HELD, tanks)))) : stockedInTurn,
      ),
      'whole',
    );
    put(row, FED, sum(ofTanks(FEED)), 'whole');
    figure(4, inShownUnits(rowRef(row, FED), 'feedDay', system), shownIn('feedDay', system).format);
    put(row, STANDING, call('SUMPRODUCT', ofTanks(FISH).times(ofTanks(GRAMS))).over(1000), 'one');
    figure(
      5,
      call(
        'SUMPRODUCT',
        call(
          'MAX',
          ofTanks(FISH)
            .times(ofTanks(GRAMS))
            .times(fixedRef(area(PARAMETERS + ids.length, Q, 1, tanks))),
        ),
      ),
      'percent',
    );
  }
  const series = [
    ['Ahead_feed', FED],
    ['Ahead_standing', STANDING],
    ['Ahead_sold', SOLD],
    ['Ahead_stocked', 3],
    ['Ahead_fullest', 5],
  ] as const;
  for (const [name, column] of series) ctx.name(name, SHEET, area(FIRST, column, WEEK_ROWS));
  ctx.name('Ahead_fish', SHEET, area(FIRST, FISH, WEEK_ROWS, tanks));
  ctx.name('Ahead_weights', SHEET, area(FIRST, GRAMS, WEEK_ROWS, tanks));
  put(HEADS - 1, PARTS, call('COUNT', keys));
  ctx.name('Ahead_rows', SHEET, area(HEADS - 1, PARTS));
  for (let k = 0; k < tanks; k++) {
    const cells = area(FIRST, TANKS + k, WEEK_ROWS);
    const held = cellRef(FIRST, FISH + k).times(cellRef(FIRST, GRAMS + k));
    const most = fixedRef(area(FIRST + k, HELD + 2)).times(fixedRef(area(FIRST + k, HELD + 3)));
    sheet.mark(cells, all(most.above(0), held.above(most.times(1 + 1e-6))), 'bad');
    sheet.mark(cells, all(most.above(0), held.above(most.times(NEARLY_FULL))), 'watch');
  }

  // Of each tank what comes next, by the planned rows and then by its turns. Places of rows and weeks count from 1.
  const OUTCOMES = LAST_MARK + 3;
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
  const rowOf = (id: OutcomeId): number =>
    OUTCOMES + outcomes.findIndex(([outcome]) => outcome === id);
  for (let k = 0; k < tanks; k++) {
    const outcome = (id: OutcomeId): Formula => columnRef(rowOf(id), Q + k);
    const ofTank = (column: number, from = 0, rows = WEEK_ROWS): Formula =>
      fixedRef(area(FIRST + from, column + k, rows));
    const weekNumbers = (rows = WEEK_ROWS): Formula => fixedRef(area(FIRST, 0, rows));
    const limit = fixedRef(area(FIRST + k, HELD + 2)).times(fixedRef(area(FIRST + k, HELD + 3)));
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
    const rowsLeft = part(lines + 1).minus(whole('no'));
    const weeksLeft = (rows: number): Formula => part(rows).minus(weekNumbers(rows));
    const hereX = whole('x').is(k + 1);
    const place = (id: 'x' | 'y'): Formula =>
      call('IFERROR', call('MATCH', k + 1, whole(id), 0), lines + 1);
    const nextRow = call('MOD', call('MIN', place('x'), place('y')), lines + 1);
    const inRow = (row: OutcomeId, id: ColumnId): Formula => call('INDEX', whole(id), outcome(row));
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
    const mass = ofTank(FISH).times(ofTank(GRAMS));
    const untilSale = when(
      outcome('Ahead_sale_day').isNumber,
      outcome('Ahead_sale_day'),
      today.plus(7 * WEEK_ROWS),
    );
    const stands = rowRef(FIRST, FISH + k).above(0);
    const isEmptyNow = heldNow(0, part(k + 1)).is(0);
    const what = call('INDEX', named('Fishlog_what'), inRow('next row', 'row'));
    const ofNext = inRow('next row', 'out');
    const formulas: Readonly<Record<OutcomeId, Formula>> = {
      'next row': nextRow,
      'sale row': firstOf(lines, rowsLeft, [hereX, whole('soldKg').above(0)]),
      'stocking row': firstOf(lines, rowsLeft, [hereX, whole('stocked').above(0)]),
      'week of sale': when(
        outcome('sale row').above(0),
        0,
        call('IFERROR', call('MATCH', TURNS.sold, ofTank(TURN), 0), 0),
      ),
      // Empty at the end of a week, and stocked in the next.
      'week of stocking': cases(
        [
          [outcome('stocking row').above(0), 0],
          [all(isEmptyNow, stands), 1],
        ],
        firstOf(
          WEEK_ROWS - 1,
          weeksLeft(WEEK_ROWS - 1),
          [
            ofTank(TURN, 0, WEEK_ROWS - 1).atLeast(TURNS.empty),
            ofTank(FISH, 1, WEEK_ROWS - 1).above(0),
          ],
          1,
        ),
      ),
      'week over limit': when(
        limit.is(0),
        0,
        firstOf(WEEK_ROWS, weeksLeft(WEEK_ROWS), [
          mass.above(limit.times(1 + 1e-6)),
          fixedRef(area(FIRST, 1, WEEK_ROWS)).atMost(untilSale),
        ]),
      ),
      Ahead_next_day: blankIf(outcome('next row').is(0), inRow('next row', 'day')),
      Ahead_next_what: blankIf(
        outcome('next row').is(0),
        joined(what, when(ofNext.orZero.above(0), joined(' ', ofNext), '')),
      ),
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
        call('ROUNDDOWN', inWeek('week of sale', FISH), 0),
      ),
      Ahead_sale_weight: rowOrWeek(
        'sale row',
        'week of sale',
        inRow('sale row', 'outGrams'),
        inWeek('week of sale', GRAMS),
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
        inWeek('week of stocking', FISH),
      ),
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
                .over(ofTank(GRAMS).plus(ofTank(GRAMS).is(0)))
                .times(fixedRef(area(FIRST, 1, WEEK_ROWS)).atMost(untilSale)),
            ),
          ),
          0,
        ),
      ),
      'most grams': call('SUMPRODUCT', call('MAX', mass)),
      Ahead_full_place: blankIf(
        outcome('most grams').is(0),
        firstOf(WEEK_ROWS, weeksLeft(WEEK_ROWS), [mass.atLeast(outcome('most grams'))]),
      ),
    };
    for (const [id, format] of outcomes) put(rowOf(id), Q + k, formulas[id], format);
  }
  for (const [id] of outcomes) {
    if (id.startsWith('Ahead_')) {
      ctx.name(id as Extract<OutcomeId, `Ahead_${string}`>, SHEET, area(rowOf(id), Q, 1, tanks));
    }
  }
  ctx.name('Ahead_planned', SHEET, area(LAST_MARK, Q, 1, tanks));

  // What is to be done next.
  const list = FIRST + WEEK_ROWS + 1;
  sheet.heading(list, 0, TANKS + Math.min(tanks, 6), 'To do next');
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
    const from = (id: ColumnId): Formula => fixedRef(area(FIRST + n, at(id)));
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

  // The picture: each tank's density through the year, and the least of the limits.
  const limits = fixedRef(area(FIRST, HELD + 2, tanks));
  const least = call('SMALL', limits, call('COUNTIF', limits, '<=0').plus(1));
  put(HEADS - 1, LIMIT, call('IFERROR', inShownUnits(least, 'density', system), ''));
  for (let w = 0; w < WEEK_ROWS; w++) {
    put(FIRST + w, LIMIT, fixedRef(area(HEADS - 1, LIMIT)), density.format);
  }
  const drawn = (name: string, column: number) => ({
    name,
    sheet: SHEET,
    area: area(FIRST, column, WEEK_ROWS),
  });
  const picture = list + LISTED + 4;
  // A page that ends in the picture would cut it in two.
  sheet.printOnPages([
    area(0, 0, list, WORK),
    area(list, 0, picture - list, WORK),
    area(picture, 0, 20, WORK),
  ]);
  sheet.chart({
    kind: 'line',
    title: `Density, tank by tank, and the least limit, ${density.unit}`,
    place: area(picture, 0, 20, TANKS + Math.min(tanks, 6)),
    categories: { sheet: SHEET, area: area(FIRST, 1, WEEK_ROWS) },
    series: [
      ...ctx.farm.tanks.slice(0, MAX_DRAWN).map(({ name }, k) => drawn(name, TANKS + k)),
      drawn('Limit', LIMIT),
    ],
    categoryTitle: 'Week of',
    valueTitle: density.unit,
  });
  return sheet.model();
}
