import { MONTH } from '../../core/stocking';
import { rotationSteps } from '../../functions/stock-cards';
import { cardStep } from '../card-step';
import type { PlanContext } from '../context';
import { between } from '../fields';
import { plainSpillCell } from '../live-or-plain';
import { Flow } from '../sheet-flow';
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
  type Part,
  sum,
  when,
  written,
} from '../formula-parts';
import type { Area, FormatId, LookId, SheetModel } from '../workbook-model';
import { countOf, type FigureName, lineOf, named, nth } from '../names';
import { figureInWords, inShownUnits, type QuantityId, shownIn } from '../quantities';
import { cellRef, fixedRef, rowRef } from '../references';
import { survivalThatCounts } from '../own-figure-formulas';
import { area, FIGURES, LABELS, pagesFrom, SheetBuilder } from '../sheet-builder';
import { batchBlock } from './batch-block';
import { stockWeeksBlock, WEEK_ROWS } from './stock-weeks-block';
import { SPARE_TANKS } from './tanks-sheet';

const SHEET = 'Stock plan';
/** First of the columns that serve formulas alone. */
const FOLDED = 11;
/** First of the columns that hold metric twins in US units. */
const TWINS = 13;
const HELPERS = TWINS - 1;
/** The weeks of each tank if nothing were planned. */
const WEEKS = TWINS + 2;
/** Most tanks that a rotation is worked out for: one a week. */
const MAX_TANKS = 52;
/** Line of the feed in STOCK.ROTATION, from 0. */
const MEAN_FEED = 7;
/** Nothing as long as the species is not said. */
const ofSpecies = (formula: Formula): Formula => blankWithout([named('Stock_line')], formula);

function wanted(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  flow.heading('What is wanted');
  // Beside the species, among what serves formulas alone.
  const species = flow.row;
  sheet.text(species - 1, HELPERS, 'Line in Species', 'source');
  sheet.put(species, HELPERS, {
    formula: blankWithout([named('Stock_species')], lineOf('Fish', named('Stock_species'))),
    look: 'source',
  });
  ctx.name('Stock_line', SHEET, area(species, HELPERS));
  flow.fields([
    {
      name: 'Stock_species',
      label: 'Species',
      farm: 'stock.species',
      look: 'input',
      rule: {
        rule: { kind: 'list', name: 'Fish_name' },
        message: 'Choose a species of the Species sheet.',
      },
    },
    {
      name: 'Stock_wanted',
      label: 'Fish to sell',
      farm: 'stock.wanted',
      quantity: 'massMonth',
      look: 'input',
      rule: between('massMonth', ctx, 0.1, 1e6),
    },
    {
      name: 'Stock_start_weight',
      label: 'Weight when stocked',
      farm: 'stock.startWeight',
      quantity: 'fishWeight',
      look: 'input',
      rule: between('fishWeight', ctx, 0.1, 20000),
    },
    {
      name: 'Stock_harvest_weight',
      label: 'Weight when sold',
      farm: 'stock.harvestWeight',
      quantity: 'fishWeight',
      look: 'input',
      rule: between('fishWeight', ctx, 1, 50000),
    },
    {
      name: 'Stock_survival',
      label: 'Fish that live to be sold',
      farm: 'stock.survival',
      quantity: 'share',
      look: 'input',
      rule: between('share', ctx, 0.05, 1),
    },
    {
      name: 'Stock_survival_counts',
      label: 'The same, as it counts',
      formula: survivalThatCounts(ctx.farm),
      quantity: 'share',
      look: 'computed',
      remark: 'What is typed above, unless Own figures says otherwise.',
    },
    {
      name: 'Stock_tanks',
      label: 'Tanks in the rotation',
      formula: call('MIN', MAX_TANKS, call('COUNT', named('Tanks_volume'))),
      quantity: 'number',
      unit: 'tanks',
      look: 'computed',
      remark: 'All that the Tanks sheet lists.',
    },
    {
      name: 'Stock_density',
      label: 'Density limit',
      formula: ofSpecies(nth('Fish_density_aerated', named('Stock_line'))),
      quantity: 'density',
      look: 'computed',
      remark: 'From the Species sheet.',
    },
    {
      name: 'Stock_coefficient',
      label: 'Growth coefficient',
      formula: ofSpecies(nth('Fish_tgc', named('Stock_line'))),
      format: 'two',
      look: 'computed',
      remark: 'From the Species sheet.',
    },
    {
      name: 'Stock_week_survival',
      label: 'Fish that live through a week',
      formula: blankWithout(
        [named('Stock_survival_counts'), named('Stock_days')],
        named('Stock_survival_counts').power(part(7).over(named('Stock_days'))),
      ),
      format: 'three',
      look: 'computed',
      remark: 'Losses spread evenly.',
    },
  ]);
}

