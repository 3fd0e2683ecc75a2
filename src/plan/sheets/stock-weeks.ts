import { cellAddress, fixedAddress, rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import type { FormatId, SheetModel } from '../model';
import { area, SheetBuilder } from '../sheet-builder';
import { SPARE_TANKS } from './tanks';

export const STOCK_WEEKS = 'Stock weeks';
/** Rows of the weeks: now, and after each of 52 weeks. */
export const WEEK_ROWS = 53;

const HEADS = 4;
const FIRST = HEADS + 1;
/** What holds of each tank the year through stands below the weeks, so that little is frozen. */
const PARAMETERS = FIRST + WEEK_ROWS + 2;
const BLOCKS = 9;

const parameters = [
  'tank',
  'line',
  'coefficient',
  'feedLow',
  'feedHigh',
  'bestLow',
  'bestHigh',
  'limit',
  'perKilo',
  'harvest',
  'most',
  'head',
  'first',
] as const;
type ParameterId = (typeof parameters)[number];

const parameterLabels: Readonly<Record<ParameterId, string>> = {
  tank: 'Tank',
  line: 'Line of its species',
  coefficient: 'Growth coefficient',
  feedLow: 'Stops feeding at or below, °C',
  feedHigh: 'Stops feeding at or above, °C',
  bestLow: 'Best water from, °C',
  bestHigh: 'Best water to, °C',
  limit: 'Most fish by the limit, kg',
  perKilo: 'Share of the limit by 1 kg',
  harvest: 'Sold at, g',
  most: 'Most fish of that weight',
  head: 'Fish stocked anew',
  first: 'If empty, first stocked in week',
};

/** Share of the full ration in water `water`, between the feeding limits of a column. */
const appetite = (water: string, p: Record<ParameterId, string>): string =>
  `(1-MIN(1,MAX(0,(${p.bestLow}-${water})/(${p.bestLow}-${p.feedLow}),(${water}-${p.bestHigh})/(${p.feedHigh}-${p.bestHigh})))^2)`;

const FEED_WEIGHTS = 'Fish_feed_weights';
const within = (weight: string): string =>
  `MEDIAN(MIN(${FEED_WEIGHTS}),${weight},MAX(${FEED_WEIGHTS}))`;

/** Place of the last weight of the feed table up to `weight` that has another behind it. */
const feedStep = (weight: string): string =>
  `MIN(MATCH(${within(weight)},${FEED_WEIGHTS},1),COUNT(${FEED_WEIGHTS})-1)`;

/** The table's feed rate at a weight, along straight lines as GILL.FEED.RATE reads it. */
function feedRate(weight: string, line: string, step: string): string {
  const head = (shift: string): string => `INDEX(${FEED_WEIGHTS},1,${step}${shift})`;
  const rate = (shift: string): string => `INDEX(Fish_feed_rates,${line},${step}${shift})`;
  return `(${rate('')}+(${rate('+1')}-${rate('')})*(${within(weight)}-${head('')})/(${head('+1')}-${head('')}))`;
}

/**
 * Every tank, week by week, for a year: fish grow in the water of the month, are sold at their harvest
 * weight, and the tank is stocked anew in the week after. Cheap arithmetic in ordinary formulas, so that
 * the grower's own figures on the Species sheet count; the method is that of GILL.STOCK.FORECAST.
 * Whatever the farm's units, this sheet is metric.
 */
export function stockWeeksSheet(ctx: PlanContext): SheetModel {
  const { gill } = ctx;
  const tanks = ctx.farm.tanks.length + SPARE_TANKS;
  const sheet = new SheetBuilder(STOCK_WEEKS, {
    title: 'Stock, week by week',
    question:
      'What stands in each tank in each week of the year ahead? (metric units; nothing to type here)',
    widths: [7, 11, 9, 11, 11, 11, 11, 11, 30],
    headRows: FIRST,
    headColumns: 2,
  });
  sheet.fold(8);
  const block = (index: number): number => BLOCKS + index * (tanks + 1);
  const [weights, fish, kilos, steps, feeds, sales] = [0, 1, 2, 3, 4, 5].map(block) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const blocks: readonly (readonly [number, string, FormatId])[] = [
    [weights, 'Mean weight, g', 'whole'],
    [fish, 'Fish', 'whole'],
    [kilos, 'Biomass, kg', 'one'],
    [steps, 'Place in the feed table', 'whole'],
    [feeds, 'Feed, g/day', 'whole'],
    [sales, 'Harvests so far', 'whole'],
  ];
  parameters.forEach((id, i) =>
    sheet.text(PARAMETERS + i, BLOCKS - 1, parameterLabels[id], 'label'),
  );
  sheet.heads(HEADS, 0, [
    'Week',
    'Date',
    'Water, °C',
    'Biomass, kg',
    'Feed, g/day',
    'Fullest tank, share of limit',
    'Sold, kg',
    'Fish stocked',
  ]);
  sheet.heading(PARAMETERS - 1, BLOCKS - 1, tanks + 1, 'The tanks');
  for (const [column, title] of blocks) sheet.heading(HEADS - 1, column, tanks, title);

  const parameterCell = (id: ParameterId, k: number): string =>
    `${rowAddress(PARAMETERS + parameters.indexOf(id), weights + k)
      .replace('$', '')
      .replace(/(\d+)$/, '$$$1')}`;
  for (let k = 0; k < tanks; k++) {
    const of = (name: string): string => `INDEX(Tanks_${name},${k + 1})`;
    const p = Object.fromEntries(parameters.map((id) => [id, parameterCell(id, k)])) as Record<
      ParameterId,
      string
    >;
    const species = (fact: string): string => `IF(${p.tank}="","",INDEX(Fish_${fact},${p.line}))`;
    const formulas: Record<ParameterId, string> = {
      // A tank whose figures are not complete is left out; the Stock plan says so.
      tank: `IF(OR(${of('name')}="",${of('volume')}="",${of('line')}="",AND(N(${of('fish')})>0,${of('weight')}="")),"",${of('name')})`,
      line: `IF(${p.tank}="","",${of('line')})`,
      coefficient: species('tgc'),
      feedLow: species('feed_low'),
      feedHigh: species('feed_high'),
      bestLow: species('best_low'),
      bestHigh: species('best_high'),
      limit: `IF(${p.tank}="","",${of('limit')}*${of('volume')}/1000)`,
      perKilo: `IF(N(${p.limit})>0,1/${p.limit},0)`,
      harvest: `IF(${p.tank}="","",IF(${p.line}=Stock_line,Stock_harvest_weight,INDEX(Fish_harvest_weight,${p.line})))`,
      most: `IF(${p.tank}="","",${gill('STOCK.LIMIT', of('volume'), p.harvest, of('limit'))})`,
      head: `IF(${p.tank}="","",MIN(Stock_batch,ROUNDDOWN(${p.most}/Stock_survival,0)))`,
      first:
        `IF(${p.tank}="","",IF(N(${of('fish')})>0,"",ROUND(` +
        (k === 0
          ? '0'
          : `COUNT(${fixedAddress(area(PARAMETERS + parameters.indexOf('first'), weights, 1, k))})`) +
        `*Stock_interval,0)))`,
    };
    parameters.forEach((id, i) =>
      sheet.put(PARAMETERS + i, weights + k, {
        formula: formulas[id],
        look: 'computed',
        format:
          id === 'tank'
            ? 'general'
            : id === 'coefficient'
              ? 'two'
              : id === 'limit'
                ? 'one'
                : 'general',
      }),
    );
    blocks.forEach(([column]) => {
      sheet.put(HEADS, column + k, { formula: p.tank, look: 'columnHead' });
      sheet.width(column + k, 9);
    });
    for (let w = 0; w < WEEK_ROWS; w++) {
      const row = FIRST + w;
      const cell = (column: number, back = 0): string => cellAddress(row - back, column + k);
      const put = (column: number, format: FormatId, formula: string): void =>
        sheet.put(row, column + k, { formula, look: 'computed', format });
      const water = (back: number): string => rowAddress(row - back, 2);
      if (w === 0) {
        put(
          fish,
          'whole',
          `IF(${p.tank}="",0,IF(N(${of('fish')})>0,${of('fish')},IF(${p.first}=0,${p.head},0)))`,
        );
        put(
          weights,
          'whole',
          `IF(${cell(fish)}=0,0,IF(N(${of('fish')})>0,${of('weight')},Stock_start_weight))`,
        );
        put(sales, 'whole', '0');
      } else {
        const [before, grams] = [cell(fish, 1), cell(weights, 1)];
        const stays = `AND(${before}>0,${grams}<${p.harvest})`;
        const rise = `${p.coefficient}/1000*7*IF(OR(${water(1)}<=${p.feedLow},${water(1)}>=${p.feedHigh}),0,MIN(${water(1)},${p.bestHigh}))`;
        put(
          fish,
          'whole',
          `IF(${p.tank}="",0,IF(${stays},${before}*Stock_week_survival,IF(OR(${before}>0,${p.first}=${w}),${p.head},0)))`,
        );
        put(
          weights,
          'whole',
          `IF(${cell(fish)}=0,0,IF(${stays},(${grams}^(1/3)+${rise})^3,Stock_start_weight))`,
        );
        put(sales, 'whole', `${cell(sales, 1)}+IF(AND(${before}>0,${grams}>=${p.harvest}),1,0)`);
      }
      put(kilos, 'one', `${cell(fish)}*${cell(weights)}/1000`);
      put(steps, 'whole', `IF(${cell(fish)}=0,"",${feedStep(cell(weights))})`);
      put(
        feeds,
        'whole',
        `IF(${cell(fish)}=0,0,${cell(fish)}*${cell(weights)}*${feedRate(cell(weights), p.line, cell(steps))}*${appetite(water(0), p)})`,
      );
    }
  }

  const across = (row: number, column: number): string => fixedAddress(area(row, column, 1, tanks));
  const parameterRow = (id: ParameterId): string =>
    across(PARAMETERS + parameters.indexOf(id), weights);
  for (let w = 0; w < WEEK_ROWS; w++) {
    const row = FIRST + w;
    const put = (column: number, format: FormatId, formula: string): void =>
      sheet.put(row, column, { formula, look: 'computed', format });
    sheet.put(row, 0, { value: w, look: 'label', format: 'whole' });
    put(1, 'date', `Farm_date+${7 * w}`);
    put(2, 'one', `INDEX(Month_water,MONTH(${rowAddress(row, 1)}))`);
    put(3, 'one', `SUM(${across(row, kilos)})`);
    put(4, 'whole', `SUM(${across(row, feeds)})`);
    // SUMPRODUCT has MAX look at all the products; by itself MAX would need them in cells.
    put(5, 'percent', `SUMPRODUCT(MAX(${across(row, kilos)}*${parameterRow('perKilo')}))`);
    put(
      6,
      'one',
      `SUMPRODUCT((${across(row, weights)}>=${parameterRow('harvest')})*${across(row, kilos)})`,
    );
    const next = row + 1;
    put(
      7,
      'whole',
      w === WEEK_ROWS - 1
        ? '0'
        : `SUMPRODUCT((${across(next, sales)}>${across(row, sales)})*${across(next, fish)})+SUMPRODUCT((${across(row, fish)}=0)*${across(next, fish)})`,
    );
  }
  const series: readonly (readonly [string, number])[] = [
    ['Weeks_date', 1],
    ['Weeks_water', 2],
    ['Weeks_standing', 3],
    ['Weeks_feed', 4],
    ['Weeks_fullest', 5],
    ['Weeks_sold', 6],
    ['Weeks_stocked', 7],
  ];
  for (const [name, column] of series) ctx.name(name, STOCK_WEEKS, area(FIRST, column, WEEK_ROWS));
  ctx.name('Weeks_weights', STOCK_WEEKS, area(FIRST, weights, WEEK_ROWS, tanks));
  ctx.name('Weeks_fish', STOCK_WEEKS, area(FIRST, fish, WEEK_ROWS, tanks));
  ctx.name('Weeks_kilos', STOCK_WEEKS, area(FIRST, kilos, WEEK_ROWS, tanks));
  ctx.name('Weeks_sales', STOCK_WEEKS, area(FIRST, sales, WEEK_ROWS, tanks));
  ctx.name('Weeks_tank', STOCK_WEEKS, area(PARAMETERS, weights, 1, tanks));
  ctx.name(
    'Weeks_limit',
    STOCK_WEEKS,
    area(PARAMETERS + parameters.indexOf('limit'), weights, 1, tanks),
  );
  ctx.name(
    'Weeks_harvest',
    STOCK_WEEKS,
    area(PARAMETERS + parameters.indexOf('harvest'), weights, 1, tanks),
  );
  ctx.name(
    'Weeks_head',
    STOCK_WEEKS,
    area(PARAMETERS + parameters.indexOf('head'), weights, 1, tanks),
  );
  ctx.name(
    'Weeks_first',
    STOCK_WEEKS,
    area(PARAMETERS + parameters.indexOf('first'), weights, 1, tanks),
  );
  return sheet.model();
}
