import { ABOVE_BASE, SHORT_DAY } from '../../core/season-limits';
import { cropTable } from '../../functions/crop-table';
import type { PlanContext } from '../context';
import { cropFigure } from '../crop-figures';
import {
  all,
  any,
  blankIf,
  blankUnless,
  blankWithout,
  call,
  cases,
  type Condition,
  type Formula,
  joined,
  part,
  roundedUp,
  sum,
  when,
  written,
} from '../formula-parts';
import { named, nth, type PlantingAhead } from '../names';
import { LIGHT_LINE } from '../planting-ahead';
import { inShownUnits, shownIn } from '../quantities';
import { BED_PLACES, ROW_PLACES } from '../register-keys';
import { cellRef, columnRef, fixedRef, rowRef, span } from '../references';
import { area, SheetBuilder } from '../sheet-builder';
import { Flow } from '../sheet-flow';
import type { Area, SheetModel } from '../workbook-model';

export const SEASON = 'Season';

const WEEKS = 26;
/** First column of the weeks; before them a name and a figure. */
const FIRST = 2;
/** Weeks on one printed page, and with the columns before them how many columns it has. */
const PAGE_WEEKS = WEEKS / 2;
const PAGE = FIRST + PAGE_WEEKS;
/** Behind the weeks: what they come to. */
const TOTALS = FIRST + WEEKS;
const TOTAL_HEADS = [
  'Wanted',
  'Short',
  'Beyond',
  'Short, money',
  'Beyond, money',
  'Weeks of cutting out of its season',
];
/** Workings: what is summed up to each Monday, and the warmth of crops by month. */
const WORK = TOTALS + TOTAL_HEADS.length + 1;
/** Columns of what holds of a crop through all weeks; then the Mondays. */
const CROP_COLUMNS = 8;
const SUMS = WORK + CROP_COLUMNS;
const MONTHS = 36;
/** Lines for beds and crops that are typed after the plan was made. */
const SPARE_BEDS = 4;
const SPARE_CROPS = 3;
const CUT = ' ×';
/** Beyond this share of what is wanted, surplus is marked. */
const MUCH = 1.3;

interface Places {
  readonly weekRow: number;
  readonly crops: number;
  /** Row of the heading. */
  readonly from: number;
  /** First line of the crops, each with what is expected in the weeks. */
  readonly supply: number;
  readonly seeds: number;
}

/** The Monday of a week, which stands as a day among the workings; week 26 is the one behind the last. */
const week = (row: number, at: number): Formula => fixedRef(area(row, SUMS + at));

/**
 * What stands in a bed in the week that begins on `monday`, in a few letters. `place` is where the key of the last
 * day of the week falls among the keys of the Plantings, `before` how many of these are of beds before it.
 */
function inBed(place: Formula, before: Formula, monday: Formula): Formula {
  const of = (name: PlantingAhead): Formula => nth(`Plantings_${name}`, place);
  const cut = (day: Formula): Formula => blankUnless(day.minus(6).atMost(monday), CUT);
  return cases(
    [
      [place.atMost(before), ''],
      [of('until').atMost(monday), ''],
      [
        of('own').above(monday),
        joined(of('newest'), blankUnless(of('before').above(monday), '+'), cut(of('newest_cut'))),
      ],
    ],
    joined(of('kept'), cut(of('kept_cut'))),
  );
}