/** Nothing is eaten as long as one of these is missing. */
const feedNeeds = [
  'Stock_wanted',
  'Stock_harvest_weight',
  'Stock_start_weight',
  'Stock_survival_counts',
  'Stock_species',
  'Water_year',
] as const;

/**
 * What the rotation eats in the mean, as STOCK.ROTATION has it: in live plans an ordinary formula too, since the
 * feed rates of the Species sheet go with the farm's own growth and conversion.
 */
function meanFeed({ names }: PlanContext): Formula {
  /** By its address, which is shorter than its name. */
  const cell = (name: FigureName): Formula => {
    const found = names.find((model) => model.name === name && model.sheet === SHEET);
    return found ? fixedRef(found.area) : named(name);
  };
  const args = [
    cell('Stock_wanted'),
    cell('Stock_harvest_weight'),
    cell('Stock_start_weight'),
    named('Water_year'),
    cell('Stock_species'),
    cell('Stock_survival_counts'),
    cell('Stock_density'),
    cell('Stock_tanks'),
  ];
  const above = ['Stock_days', 'Stock_interval', 'Stock_batch', 'Stock_sold'] as const;
  return plainSpillCell(
    'STOCK.ROTATION',
    args,
    MEAN_FEED,
    1,
    (row) => (above[row] && cell(above[row]).text) ?? '',
  );
}

/** Tanks stocked in turn at even intervals, each batch staying in its tank until it is sold. */
function rotation(ctx: PlanContext, flow: Flow): void {
  const { gill } = ctx;
  const [days, tanks, sold] = [named('Stock_days'), named('Stock_tanks'), named('Stock_sold')];
  const weight = named('Stock_harvest_weight');
  /** Nothing as long as something of what is wanted is missing, or there is no tank for it. */
  const complete = (formula: Formula): Formula =>
    blankIf(
      any(
        days.isBlank,
        named('Stock_wanted').isBlank,
        named('Stock_survival_counts').isBlank,
        tanks.is(0),
      ),
      formula,
    );
  const step = (name: keyof typeof rotationSteps.formula): Formula =>
    complete(
      cardStep(rotationSteps, name, {
        arguments: {
          tanks,
          harvest_kg_month: named('Stock_wanted'),
          harvest_weight: weight,
          survival: named('Stock_survival_counts'),
          density: named('Stock_density'),
        },
        steps: { days, harvested: sold, stocked: named('Stock_batch') },
      }),
    );
  flow.heading('The rotation that gives it');
  flow.fields([
    {
      name: 'Stock_days',
      label: 'Days in the tank',
      formula: blankWithout(
        [named('Stock_start_weight'), weight, named('Water_year'), named('Stock_species')],
        gill(
          'GROWTH.DAYS',
          named('Stock_start_weight'),
          weight,
          named('Water_year'),
          named('Stock_species'),
          named('Stock_coefficient'),
        ),
      ),
      quantity: 'days',
      look: 'result',
      note: "At the year's mean water. The weeks below follow the seasons.",
    },
    {
      name: 'Stock_interval',
      label: 'Weeks between two harvests',
      formula: step('weeks_between'),
      quantity: 'weeks',
      look: 'result',
    },
    {
      name: 'Stock_sold',
      label: 'Fish to sell from a batch',
      formula: step('harvested'),
      quantity: 'count',
      look: 'computed',
    },
    {
      name: 'Stock_batch',
      label: 'Fish to stock in a batch',
      formula: step('stocked'),
      quantity: 'count',
      look: 'result',
    },
    {
      label: 'Weight of a batch when sold',
      formula: step('batch'),
      quantity: 'mass',
      look: 'computed',
    },
    {
      name: 'Stock_batch_litres',
      label: 'Water for each batch',
      formula: step('litres'),
      quantity: 'volume',
      look: 'computed',
    },
    {
      name: 'Stock_fingerlings',
      label: 'Fingerlings to buy in a year',
      formula: step('fingerlings'),
      quantity: 'count',
      look: 'computed',
    },
    {
      name: 'Stock_feed',
      label: 'Feed in the mean of a year',
      formula: blankIf(
        any(...feedNeeds.map((name) => named(name).isBlank), tanks.is(0)),
        meanFeed(ctx),
      ),
      quantity: 'feedDay',
      look: 'computed',
    },
    {
      label: 'Most biomass in the year ahead',
      formula: call('MAX', named('Ahead_standing')),
      quantity: 'mass',
      look: 'computed',
    },
    {
      label: 'Most feed in the year ahead',
      formula: call('MAX', named('Ahead_feed')),
      quantity: 'feedDay',
      look: 'computed',
    },
  ]);
}

