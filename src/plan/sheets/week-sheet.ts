import { cautions } from '../../functions/cautions';
import { cropTable } from '../../functions/crop-table';
import type { PlanContext } from '../context';
import { cropFigure } from '../crop-figures';
import {
  all,
  any,
  blankUnless,
  blankWithout,
  call,
  cases,
  type Formula,
  isoDate,
  joined,
  part,
  type Part,
  when,
  written,
} from '../formula-parts';
import { inMonth } from '../month-cells';
import { dayOfDayKey, rowOfKey } from '../register-keys';
import type { SheetModel } from '../workbook-model';
import { countOf, type FigureName, hasCode, named, nth, type StatusCodes } from '../names';
import { figureInWords, type QuantityId, shownIn } from '../quantities';
import { rowRef, span } from '../references';
import { area, SheetBuilder } from '../sheet-builder';
import { SPARE_TANKS } from './tanks-sheet';

const SHEET = 'Week';
/** Crops that are looked at: those of the table, and some more that a grower may have put between them. */
const CROPS = cropTable.rows.length + 20;
/** Two lists side by side, each a box and its words; the plants left, fish and water right, then cautions. */
const LEFT = 0;
const RIGHT = 3;
const CAUTIONS = 6;
const CAUTION_WIDTH = 46;
const WIDTH = 7;
/** Column of the helpers, beyond what is printed. */
const HELPERS = 7;
/** Lines of each list; what is over them is counted in words. */
const SOWINGS = 6;
const BEDS = 6;
const PLANNED = 4;
/** The month of the week's Thursday. */
const month = call('MONTH', named('Farm_week').plus(3));
const sunday = named('Farm_week').plus(6);

const weekDangers = [
  'food',
  'sprays',
  'base',
  'steps',
  'chlorine',
  'electricity',
  'heater',
] as const;

interface Line {
  /** Text formula; a line without anything to do shows nothing and no box is needed. */
  readonly formula: Formula;
  /** Needs two lines on paper. */
  readonly long?: true;
}

/** A list with boxes to tick; returns the row after it. */
function list(
  sheet: SheetBuilder,
  row: number,
  side: number,
  title: string,
  lines: readonly Line[],
  remark?: string,
): number {
  sheet.heading(row, side, 2, title);
  let next = row + 1;
  for (const { formula, long } of lines) {
    sheet.put(next, side, { look: 'tick' });
    const cell = { formula, look: 'text' } as const;
    if (long) sheet.wide(next, side + 1, 1, cell, 2);
    else sheet.put(next, side + 1, cell);
    next += long ? 2 : 1;
  }
  if (remark !== undefined) {
    const rows = remark.length > 110 ? 2 : 1;
    sheet.wide(next, side + 1, 1, { value: remark, look: 'source' }, rows);
    next += rows;
  }
  return next + 1;
}

/** Market crops whose sowing day lies in the week, numbered in a helper column. */
function sowings(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const rows = ctx.farm.markets.length + 6;
  sheet.text(2, HELPERS, 'For the lists', 'source');
  const first = 3;
  for (let i = 0; i < rows; i++) {
    const next = nth('Sowing_next', i + 1).orZero;
    const above =
      i === 0 ? part(0) : call('MAX', span(rowRef(first, HELPERS), rowRef(first + i - 1, HELPERS)));
    sheet.put(first + i, HELPERS, {
      formula: blankUnless(all(next.above(0), next.atMost(sunday)), above.plus(1)),
      look: 'source',
    });
  }
  ctx.name('Week_sowings', SHEET, area(first, HELPERS, rows));
  const lines = Array.from({ length: SOWINGS }, (_, k): Line => {
    const at = call('MATCH', k + 1, named('Week_sowings'), 0);
    return {
      formula: blankUnless(
        call('COUNT', named('Week_sowings')).atLeast(k + 1),
        joined(
          nth('Sowing_crop', at),
          ': ',
          written(nth('Sowing_seeds', at).orZero, '#,##0'),
          ' seeds in ',
          written(nth('Sowing_trays', at).orZero, '0'),
          ' trays, by ',
          isoDate(nth('Sowing_next', at)),
        ),
      ),
    };
  });
  return list(
    sheet,
    row,
    LEFT,
    'Sow',
    lines,
    'Damp, warm, dark or light as the packet says; label each tray with crop and date.',
  );
}

/** Beds that ask for something by Sunday. */
function bedTasks(
  sheet: SheetBuilder,
  row: number,
  title: string,
  task: Exclude<StatusCodes['Beds_task_code'], ''>,
  remark?: string,
  says?: (at: Formula) => readonly Part[],
): number {
  const count = countOf('Beds_task_code', task);
  const lines = Array.from({ length: BEDS }, (_, k): Line => {
    const at = call('MATCH', `${task} ${k + 1}`, named('Beds_task_key'), 0);
    const rest = count.minus(BEDS - 1);
    const bed = joined(nth('Beds_name', at), ': ', nth('Beds_crop', at), ...(says?.(at) ?? []));
    const text =
      k === BEDS - 1
        ? when(rest.above(1), joined(rest, ' more beds: see State on the Beds sheet'), bed)
        : bed;
    return { formula: blankUnless(count.atLeast(k + 1), text) };
  });
  return list(sheet, row, LEFT, title, lines, remark);
}