function calendar(sheet: SheetBuilder, ctx: PlanContext, flow: Flow, weekRow: number): void {
  const beds = ctx.farm.beds.length + SPARE_BEDS;
  flow.heading('What stands in beds', TOTALS);
  flow.wide(
    {
      value: `A crop by its first letters: with a point before it planned, bare once planted or sown; ${CUT.trim()} in the weeks in which it is cut; + where more than one batch stands in the bed. From the Plantings; dates by the warmth of the months on Site.`,
      look: 'source',
    },
    1,
    PAGE,
  );
  const first = flow.skip(beds);
  for (let b = 0; b < beds; b++) {
    const row = first + b;
    const name = nth('Beds_name', b + 1);
    sheet.put(row, 0, { formula: blankIf(name.isBlank, name), look: 'label' });
    const kind = nth('Beds_kind', b + 1);
    sheet.put(row, 1, { formula: blankIf(kind.isBlank, kind), look: 'unit' });
    const slots = named('Plantings_slots');
    const from = part((b + 1) * BED_PLACES);
    const workings = (column: number, formula: Formula): void =>
      sheet.put(row, column, { formula, look: 'source', format: 'general' });
    workings(WORK, call('COUNTIF', slots, joined('<', from)));
    for (let w = 0; w < WEEKS; w++) {
      const key = from.plus(columnRef(weekRow - 1, SUMS + w));
      workings(SUMS + w, call('IFERROR', call('MATCH', key, slots, 1), 0));
      sheet.put(row, FIRST + w, {
        formula: inBed(rowRef(row, SUMS + w), rowRef(row, WORK), columnRef(weekRow, SUMS + w)),
        look: 'computed',
        format: 'text',
      });
    }
  }
  const cells = area(first, FIRST, beds, WEEKS);
  const cell = cellRef(first, FIRST);
  sheet.mark(cells, call('ISNUMBER', call('SEARCH', CUT.trim(), cell)) as Condition, 'good');
  sheet.put(flow.skip(), 0, {
    formula: blankUnless(
      call('COUNTA', named('Beds_name')).above(beds),
      'Beds has more beds than lines here: make the plan anew.',
    ),
    look: 'verdict',
  });
}

/** Warmth and length of day of each week: named where a crop is cut in what it does not like. */
function weather(
  sheet: SheetBuilder,
  { gill, system }: PlanContext,
  flow: Flow,
  weekRow: number,
): { readonly air: number; readonly day: number } {
  const [air, day] = [flow.skip(), flow.skip()];
  sheet.text(air, 0, `Air, mean of the month, ${shownIn('temperature', system).unit}`, 'label');
  sheet.text(day, 0, 'Day, hours of light', 'label');
  const { format } = shownIn('temperature', system);
  for (let w = 0; w < WEEKS; w++) {
    const thursday = week(weekRow, w).plus(3);
    sheet.put(air, SUMS + w, {
      formula: nth('Month_air', call('MONTH', thursday)),
      look: 'source',
      format: 'one',
    });
    const degrees = rowRef(air, SUMS + w);
    sheet.put(air, FIRST + w, {
      formula: blankUnless(degrees.isNumber, inShownUnits(degrees, 'temperature', system)),
      look: 'computed',
      format,
    });
    const latitude = named('Farm_latitude');
    sheet.put(day, FIRST + w, {
      formula: blankWithout([latitude], gill('SUN.HOURS', latitude, thursday)),
      look: 'computed',
      format: 'one',
    });
  }
  sheet.mark(
    area(day, FIRST, 1, WEEKS),
    all(cellRef(day, FIRST).isNumber, cellRef(day, FIRST).below(SHORT_DAY)),
    'watch',
  );
  return { air, day };
}