/** A figure of one tank, folded away or on Tank year: of the tank itself, or in one of the weeks. */
type TankFigure = Extract<FigureName, `Weeks_${string}` | `Ahead_${string}`>;

const columns = {
  name: 0,
  fish: 1,
  weight: 2,
  ready: 3,
  fishThen: 4,
  kilosThen: 5,
  excess: 6,
  limitOn: 7,
  restockOn: 8,
  fishToStock: 9,
  task: 10,
} as const;

/** What becomes of the fish of one tank, the `k`-th from 0: by its planned rows, then by its turns (Tank year). */
function tankNow(sheet: SheetBuilder, ctx: PlanContext, row: number, k: number): void {
  const { system } = ctx;
  const mass = shownIn('mass', system);
  const weight = shownIn('fishWeight', system);
  const here = (column: keyof typeof columns): Formula => rowRef(row, columns[column]);
  const ofTank = (name: TankFigure): Formula => nth(name, 1, k + 1);
  const sunday = named('Farm_week').plus(6);
  const name = here('name');
  const fishNow = ofTank('Ahead_fish');
  const typedFish = nth('Tanks_fish', k + 1);
  const isEmpty = fishNow.is(0);
  const due = ofTank('Weeks_first').orZero.is(0);
  const barred = nth('Tanks_handling', k + 1);
  const ifThere = (formula: Formula): Formula => blankWithout([name], formula);
  const withFish = (formula: Formula): Formula => ifThere(blankIf(isEmpty, formula));
  const put = (
    column: keyof typeof columns,
    look: LookId,
    format: FormatId,
    formula: Formula,
  ): void => sheet.put(row, columns[column], { formula, look, format });
  const tank = ofTank('Weeks_tank');
  put('name', 'label', 'general', blankWithout([tank], tank));
  put('fish', 'computed', 'whole', withFish(fishNow));
  put(
    'weight',
    'computed',
    weight.format,
    withFish(inShownUnits(ofTank('Ahead_weights'), 'fishWeight', system)),
  );
  put('ready', 'result', 'date', ifThere(ofTank('Ahead_sale_day')));
  put('fishThen', 'computed', 'whole', ifThere(ofTank('Ahead_sale_fish')));
  put(
    'kilosThen',
    'computed',
    mass.format,
    blankWithout(
      [here('fishThen')],
      inShownUnits(here('fishThen').times(ofTank('Ahead_sale_weight')).over(1000), 'mass', system),
    ),
  );
  put('excess', 'result', 'whole', ifThere(ofTank('Ahead_over_fish')));
  put('limitOn', 'computed', 'date', ifThere(ofTank('Ahead_over_day')));
  put('restockOn', 'computed', 'date', ifThere(ofTank('Ahead_stock_day')));
  put('fishToStock', 'computed', 'whole', ifThere(ofTank('Ahead_stock_fish')));
  const byThen = (day: Formula): Condition => all(day.isNumber, day.orZero.atMost(sunday));
  /** Last week before the limit in which the fish may be moved; 0 where there is none. */
  const lastMove = call(
    'SUMPRODUCT',
    call(
      'MAX',
      named('Weeks_date')
        .atMost(here('limitOn'))
        .times(named('Weeks_water').atLeast(ofTank('Weeks_handling_low')))
        .times(named('Weeks_water').atMost(ofTank('Weeks_handling_high')))
        .times(named('Weeks_date')),
    ),
  );
  /** What is to be done, unless the water forbids it. */
  const unlessBarred = (task: Part, fish: Part): Formula =>
    when(barred.isFilled, joined('too ', barred, ' to ', fish), task);
  const move = unlessBarred(joined('move ', here('excess'), ' fish'), 'move: air, less feed');
  const moveNow = all(here('limitOn').isNumber, lastMove.atMost(sunday));
  put(
    'task',
    'verdict',
    'general',
    ifThere(
      cases(
        [
          // What is planned for this week comes first; a tank with rows to come is not advised against them.
          [
            byThen(ofTank('Ahead_next_day')),
            unlessBarred(
              joined(
                'as planned ',
                written(ofTank('Ahead_next_day'), 'mm-dd'),
                ': ',
                ofTank('Ahead_next_what'),
              ),
              joined('do as planned (', ofTank('Ahead_next_what'), '): wait'),
            ),
          ],
          [ofTank('Ahead_planned').above(0), when(moveNow, move, '')],
          [
            typedFish.orZero.is(0),
            blankUnless(
              due,
              unlessBarred(joined('stock ', ofTank('Weeks_head'), ' fish'), 'stock fish: wait'),
            ),
          ],
          [
            any(byThen(here('ready')), ofTank('Ahead_weights').atLeast(ofTank('Weeks_harvest'))),
            unlessBarred('sell', 'sell: wait'),
          ],
          [moveNow, move],
        ],
        '',
      ),
    ),
  );
}

