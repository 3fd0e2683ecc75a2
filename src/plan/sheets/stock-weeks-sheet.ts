import { feedRateCard } from '../../functions/feed-cards';
import { growthWeightCard } from '../../functions/growth-cards';
import { cardStep } from '../card-step';
import type { PlanContext } from '../context';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  cases,
  type Condition,
  type Formula,
  not,
  part,
  type Part,
  sum,
  when,
} from '../formula-parts';
import { inMonth, isOpen } from '../month-cells';
import type { FormatId, SheetModel } from '../workbook-model';
import { type FigureName, type FishColumn, named, nth, type PlanName } from '../names';
import { cellRef, columnRef, fixedRef, rowRef } from '../references';
import { area, SheetBuilder } from '../sheet-builder';
import { sellingWeight, SPARE_TANKS } from './tanks-sheet';

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
  'handling_low',
  'handling_high',
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
  handling_low: 'Not handled below, °C',
  handling_high: 'Not handled above, °C',
};

const parameterFormats: Partial<Record<ParameterId, FormatId>> = {
  coefficient: 'two',
  limit: 'one',
};

type Parameters = Readonly<Record<ParameterId, Formula>>;

/** What of a tank its feed hangs on. */
export type FedParameters = Pick<
  Parameters,
  'line' | 'coefficient' | 'feedLow' | 'feedHigh' | 'bestLow' | 'bestHigh'
>;

const factColumns: Readonly<Record<string, keyof FedParameters>> = {
  tgc: 'coefficient',
  best_low: 'bestLow',
  best_high: 'bestHigh',
  feed_low: 'feedLow',
  feed_high: 'feedHigh',
};

/** What the tank's column says of its species; the heads of the feed table are those of all. */
const facts =
  (p: FedParameters) =>
  (fact: string): Formula | undefined => {
    const id = factColumns[fact];
    return id && p[id];
  };

/** Place of the last weight of the feed table up to `weight` that has another behind it. */
export function feedStep(weight: Formula, p: FedParameters): Formula {
  const feedWeights = named('Fish_feed_weights');
  const held = cardStep(feedRateCard, 'held', { arguments: { weight }, fact: facts(p) });
  // At a weight of the table itself the last digits of a division must not choose the place.
  const place = call('MATCH', call('ROUND', held, 6), feedWeights, 1);
  return call('MIN', place, call('COUNT', feedWeights).minus(1));
}