function market(
  sheet: SheetBuilder,
  ctx: PlanContext,
  flow: Flow,
  weekRow: number,
  crops: number,
): Places {
  const from = flow.row;
  flow.heading('Expected harvest', TOTALS);
  flow.wide(
    {
      value:
        'Of all rows of the Plantings in their beds, in the units of the Sowing sheet: spread evenly over the days from the first cut to clearing, on one day where a crop is cut once. Red where less is expected than is wanted in the week, yellow where more than 1.3 times as much. Heat, cold and days shorter than 10 hours are named; what they cost is not reckoned, since no published figure holds for all crops.',
      look: 'source',
    },
    1,
    PAGE,
  );
  const heads = flow.skip();
  sheet.heads(heads, 0, ['Crop', 'Wanted a week']);
  sheet.heads(heads, TOTALS, TOTAL_HEADS);
  sheet.heads(heads, WORK, [
    'Line',
    'Gives',
    'Plants wanted a week',
    'Income a week',
    'From',
    'Cells',
    'One by what it gives',
    'Price',
  ]);
  const sky = weather(sheet, ctx, flow, weekRow);
  const supply = flow.skip(crops);
  for (let i = 0; i < crops; i++) {
    const row = supply + i;
    const c = (column: number): Formula => rowRef(row, column);
    const [line, gives, plants, income, begins] = [0, 1, 2, 3, 4].map((at) => c(WORK + at)) as [
      Formula,
      Formula,
      Formula,
      Formula,
      Formula,
    ];
    const price = c(WORK + 7);
    const here = (column: 'crop' | 'gives' | 'harvest' | 'cells'): Formula =>
      nth(`Sowing_${column}`, i + 1);
    const work = (at: number, formula: Formula, format: 'general' | 'date' = 'general'): void =>
      sheet.put(row, WORK + at, { formula, look: 'source', format });
    const own = nth('Sowing_line', i + 1);
    // The first of the rows that sell a crop stands for all of them.
    work(
      0,
      call(
        'IFERROR',
        blankUnless(
          all(
            own.isNumber,
            call('MATCH', own, named('Sowing_line'), 0).is(i + 1),
            here('gives').above(0),
          ),
          own,
        ),
        '',
      ),
    );
    const isIn = line.isNumber;
    work(1, blankUnless(isIn, here('gives')));
    const rows = Array.from({ length: crops }, (_, at) => at + 1);
    const ofRows = (of: (at: number) => Formula): Formula =>
      sum(
        ...rows.map((at) => when(nth('Sowing_line', at).is(line), call('IFERROR', of(at), 0), 0)),
      );
    work(
      2,
      blankUnless(
        isIn,
        ofRows((at) => nth('Sowing_wanted', at).orZero.over(nth('Sowing_gives', at))),
      ),
    );
    work(
      3,
      blankUnless(
        isIn,
        ofRows((at) =>
          nth('Sowing_wanted', at).orZero.times(nth('Sowing_price_counts', at).orZero),
        ),
      ),
    );
    const sold = any(
      call('SUMIFS', named('Plantings_needs'), named('Plantings_line'), line).above(0),
      call('COUNTIF', named('Harvest_what'), here('crop')).above(0),
    );
    work(4, blankUnless(isIn, when(sold, named('Season_from'), here('harvest').orZero)), 'date');
    work(5, blankUnless(isIn, here('cells').orZero));
    work(6, when(isIn, part(1).over(gives), 0));
    sheet.put(row, 0, { formula: blankUnless(isIn, here('crop')), look: 'label' });
    const wanted = c(1);
    sheet.put(row, 1, {
      formula: blankUnless(isIn, plants.times(gives)),
      look: 'computed',
      format: 'one',
    });
    work(7, when(isIn, call('IFERROR', income.over(wanted), 0), 0));
    for (let w = 0; w <= WEEKS; w++) {
      const until = week(weekRow, w);
      const cut = (name: 'Plantings_rate' | 'Plantings_moment'): Formula =>
        call(
          'SUMIFS',
          named(name),
          named('Plantings_line'),
          line,
          named('Plantings_due'),
          joined('<', until),
          named('Plantings_ends'),
          joined('>', until),
        );
      const gone = call(
        'SUMIFS',
        named('Plantings_units'),
        named('Plantings_line'),
        line,
        named('Plantings_ends'),
        joined('<=', until),
      );
      sheet.put(row, SUMS + w, {
        formula: blankUnless(
          isIn,
          gone.plus(until.times(cut('Plantings_rate'))).minus(cut('Plantings_moment')),
        ),
        look: 'source',
        format: 'one',
      });
      if (w === WEEKS) continue;
      sheet.put(row, FIRST + w, {
        formula: blankUnless(isIn, call('ROUND', c(SUMS + w + 1).minus(c(SUMS + w)), 6)),
        look: 'computed',
        format: 'one',
      });
    }
    const weeks = span(c(FIRST), c(FIRST + WEEKS - 1));
    const mondays = fixedRef(area(weekRow, SUMS, 1, WEEKS));
    const counted = mondays.plus(7).above(begins);
    const off = (missing: boolean): Formula => {
      const wants = counted.times(wanted);
      const more = missing ? wants.minus(weeks) : weeks.minus(wants);
      return call('SUMPRODUCT', more.above(0).times(more));
    };
    const total = (at: number, formula: Formula, format: 'one' | 'money' = 'one'): void =>
      sheet.put(row, TOTALS + at, { formula: blankUnless(isIn, formula), look: 'result', format });
    total(0, call('SUMPRODUCT', counted.times(wanted)));
    total(1, off(true));
    total(2, off(false));
    total(3, c(TOTALS + 1).times(price), 'money');
    total(4, c(TOTALS + 2).times(price), 'money');
    const air = fixedRef(area(sky.air, SUMS, 1, WEEKS));
    const day = fixedRef(area(sky.day, FIRST, 1, WEEKS));
    const limit = cropFigure('heat_limit', line);
    const coldest = cropFigure('base_temp', line).plus(ABOVE_BASE);
    const weeksOf = (off: Condition, known: Condition): Formula =>
      when(known, call('SUMPRODUCT', weeks.above(0).times(off)), 0);
    const said = (count: Formula, what: string): Formula =>
      when(count.above(0), joined(count, ` ${what} `), '');
    sheet.put(row, TOTALS + 5, {
      formula: blankUnless(
        all(isIn, call('COUNT', air).is(WEEKS)),
        joined(
          said(weeksOf(air.above(limit), limit.isNumber), 'too hot'),
          said(weeksOf(air.below(coldest), cropFigure('base_temp', line).isNumber), 'too cold'),
          said(
            weeksOf(day.below(SHORT_DAY), call('COUNT', day).is(WEEKS) as Condition),
            'short days',
          ),
        ),
      ),
      look: 'verdict',
    });
  }
  const cells = area(supply, FIRST, crops, WEEKS);
  const cell = cellRef(supply, FIRST);
  const isWanted = all(
    cell.isNumber,
    columnRef(weekRow, SUMS)
      .plus(7)
      .above(rowRef(supply, WORK + 4)),
  );
  const wanted = rowRef(supply, 1);
  sheet.mark(cells, all(isWanted, cell.plus(1e-6).below(wanted)), 'bad');
  sheet.mark(cells, all(isWanted, cell.above(part(MUCH).times(wanted))), 'watch');
  const money = flow.skip();
  sheet.text(money, 0, 'All crops', 'label');
  for (const at of [3, 4]) {
    sheet.put(money, TOTALS + at, {
      formula: sum(fixedRef(area(supply, TOTALS + at, crops))),
      look: 'result',
      format: 'money',
    });
  }
  return { weekRow, crops, from, supply, seeds: 0 };
}