/** Line of the sheet before the first row of either register. */
const LINES_ABOVE = 5;

/** Planned rows whose day has come, or comes by Sunday: of the fish, then of the plants. */
function planned(sheet: SheetBuilder, row: number): number {
  const linesOf = (
    register: 'Fishlog' | 'Plantings',
    where: string,
    says: (at: Formula) => readonly Part[],
  ): Line[] => {
    const due = named(`${register}_asked`);
    const count = call('COUNT', due);
    return Array.from({ length: PLANNED }, (_, k): Line => {
      const key = call('SMALL', due, k + 1);
      const at = rowOfKey(key);
      const day = dayOfDayKey(key);
      const text = joined(
        isoDate(day),
        ': ',
        ...says(at),
        ` (${where}, line `,
        at.plus(LINES_ABOVE),
        ')',
      );
      const rest = count.minus(PLANNED - 1);
      return {
        formula: blankUnless(
          count.atLeast(k + 1),
          k === PLANNED - 1
            ? when(rest.above(1), joined(rest, ` more: see Planned in ${where}`), text)
            : text,
        ),
      };
    });
  };
  const worded = (cell: Formula, before: string, after = ''): Formula =>
    blankWithout([cell], joined(before, cell, after));
  return list(
    sheet,
    row,
    LEFT,
    'Planned, and due by Sunday',
    [
      ...linesOf('Fishlog', 'Fish log', (at) => [
        nth('Fishlog_what', at),
        worded(nth('Fishlog_fish', at), ' '),
        ', ',
        nth('Fishlog_tank', at),
        worded(nth('Fishlog_to_tank', at), ' to '),
      ]),
      ...linesOf('Plantings', 'Plantings', (at) => [
        when(nth('Plantings_sown', at).isBlank, 'plant out ', 'sow '),
        nth('Plantings_crop', at),
        worded(nth('Plantings_bed', at), ', '),
      ]),
    ],
    'Done as planned: clear the mark in its row. Done otherwise: write otherwise there, and what was done in a row of its own. Not done: write not done.',
  );
}

function fish(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const tanks = Math.min(ctx.farm.tanks.length + SPARE_TANKS, 24);
  const lines = Array.from({ length: tanks }, (_, i): Line => {
    const tank = nth('Tanks_name', i + 1);
    const feed = nth('Tanks_feed', i + 1).orZero;
    const task = nth('Stock_task', i + 1);
    return {
      formula: blankWithout(
        [tank],
        joined(
          tank,
          when(
            feed.is(0),
            ': nothing to feed',
            joined(': feed ', roundFigure(ctx, feed, 'feedDay')),
          ),
          blankWithout([task], joined('; ', task)),
        ),
      ),
    };
  });
  return list(
    sheet,
    row,
    RIGHT,
    'Fish',
    lines,
    'Watch them eat and take back what is left. No feed on the day before moving or selling, none when they gasp.',
  );
}

/** A figure for reading in the tunnel: whole grams, tenths of a pound. */
const roundFigure = (ctx: PlanContext, figure: Formula, quantity: QuantityId): Formula =>
  figureInWords(figure, quantity, ctx.system, {
    decimals: shownIn(quantity, ctx.system).factor === 1 ? '#,##0' : '#,##0.0',
  });

function tunnel(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const { gill, system } = ctx;
  const high = inMonth('Month_high', month);
  const low = inMonth('Month_low', month);
  const humidity = inMonth('Month_humidity', month);
  const dew = gill('AIR.DEWPOINT', nth('Month_air', month), humidity);
  const venting = blankUnless(
    named('House_flow').orZero.isNot(0),
    joined('; full venting moves ', figureInWords(named('House_flow'), 'airFlow', system)),
  );
  return list(
    sheet,
    row,
    RIGHT,
    'Tunnel',
    [
      {
        formula: cases(
          [
            [
              any(high.isBlank, low.isBlank),
              'Vent by the air: the months of the Site sheet are not said yet',
            ],
            [high.atLeast(30), joined('Vents open day and night, shade up before noon', venting)],
            [high.atLeast(24), joined('Vents open through the day, shade on clear days', venting)],
            [low.below(5), 'Vent two hours about noon even in the cold, closed before dusk'],
          ],
          'Vent through the warm hours, closed before dusk',
        ),
      },
      {
        formula: joined(
          'Dry the air after sunset and at sunrise: film and leaves colder than ',
          when(
            any(high.isBlank, low.isBlank, humidity.isBlank),
            'its dew point',
            figureInWords(dew, 'temperature', system, { decimals: '0.0' }),
          ),
          ' get wet, and grey mould needs wet leaves',
        ),
        long: true,
      },
    ],
    'Months of the Site sheet. Two hours a day even in the cold is common practice, no source.',
  );
}