/** What becomes of the fish that stand in each tank now. */
function tanksNow(sheet: SheetBuilder, ctx: PlanContext, flow: Flow, rows: number): void {
  const { system } = ctx;
  flow.heads([
    'Tank',
    'Fish now',
    `Mean weight now, ${shownIn('fishWeight', system).unit}`,
    'Ready to sell on',
    'Fish then',
    `Biomass then, ${shownIn('mass', system).unit}`,
    'Fish to move before then',
    'Limit reached on',
    'Restock in the week of',
    'Fish to stock',
    'What to do this week',
  ]);
  const first = flow.row;
  for (let k = 0; k < rows; k++) tankNow(sheet, ctx, flow.skip(), k);
  const tasks = area(first, columns.task, rows);
  ctx.name('Stock_task', SHEET, tasks);
  sheet.mark(tasks, rowRef(first, columns.task).isFilled, 'watch');
  sheet.mark(
    area(first, columns.excess, rows),
    rowRef(first, columns.excess).orZero.above(0),
    'watch',
  );
}

function weeks(
  sheet: SheetBuilder,
  ctx: PlanContext,
  flow: Flow,
  [biomass, fullest]: readonly [Area, Area],
): void {
  const { system } = ctx;
  const unit = (id: QuantityId): string => shownIn(id, system).unit;
  const columns: readonly (readonly [string, QuantityId, TankFigure, FormatId?])[] = [
    ['Week of', 'number', 'Weeks_date', 'date'],
    [`All biomass, ${unit('mass')}`, 'mass', 'Ahead_standing'],
    [`All feed, ${unit('feedDay')}`, 'feedDay', 'Ahead_feed'],
    ['Fullest tank, % of its limit', 'share', 'Ahead_fullest'],
    [`Sold, ${unit('mass')}`, 'mass', 'Ahead_sold'],
    ['Fish stocked', 'count', 'Ahead_stocked'],
  ];
  sheet.repeat(flow.row, 1);
  flow.heads(['In weeks', ...columns.map(([head]) => head)]);
  const first = flow.row;
  for (let w = 0; w < WEEK_ROWS; w++) {
    const row = flow.skip();
    sheet.put(row, 0, { value: w, look: 'label', format: 'whole' });
    columns.forEach(([, quantity, name, format], c) =>
      sheet.put(row, c + 1, {
        formula: inShownUnits(nth(name, w + 1), quantity, system),
        look: 'computed',
        format: format ?? shownIn(quantity, system).format,
      }),
    );
  }
  sheet.mark(area(first, 4, WEEK_ROWS), cellRef(first, 4).above(1.001), 'bad');
  const series = (name: string, column: number) => ({
    name,
    sheet: SHEET,
    area: area(first, column, WEEK_ROWS),
  });
  const categories = { sheet: SHEET, area: area(first, 1, WEEK_ROWS) };
  sheet.chart({
    kind: 'line',
    title: `Biomass in all tanks, ${unit('mass')}`,
    place: biomass,
    categories,
    series: [series('Biomass', 2)],
    categoryTitle: 'Week of',
    valueTitle: unit('mass'),
  });
  sheet.chart({
    kind: 'line',
    title: 'Fullest tank, share of its limit',
    place: fullest,
    categories,
    series: [series('Fullest tank', 4)],
    categoryTitle: 'Week of',
    valueTitle: 'share of the limit',
  });
}

/** Of the wanted weight: whole batches and weeks are no finer. */
const REACHED = 0.98;