/** What falls into the week of a column: figures of rows whose day is in it. */
const inWeek = (
  figures: 'Plantings_seeds' | 'Plantings_plants',
  days: 'Plantings_sown' | 'Plantings_out',
  monday: Formula,
  line: Formula | undefined,
): Formula =>
  call(
    'SUMIFS',
    named(figures),
    named('Plantings_line'),
    line ?? '>0',
    named(days),
    joined('>=', monday),
    named(days),
    joined('<', monday.plus(7)),
  );

function seedsAndTrays(
  sheet: SheetBuilder,
  flow: Flow,
  { weekRow, crops, supply }: Places,
): number {
  const block = (title: string, cell: (row: number, w: number) => Formula): number => {
    flow.heading(title, TOTALS);
    const first = flow.skip(crops);
    for (let i = 0; i < crops; i++) {
      const row = first + i;
      sheet.put(row, 0, { formula: rowRef(supply + i, 0), look: 'label' });
      for (let w = 0; w < WEEKS; w++) {
        sheet.put(row, FIRST + w, { formula: cell(i, w), look: 'computed', format: 'whole' });
      }
    }
    return first;
  };
  const line = (i: number): Formula => rowRef(supply + i, WORK);
  const seeds = block('Seeds to sow', (i, w) => {
    const sown = inWeek('Plantings_seeds', 'Plantings_sown', week(weekRow, w), line(i));
    return blankUnless(line(i).isNumber, blankIf(sown.is(0), sown));
  });
  block('Trays for these seeds', (i, w) => {
    const cells = rowRef(supply + i, WORK + 5);
    const sown = columnRef(seeds + i, FIRST + w);
    return blankUnless(all(cells.orZero.above(0), sown.isNumber), roundedUp(sown.over(cells)));
  });
  return seeds;
}

