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
  when,
} from '../formula-parts';
import { inMonth, isOpen } from '../month-cells';
import type { FormatId } from '../workbook-model';
import { type FigureName, type FishColumn, named, nth, type PlanName } from '../names';
import { cellRef, columnRef, fixedRef, rowRef } from '../references';
import { area, type SheetBuilder } from '../sheet-builder';
import { factsOf } from './tank-feed';
import { sellingWeight, SPARE_TANKS } from './tanks-sheet';

/** Rows of the weeks: now, and after each of 52 weeks. */
export const WEEK_ROWS = 53;

const HEADS = 4;
const FIRST = HEADS + 1;
/** What holds of each tank the year through stands below the weeks, so that little is frozen. */
const PARAMETERS = FIRST + WEEK_ROWS + 2;
/** Columns of week, date and water before those of the tanks. */
const BEFORE = 3;

const parameters = [
  'tank',
  'line',
  'coefficient',
  'feedLow',
  'feedHigh',
  'bestLow',
  'bestHigh',
  'limit',
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

/**
 * Every tank, week by week, for a year: fish grow in the water of the month, are sold at their harvest
 * weight, and the tank is stocked anew in the week after. Cheap arithmetic in ordinary formulas, so that
 * the grower's own figures on the Species sheet count; the method is that of GILL.STOCK.FORECAST.
 * Whatever the farm's units, these columns are metric. What comes of the farm's year is said by the Tank year alone,
 * which follows the planned rows and goes on by these weeks where there are none.
 */
export function stockWeeksBlock(sheet: SheetBuilder, ctx: PlanContext, column: number): void {
  const { gill } = ctx;
  const tanks = ctx.farm.tanks.length + SPARE_TANKS;
  const [WEEK, DATE, WATER] = [column, column + 1, column + 2];
  [7, 11, 13].forEach((width, i) => sheet.width(column + i, width));
  sheet.text(
    HEADS - 2,
    column,
    'What would stand in each tank if nothing were planned, week by week (metric units)',
    'source',
  );
  const block = (index: number): number => column + BEFORE + index * (tanks + 1);
  const [weights, fish] = [block(0), block(1)];
  const blocks: readonly (readonly [number, string, FormatId])[] = [
    [weights, 'Mean weight, g', 'whole'],
    [fish, 'Fish', 'whole'],
  ];
  parameters.forEach((id, i) =>
    sheet.wide(PARAMETERS + i, column, BEFORE, { value: parameterLabels[id], look: 'label' }),
  );
  sheet.heads(HEADS, column, ['Week', 'Date', 'Water, °C']);
  sheet.heading(PARAMETERS - 1, column, BEFORE + tanks, 'The tanks');
  for (const [first, title] of blocks) sheet.heading(HEADS - 1, first, tanks, title);

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
      harvest: ifThere(sellingWeight(p.line)),
      most: ifThere(gill('STOCK.LIMIT', of('Tanks_volume'), p.harvest, of('Tanks_limit'))),
      head: ifThere(
        blankWithout(
          [named('Stock_batch')],
          call(
            'MIN',
            named('Stock_batch'),
            call('ROUNDDOWN', p.most.over(named('Stock_survival_counts')), 0),
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
    blocks.forEach(([first]) => {
      sheet.put(HEADS, first + k, { formula: p.tank, look: 'columnHead' });
      sheet.width(first + k, 9);
    });
    for (let w = 0; w < WEEK_ROWS; w++) {
      const row = FIRST + w;
      const cell = (block: number, back = 0): Formula => cellRef(row - back, block + k);
      const put = (block: number, format: FormatId, formula: Formula): void =>
        sheet.put(row, block + k, { formula, look: 'computed', format });
      const water = (back: number): Formula => rowRef(row - back, WATER);
      const head = cell(fish);
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
      } else {
        const [headBefore, gramsBefore] = [cell(fish, 1), cell(weights, 1)];
        const isSold = all(headBefore.above(0), gramsBefore.atLeast(p.harvest), ...handled(1));
        const isEmpty = any(headBefore.is(0), isSold);
        const grown = cardStep(growthWeightCard, 'grown', {
          arguments: { weight: gramsBefore, water: water(1), days: 7 },
          fact: factsOf(p),
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
      }
    }
  }

  for (let w = 0; w < WEEK_ROWS; w++) {
    const row = FIRST + w;
    const put = (at: number, format: FormatId, formula: Formula): void =>
      sheet.put(row, at, { formula, look: 'computed', format });
    sheet.put(row, WEEK, { value: w, look: 'label', format: 'whole' });
    put(DATE, 'date', named('Farm_date').plus(7 * w));
    put(WATER, 'one', inMonth('Month_water', call('MONTH', rowRef(row, DATE))));
  }
  ctx.name('Weeks_date', sheet.name, area(FIRST, DATE, WEEK_ROWS));
  ctx.name('Weeks_water', sheet.name, area(FIRST, WATER, WEEK_ROWS));
  const nameBlock = (name: FigureName, first: number): void =>
    ctx.name(name, sheet.name, area(FIRST, first, WEEK_ROWS, tanks));
  nameBlock('Weeks_weights', weights);
  nameBlock('Weeks_fish', fish);
  for (const id of [
    'tank',
    'limit',
    'harvest',
    'head',
    'first',
    'handling_low',
    'handling_high',
  ] as const)
    ctx.name(`Weeks_${id}`, sheet.name, area(parameterRow(id), weights, 1, tanks));
}