/** A line that is the same every week. */
const always = (text: string, long?: true): Line => ({
  formula: part(text),
  ...(long && { long }),
});

function plants(sheet: SheetBuilder, row: number): number {
  const grows = hasCode('Beds_status', named('Beds_status'), 'growing');
  const isFruiting = call('COUNTIF', named('Week_fruiting'), named('Beds_crop')).above(0);
  const beds = call('SUMPRODUCT', grows.times(isFruiting));
  return list(sheet, row, RIGHT, 'Prune, train, look', [
    {
      formula: when(
        beds.is(0),
        'No trained crops stand',
        joined(
          written(beds, '0'),
          ' beds of fruiting crops: side shoots out, tied to the string, old leaves off',
        ),
      ),
    },
    always(
      'Undersides of leaves, growing tips, sticky traps: aphids, whitefly, mites, caterpillars. Pick, wash off, set friends; spray nothing that fish cannot bear',
      true,
    ),
    always('Roots and rafts: white roots, no slime; take out what is sick'),
  ]);
}

function water(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const dose = (
    name: FigureName,
    label: string,
    remark: string,
    none: Part = 'no test to go by',
  ): Line => {
    const amount = named(name);
    return {
      formula: cases(
        [
          [amount.isBlank, joined(`${label}: `, none)],
          [amount.atMost(0), `${label}: nothing to add by the last test`],
        ],
        joined(`${label}: `, roundFigure(ctx, amount, 'dose'), ` in all, ${remark}`),
      ),
    };
  };
  return list(
    sheet,
    row,
    RIGHT,
    'Water',
    [
      always(
        'Test temperature, pH, ammonia, nitrite, nitrate, oxygen, alkalinity, iron; write them into the Water log',
        true,
      ),
      { formula: named('Balance_verdict'), long: true },
      dose(
        'Dose_base',
        'Base',
        'in small steps over days, goggles and gloves on',
        named('Dose_base_says'),
      ),
      dose('Dose_iron', 'Iron chelate', 'dissolved, spread over the system'),
      dose('Dose_salt', 'Salt against nitrite', 'a part at a time'),
      always('Screens, pumps, air stones, alarm: look, clean, try'),
    ],
    'Doses follow the last complete test. Half at first, measure again. Follow local codes; ask a licensed professional where they call for one.',
  );
}

/** What can hurt in this week's work; returns the row after it. */
function dangers(sheet: SheetBuilder, row: number): number {
  sheet.heading(row, CAUTIONS, 1, 'Beware');
  let next = row + 1;
  for (const id of weekDangers) {
    // Words are not broken, so that a line is never quite full.
    const rows = Math.ceil(cautions[id].length / (CAUTION_WIDTH - 8));
    sheet.wide(next, CAUTIONS, 1, { value: cautions[id], look: 'caution' }, rows);
    next += rows;
  }
  return next;
}

/** One page of what there is to do in the week of the as-of date. */
export function weekSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'The week',
    question: 'What is there to do this week?',
    widths: [4, 62, 3, 4, 78, 3, CAUTION_WIDTH],
    landscape: true,
    headRows: 3,
  });
  sheet.put(2, 1, {
    formula: joined(
      'Monday ',
      isoDate(named('Farm_week')),
      ' to Sunday ',
      isoDate(sunday),
      ', as of ',
      isoDate(named('Farm_date')),
    ),
    look: 'label',
  });
  // Fruiting crops by name, for counting beds.
  sheet.text(2, HELPERS + 1, 'Fruiting crops', 'source');
  for (let i = 0; i < CROPS; i++) {
    sheet.put(3 + i, HELPERS + 1, {
      formula: blankUnless(
        call('ROWS', named('Crop_name')).atLeast(i + 1),
        blankUnless(cropFigure('group', part(i + 1)).is('fruiting'), nth('Crop_name', i + 1)),
      ),
      look: 'source',
    });
  }
  ctx.name('Week_fruiting', SHEET, area(3, HELPERS + 1, CROPS));
  let left = planned(sheet, 3);
  left = sowings(sheet, ctx, left);
  left = bedTasks(sheet, left, 'Plant out', 'plant out', undefined, (at) => [
    ', ',
    written(nth('Beds_plants', at).orZero, '0'),
    ' plants',
  ]);
  left = bedTasks(
    sheet,
    left,
    'Harvest',
    'cut',
    'Pick leafy crops dry, above the raft or gravel; no fish water on what is eaten; cool quickly.',
  );
  left = bedTasks(sheet, left, 'Clear', 'clear');
  let right = fish(sheet, ctx, 3);
  right = water(sheet, ctx, right);
  right = plants(sheet, right);
  right = tunnel(sheet, ctx, right);
  const end = Math.max(left, right, dangers(sheet, 3));
  const model = sheet.model();
  return {
    ...model,
    print: { ...model.print, pagesTall: 1, areas: [area(0, 0, end, WIDTH)] },
  };
}