function hours(sheet: SheetBuilder, flow: Flow, { weekRow, crops, supply, seeds }: Places): void {
  flow.heading('Hands', TOTALS);
  flow.fields([
    {
      name: 'Season_hours_sow',
      label: 'Hours to sow 100 seeds',
      preset: 'Season_hours_sow',
      look: 'input',
    },
    {
      name: 'Season_hours_plant',
      label: 'Hours to plant out 100 plants',
      preset: 'Season_hours_plant',
      look: 'input',
    },
    {
      name: 'Season_hours_cut',
      label: 'Hours to cut 100 plants',
      preset: 'Season_hours_cut',
      look: 'input',
    },
  ]);
  const [sow, out, cut, inAll] = [flow.skip(), flow.skip(), flow.skip(), flow.skip()];
  sheet.text(sow, 0, 'Seeds to sow', 'label');
  sheet.text(out, 0, 'Plants to plant out', 'label');
  sheet.text(cut, 0, 'Plants to cut', 'label');
  sheet.text(inAll, 0, 'Hours, where typed', 'label');
  const inverse = fixedRef(area(supply, WORK + 6, crops));
  for (let w = 0; w < WEEKS; w++) {
    const column = FIRST + w;
    const ofCrops = (first: number): Formula =>
      span(columnRef(first, column), columnRef(first + crops - 1, column));
    const put = (row: number, formula: Formula, format: 'whole' | 'one' = 'whole'): void =>
      sheet.put(row, column, { formula, look: row === inAll ? 'result' : 'computed', format });
    put(sow, sum(ofCrops(seeds)));
    put(out, inWeek('Plantings_plants', 'Plantings_out', week(weekRow, w), undefined));
    put(cut, call('SUMPRODUCT', ofCrops(supply), inverse));
    const hour = (row: number, name: 'sow' | 'plant' | 'cut'): Formula =>
      columnRef(row, column)
        .times(named(`Season_hours_${name}`).orZero)
        .over(100);
    put(
      inAll,
      blankUnless(
        call(
          'COUNT',
          named('Season_hours_sow'),
          named('Season_hours_plant'),
          named('Season_hours_cut'),
        ).above(0),
        hour(sow, 'sow').plus(hour(out, 'plant')).plus(hour(cut, 'cut')),
      ),
      'one',
    );
  }
}

/** Warmth of the months for each crop, and on the last line their light, summed from the first of them on. */
function warmth(sheet: SheetBuilder, ctx: PlanContext, firstRow: number): void {
  const first = SUMS + WEEKS + 3;
  const lines = cropTable.rows.length;
  sheet.text(firstRow - 1, first - 1, 'Warmth for each crop before', 'source');
  const starts = area(firstRow, first, 1, MONTHS + 1);
  const today = named('Farm_date');
  for (let m = 0; m <= MONTHS; m++) {
    sheet.put(firstRow, first + m, {
      formula: call('DATE', call('YEAR', today).minus(1), call('MONTH', today).plus(m), 1),
      look: 'source',
      format: 'date',
    });
  }
  const grid = area(firstRow + 1, first, LIGHT_LINE, MONTHS + 1);
  // Air and days of each month stand below the crops, base and cap of each crop before them.
  const lightRow = firstRow + LIGHT_LINE;
  const airRow = lightRow + 1;
  const [baseColumn, capColumn] = [first - 2, first - 1];
  const put = (row: number, column: number, formula: Formula): void =>
    sheet.put(row, column, { formula, look: 'source', format: 'general' });
  for (let m = 1; m <= MONTHS; m++) {
    const start = columnRef(firstRow, first + m - 1);
    put(airRow, first + m, nth('Month_air', call('MONTH', start)));
    put(airRow + 1, first + m, columnRef(firstRow, first + m).minus(start));
  }
  for (let i = 0; i < lines; i++) {
    const row = firstRow + 1 + i;
    put(row, baseColumn, cropFigure('base_temp', part(i + 1)));
    put(row, capColumn, cropFigure('cap_temp', part(i + 1)));
    const [base, cap] = [rowRef(row, baseColumn), rowRef(row, capColumn)];
    sheet.put(row, first, { value: 0, look: 'source' });
    for (let m = 1; m <= MONTHS; m++) {
      const column = first + m;
      sheet.put(row, column, {
        formula: cellRef(row, column - 1).plus(
          call('MAX', 0, call('MIN', columnRef(airRow, column), cap).minus(base)).times(
            columnRef(airRow + 1, column),
          ),
        ),
        look: 'source',
        format: 'one',
      });
    }
  }
  put(lightRow, first, part(0));
  for (let m = 1; m <= MONTHS; m++) {
    const light = nth('Plant_light', call('MONTH', columnRef(firstRow, first + m - 1)));
    const days = columnRef(airRow + 1, first + m);
    put(
      lightRow,
      first + m,
      // Blank as long as the latitude is not said.
      call(
        'IFERROR',
        cellRef(lightRow, first + m - 1).plus(light.plus(named('Plant_lamps_light')).times(days)),
        '',
      ),
    );
  }
  ctx.name('Season_months', SEASON, starts);
  ctx.name('Season_heat', SEASON, grid);
}