/** What keeps the wanted weight from coming out. */
function verdict(ctx: PlanContext, tanks: number): Formula {
  const [there, needed] = [named('Stock_litres'), named('Stock_litres_needed')];
  const [sold, wanted] = [named('Stock_yield'), named('Stock_wanted')];
  const litres = shownIn('volume', ctx.system);
  const leftOut = countOf('Tanks_status', 'unknown').plus(countOf('Tanks_status', 'unmeasured'));
  const missing = call('ROUND', inShownUnits(needed.minus(there), 'volume', ctx.system), 0);
  const less = call('ROUND', part(100).minus(part(100).times(there).over(needed)), 0);
  return joined(
    blankUnless(
      call('COUNTA', named('Tanks_name')).above(tanks),
      `The forecast holds ${tanks} tanks: those further down on Tanks are left out. Build the plan anew with all of them. `,
    ),
    blankUnless(
      leftOut.above(0),
      joined(
        'Left out of the forecast because of lines to put right in the Fish log, or water missing on Tanks: ',
        leftOut,
        ' of the tanks. ',
      ),
    ),
    cases(
      [
        [
          needed.isBlank,
          'Whether the tanks are large enough stays open: species, weights, fish to sell, water of the months and tanks must all be said.',
        ],
        [
          needed.above(there),
          joined(
            'The tanks are too small for the wanted weight: ',
            missing,
            ` ${litres.unit} more water is needed, or sell `,
            less,
            ' % less.',
          ),
        ],
        [
          sold.below(wanted.times(REACHED)),
          joined(
            'Water for it is there, but the year ahead sells only ',
            figureInWords(sold, 'massMonth', ctx.system),
            ', ',
            written(sold.over(wanted), '0 %'),
            ' of what is wanted',
            when(
              sold.is(0),
              ': none grow to their weight in water in which they can be netted.',
              ': warmer water, heavier fingerlings, or less to sell.',
            ),
          ),
        ],
      ],
      joined(
        'The tanks are large enough, and the year ahead sells ',
        figureInWords(sold, 'massMonth', ctx.system),
        ' on average.',
      ),
    ),
  );
}

function outcome(ctx: PlanContext, flow: Flow, tanks: number): void {
  flow.heading('Does it come out?');
  flow.fields([
    {
      name: 'Stock_yield',
      label: 'Sold on average in the year ahead',
      // As many rows as weeks of selling.
      formula: sum(named('Ahead_sold'))
        .over(7 * WEEK_ROWS)
        .times(MONTH),
      quantity: 'massMonth',
      look: 'result',
    },
    {
      name: 'Stock_litres',
      label: 'Water in the tanks',
      formula: sum(named('Tanks_volume')),
      quantity: 'volume',
      look: 'computed',
    },
    {
      name: 'Stock_litres_needed',
      label: 'Water that the rotation needs',
      formula: blankWithout(
        [named('Stock_batch_litres')],
        named('Stock_batch_litres').times(named('Stock_tanks')),
      ),
      quantity: 'volume',
      look: 'computed',
    },
  ]);
  const words = flow.wide({ formula: verdict(ctx, tanks), look: 'verdict' }, 2);
  ctx.name('Stock_verdict', SHEET, words);
}

export function stockPlanSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Stock plan',
    question:
      'When to stock, move and sell, and how many, so that the wanted weight comes out each month?',
    widths: [LABELS, FIGURES, 13, 14, 12, 13, 12, 12, 14, 11, 24],
    landscape: true,
  });
  sheet.fold(FOLDED);
  sheet.cautions(2, 0, 7, ['permit', 'quarantine', 'air', 'wounds']);
  const flow = new Flow(sheet, ctx, { row: 3, columns: 4, metricColumn: TWINS });
  const tanks = ctx.farm.tanks.length + SPARE_TANKS;
  wanted(sheet, ctx, flow);
  flow.skip();
  const turns = flow.row;
  rotation(ctx, flow);
  flow.skip();
  const comesOut = flow.row;
  outcome(ctx, flow, tanks);
  flow.skip();
  flow.heading('The tanks as they stand', 11);
  tanksNow(sheet, ctx, flow, tanks);
  flow.skip();
  const batch = batchBlock(sheet, ctx, flow);
  flow.skip();
  const ahead = flow.row;
  flow.heading('The 52 weeks ahead', 11);
  flow.remark(
    'By the planned rows of the Fish log. A tank of which none is left is sold at its harvest weight and stocked anew in the week after, neither in water in which handling harms the fish. Tank by tank on the sheet Tank year.',
  );
  // Each beside what it is printed with.
  weeks(sheet, ctx, flow, [area(3, 5, turns - 4, 6), area(turns + 1, 5, comesOut - turns - 2, 6)]);
  sheet.printOnPages([
    ...pagesFrom([0, turns, comesOut], batch.heads, FOLDED),
    ...pagesFrom([batch.heads], batch.end, FOLDED),
    ...pagesFrom([ahead], flow.row, FOLDED),
  ]);
  stockWeeksBlock(sheet, ctx, WEEKS);
  return sheet.model();
}