/** The feed rate of a weight; the place in the feed table, which the card looks for, stands in a cell. */
export function feedRate(
  weight: Formula,
  water: Formula,
  step: Formula,
  p: FedParameters,
): Formula {
  const places = { arguments: { weight, water }, fact: facts(p) };
  const head = (place: Formula): Formula => nth('Fish_feed_weights', 1, place);
  const rate = (place: Formula): Formula => nth('Fish_feed_rates', p.line, place);
  const after = step.plus(1);
  const slope = rate(after).minus(rate(step));
  const beyond = cardStep(feedRateCard, 'held', places).minus(head(step));
  const byTable = rate(step).plus(slope.times(beyond).over(head(after).minus(head(step))));
  const slowed = cardStep(feedRateCard, 'appetite', places);
  return cardStep(feedRateCard, 'rate', { ...places, steps: { by_table: byTable, slowed } });
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
    question: 'What stands in each tank, week by week? (metric units)',
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

  const parameterRow = (id: ParameterId): number => PARAMETERS + parameters.indexOf(id);
  const parametersOf = (k: number): Parameters =>
    Object.fromEntries(
      parameters.map((id) => [id, columnRef(parameterRow(id), weights + k)]),
    ) as Record<ParameterId, Formula>;
  for (let k = 0; k < tanks; k++) {
    const of = (name: PlanName & `Tanks_${string}`): Formula => nth(name, k + 1);
    const p = parametersOf(k);
    const ifThere = (formula: Part): Formula => blankWithout([p.tank], formula);
    const species = (fact: FishColumn): Formula => ifThere(nth(`Fish_${fact}`, p.line));
    const stocked = of('Tanks_fish').orZero.above(0);
    const emptyBefore =
      k === 0 ? part(0) : call('COUNT', fixedRef(area(parameterRow('first'), weights, 1, k)));
    const formulas: Record<ParameterId, Formula> = {
      // A tank whose figures are not complete is left out; the Stock plan says so.
      tank: when(
        any(
          of('Tanks_name').isBlank,
          of('Tanks_volume').isBlank,
          of('Tanks_line').isBlank,
          isOpen('Month_water'),
          all(not(stocked), nth('Held_wrong', k + 1).orZero.above(0)),
        ),
        '',
        of('Tanks_name'),
      ),
      line: ifThere(of('Tanks_line')),
      coefficient: species('tgc'),
      feedLow: species('feed_low'),
      feedHigh: species('feed_high'),
      bestLow: species('best_low'),
      bestHigh: species('best_high'),
      limit: ifThere(of('Tanks_limit').times(of('Tanks_volume')).over(1000)),
      perKilo: when(p.limit.orZero.above(0), part(1).over(p.limit), 0),
      harvest: ifThere(sellingWeight(p.line)),
      most: ifThere(gill('STOCK.LIMIT', of('Tanks_volume'), p.harvest, of('Tanks_limit'))),
      head: ifThere(
        blankWithout(
          [named('Stock_batch')],
          call(
            'MIN',
            named('Stock_batch'),
            call('ROUNDDOWN', p.most.over(named('Stock_survival')), 0),
          ),
        ),
      ),
      first: ifThere(
        blankIf(
          any(stocked, named('Stock_interval').isBlank),
          call('ROUND', emptyBefore.times(named('Stock_interval')), 0),
        ),
      ),
      handling_low: species('handling_low'),
      handling_high: species('handling_high'),
    };
    for (const id of parameters) {
      sheet.put(parameterRow(id), weights + k, {
        formula: formulas[id],
        look: 'computed',
        format: parameterFormats[id] ?? 'general',
      });
    }
    blocks.forEach(([column]) => {
      sheet.put(HEADS, column + k, { formula: p.tank, look: 'columnHead' });
      sheet.width(column + k, 9);
    });
    for (let w = 0; w < WEEK_ROWS; w++) {
      const row = FIRST + w;
      const cell = (column: number, back = 0): Formula => cellRef(row - back, column + k);
      const put = (column: number, format: FormatId, formula: Formula): void =>
        sheet.put(row, column + k, { formula, look: 'computed', format });
      const water = (back: number): Formula => rowRef(row - back, 2);
      const [head, grams] = [cell(fish), cell(weights)];
      const startWeight = named('Stock_start_weight');
      /** Fish are neither sold nor stocked in water in which handling harms them: they wait. */
      const handled = (back: number): readonly [Condition, Condition] => [
        water(back).atLeast(p.handling_low),
        water(back).atMost(p.handling_high),
      ];
      if (w === 0) {
        put(
          fish,
          'whole',
          cases(
            [
              [p.tank.isBlank, 0],
              [stocked, of('Tanks_fish')],
              [all(p.first.is(0), ...handled(0)), p.head],
            ],
            0,
          ),
        );
        put(
          weights,
          'whole',
          cases(
            [
              [head.is(0), 0],
              [stocked, of('Tanks_weight')],
            ],
            startWeight,
          ),
        );
        put(sales, 'whole', part(0));
      } else {
        const [headBefore, gramsBefore] = [cell(fish, 1), cell(weights, 1)];
        const isSold = all(headBefore.above(0), gramsBefore.atLeast(p.harvest), ...handled(1));
        const isEmpty = any(headBefore.is(0), isSold);
        const grown = cardStep(growthWeightCard, 'grown', {
          arguments: { weight: gramsBefore, water: water(1), days: 7 },
          fact: facts(p),
        });
        put(
          fish,
          'whole',
          cases(
            [
              [p.tank.isBlank, 0],
              [not(isEmpty), headBefore.times(named('Stock_week_survival'))],
              [all(p.first.orZero.atMost(w), ...handled(0)), p.head],
            ],
            0,
          ),
        );
        put(
          weights,
          'whole',
          cases(
            [
              [head.is(0), 0],
              [not(isEmpty), grown],
            ],
            startWeight,
          ),
        );
        put(sales, 'whole', cell(sales, 1).plus(when(isSold, 1, 0)));
      }
      put(kilos, 'one', head.times(grams).over(1000));
      put(steps, 'whole', when(head.is(0), '', feedStep(grams, p)));
      put(
        feeds,
        'whole',
        when(head.is(0), 0, head.times(grams).times(feedRate(grams, water(0), cell(steps), p))),
      );
    }
  }

  const across = (row: number, column: number): Formula => fixedRef(area(row, column, 1, tanks));
  const ofAllTanks = (id: ParameterId): Formula => across(parameterRow(id), weights);
  const total = (products: Formula): Formula => call('SUMPRODUCT', products);
  for (let w = 0; w < WEEK_ROWS; w++) {
    const row = FIRST + w;
    const next = row + 1;
    const put = (column: number, format: FormatId, formula: Formula): void =>
      sheet.put(row, column, { formula, look: 'computed', format });
    const kilosNow = across(row, kilos);
    sheet.put(row, 0, { value: w, look: 'label', format: 'whole' });
    put(1, 'date', named('Farm_date').plus(7 * w));
    put(2, 'one', inMonth('Month_water', call('MONTH', rowRef(row, 1))));
    put(3, 'one', sum(kilosNow));
    put(4, 'whole', sum(across(row, feeds)));
    // SUMPRODUCT has MAX look at all the products; by itself MAX would need them in cells.
    put(5, 'percent', total(call('MAX', kilosNow.times(ofAllTanks('perKilo')))));
    const ready = across(row, weights).atLeast(ofAllTanks('harvest'));
    const cool = ofAllTanks('handling_low').atMost(rowRef(row, 2));
    const warm = ofAllTanks('handling_high').atLeast(rowRef(row, 2));
    put(6, 'one', total(ready.times(cool).times(warm).times(kilosNow)));
    const restocked = across(next, sales).above(across(row, sales));
    const firstStocked = across(row, fish).is(0);
    put(
      7,
      'whole',
      w === WEEK_ROWS - 1
        ? part(0)
        : total(restocked.times(across(next, fish))).plus(
            total(firstStocked.times(across(next, fish))),
          ),
    );
  }
  const series: readonly FigureName[] = [
    'Weeks_date',
    'Weeks_water',
    'Weeks_standing',
    'Weeks_feed',
    'Weeks_fullest',
    'Weeks_sold',
    'Weeks_stocked',
  ];
  series.forEach((name, i) => ctx.name(name, STOCK_WEEKS, area(FIRST, i + 1, WEEK_ROWS)));
  const nameBlock = (name: FigureName, column: number): void =>
    ctx.name(name, STOCK_WEEKS, area(FIRST, column, WEEK_ROWS, tanks));
  nameBlock('Weeks_weights', weights);
  nameBlock('Weeks_fish', fish);
  nameBlock('Weeks_kilos', kilos);
  nameBlock('Weeks_sales', sales);
  for (const id of [
    'tank',
    'limit',
    'harvest',
    'head',
    'first',
    'handling_low',
    'handling_high',
  ] as const)
    ctx.name(`Weeks_${id}`, STOCK_WEEKS, area(parameterRow(id), weights, 1, tanks));
  return sheet.model();
}