/** One line of weeks for all that the beds ask for: what stands, what is cut, what is sown, what the hands do. */
export function seasonSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SEASON, {
    title: 'Season',
    question: 'Which bed holds what in the weeks ahead, and will the market have what it wants?',
    widths: [24, 11, ...Array.from({ length: WEEKS }, () => 9), 9, 9, 9, 10, 10, 34],
    landscape: true,
    headRows: 8,
    headColumns: 1,
  });
  sheet.fold(WORK);
  const flow = new Flow(sheet, ctx, { row: 3, columns: TOTALS, metricColumn: WORK + 4 });
  const monday = named('Farm_date').plus(
    call('MOD', part(8).minus(call('WEEKDAY', named('Farm_date'), 2)), 7),
  );
  flow.fields([
    {
      name: 'Season_from',
      label: 'From Monday',
      formula: monday,
      look: 'computed',
      format: 'date',
    },
    {
      name: 'Season_later',
      label: 'Show from so many weeks later',
      preset: 'Season_later',
      look: 'input',
      format: 'whole',
    },
  ]);
  flow.skip();
  const numbers = flow.skip();
  const weekRow = flow.skip();
  sheet.heads(numbers, 0, ['Week', '']);
  sheet.heads(weekRow, 0, ['Monday (month-day)', '']);
  for (let w = 0; w <= WEEKS; w++) {
    const later = named('Season_later').orZero.plus(w).times(7);
    sheet.put(weekRow, SUMS + w, {
      formula: named('Season_from').plus(later),
      look: 'source',
      format: 'date',
    });
    if (w === WEEKS) break;
    const day = week(weekRow, w);
    // The last key that a batch planted out in the week can have, less its bed.
    sheet.put(numbers, SUMS + w, {
      formula: day
        .plus(6)
        .times(ROW_PLACES)
        .plus(ROW_PLACES - 1),
      look: 'source',
      format: 'general',
    });
    sheet.put(numbers, FIRST + w, {
      formula: call('ISOWEEKNUM', day),
      look: 'columnHead',
      format: 'whole',
    });
    sheet.put(weekRow, FIRST + w, {
      formula: written(day, 'mm-dd'),
      look: 'columnHead',
      format: 'text',
    });
  }
  sheet.repeat(numbers, 2);
  calendar(sheet, ctx, flow, weekRow);
  const places = market(sheet, ctx, flow, weekRow, ctx.farm.markets.length + SPARE_CROPS);
  flow.skip();
  const seedsFrom = flow.row;
  const seeds = seedsAndTrays(sheet, flow, places);
  hours(sheet, flow, { ...places, seeds });
  const { from } = places;
  const half = (row: number, end: number): Area => area(row, PAGE, end - row, PAGE_WEEKS);
  // Half of the weeks on a page; on later ones without the heading and what is said below it.
  sheet.printOnPages([
    area(0, 0, from, PAGE),
    half(weekRow + 3, from),
    area(from, 0, seedsFrom - from, PAGE),
    half(from + 2, seedsFrom),
    area(from + 2, TOTALS, seedsFrom - from - 2, TOTAL_HEADS.length),
    area(seedsFrom, 0, flow.row - seedsFrom, PAGE),
    half(seedsFrom, flow.row),
  ]);
  warmth(sheet, ctx, weekRow + 2);
  return sheet.model();
}
