import type { PlanContext } from '../context';
import { MONTH } from '../../core/stocking';
import { between, type Field } from '../fields';
import { Flow } from '../sheet-flow';
import {
  all,
  any,
  blankIf,
  blankUnless,
  blankWithout,
  call,
  type Formula,
  joined,
  part,
  sum,
  when,
} from '../formula-parts';
import type { SheetModel } from '../workbook-model';
import { named } from '../names';
import { MONTHS_OF_YEAR, paysInWords, WEEKS_OF_YEAR, yearLabels } from '../pays';
import { converts } from '../quantities';
import { rowRef } from '../references';
import { area, FIGURES, LABELS, pagesFrom, SheetBuilder } from '../sheet-builder';
import { monthKey } from './harvest-log-sheet';
import { spacingsBlock } from './spacings-block';
import { whatToBuyBlocks } from './what-to-buy-block';

const SHEET = 'Money';
const SPARE_COSTS = 6;
/** First of the columns that hold metric twins in US units. */
const TWINS = 12;
const CHART_ROWS = 20;
/** Columns that are printed, the last one remarks. */
const COLUMNS = 9;

/** What feed and fingerlings cost is not said yet, and with it what everything costs. */
const costsOpen = call('COUNT', named('Money_direct')).below(2);

/** Prices of feed and fish; everything else that costs is in the list below. */
function prices(ctx: PlanContext, flow: Flow): void {
  flow.heading('Prices');
  const price = between('pricePerMass', ctx, 0, 1e6);
  flow.fields([
    {
      name: 'Money_feed_price',
      label: 'Feed',
      farm: 'feed.price',
      quantity: 'pricePerMass',
      look: 'input',
      rule: price,
    },
    {
      name: 'Money_fish_price',
      label: 'Fish sold',
      farm: 'stock.fishPrice',
      quantity: 'pricePerMass',
      look: 'input',
      rule: price,
    },
    {
      name: 'Money_fingerling',
      label: 'One fingerling',
      farm: 'stock.fingerlingPrice',
      quantity: 'number',
      format: 'money',
      look: 'input',
      rule: {
        rule: { kind: 'number', min: 0, max: 1e6 },
        message: 'Type the price of one fingerling.',
      },
    },
    {
      name: 'Money_fish_share',
      label: 'Part of the shared costs that the fish bear',
      preset: 'Money_fish_share',
      look: 'preset',
      remark: 'You choose the split; half is common practice, no source.',
      note: 'Water, energy and labour serve fish and plants. The break-even figures need a stated split.',
    },
  ]);
}

function costs(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const { farm } = ctx;
  flow.heading('Costs a month');
  flow.heads(['What', 'A month']);
  const put = (label: string, formula: Formula, remark: string): void => {
    const row = flow.skip();
    sheet.text(row, 0, label, 'label');
    sheet.put(row, 1, { formula, look: 'computed', format: 'money' });
    sheet.text(row, 3, remark, 'source');
  };
  const first = flow.row;
  put(
    'Feed',
    blankWithout(
      [named('Money_feed_price'), named('Stock_feed')],
      named('Stock_feed').over(1000).times(MONTH).times(named('Money_feed_price')),
    ),
    'What the fish of the Stock plan eat in the mean of a year.',
  );
  put(
    'Fingerlings',
    blankWithout(
      [named('Stock_fingerlings'), named('Money_fingerling')],
      named('Stock_fingerlings').over(12).times(named('Money_fingerling')),
    ),
    'What the Stock plan calls for in a year.',
  );
  const rows = farm.costs.length + SPARE_COSTS;
  const own = flow.skip(rows);
  for (let i = 0; i < rows; i++) {
    const cost = farm.costs[i];
    sheet.put(own + i, 0, {
      ...(cost && { value: cost.item }),
      look: 'input',
      format: 'text',
    });
    sheet.put(own + i, 1, {
      ...(cost && { value: cost.perMonth }),
      look: 'input',
      format: 'money',
    });
  }
  sheet.rule(
    area(own, 1, rows),
    { kind: 'number', min: 0 },
    'Type what it costs a month, or leave it blank.',
  );
  const total = flow.skip();
  sheet.text(total, 0, 'All costs', 'label');
  sheet.put(total, 1, {
    formula: blankIf(costsOpen, sum(named('Money_direct'), named('Money_shared'))),
    look: 'result',
    format: 'money',
  });
  ctx.name('Money_direct', SHEET, area(first, 1, own - first));
  ctx.name('Money_shared', SHEET, area(own, 1, rows));
  ctx.typed.push({
    kind: 'register',
    sheet: SHEET,
    list: 'costs',
    open: false,
    columns: [
      { name: 'Money_shared', field: 'item', beside: -1, label: 'What', holds: 'text' },
      { name: 'Money_shared', field: 'perMonth', beside: 0, label: 'A month', holds: 'number' },
    ],
  });
  ctx.name('Money_costs', SHEET, area(total, 1));
}

/** Of a m2 and week, from the whole bed area. */
const ofBedAndWeek = (perYear: Formula): Formula => {
  const area = sum(named('Beds_area'));
  return blankIf(area.is(0), perYear.over(WEEKS_OF_YEAR).over(area));
};

/** Which of the two pays its part, once the whole is known to pay. */
const whoPays = blankUnless(
  all(named('Money_left').orZero.above(0), named('Money_even_fish').isFilled),
  when(
    named('Money_fish_price').atLeast(named('Money_even_fish')),
    ' The fish pay their part.',
    ' The crops carry the fish.',
  ),
);

/** What has to come in, and at which price it pays. */
function verdicts(ctx: PlanContext, flow: Flow): void {
  const currency = ctx.farm.currency;
  const shared = sum(named('Money_shared'));
  const wanted = named('Stock_wanted');
  const fishCosts = sum(named('Money_direct')).plus(shared.times(named('Money_fish_share')));
  const counted = (name: 'Sowing_wanted' | 'Sowing_price' | 'Sowing_months'): Formula =>
    call('COUNT', named(name));
  const cropsOpen = call('MIN', counted('Sowing_price'), counted('Sowing_months')).below(
    counted('Sowing_wanted'),
  );
  const cropCosts = shared.times(part(1).minus(named('Money_fish_share')));
  const [fish, crops, costs, left] = [
    named('Money_fish_year'),
    named('Money_crop_year'),
    named('Money_cost_year'),
    named('Money_left'),
  ];
  /** What the market takes in a week, at its prices. */
  const weekOf = (...share: readonly Formula[]): Formula =>
    call('SUMPRODUCT', named('Sowing_wanted'), named('Sowing_price_counts'), ...share);
  const ofYear = (
    name: NonNullable<Field['name']>,
    label: string,
    formula: Formula,
    more: Partial<Field> = {},
  ): Field => ({
    name,
    label,
    formula,
    quantity: 'number',
    format: 'money',
    unit: `${currency} a year`,
    look: 'computed',
    ...more,
  });
  flow.heading('Does it pay?');
  flow.fields([
    ofYear(
      'Money_fish_year',
      yearLabels.fish,
      blankWithout(
        [wanted, named('Money_fish_price')],
        wanted.times(named('Money_fish_price')).times(MONTHS_OF_YEAR),
      ),
      { remark: 'The fish to sell of the Stock plan, which says whether so many come out.' },
    ),
    ofYear(
      'Money_crop_year',
      yearLabels.crops,
      blankIf(cropsOpen, weekOf(named('Sowing_months')).over(MONTHS_OF_YEAR).times(WEEKS_OF_YEAR)),
      { remark: 'What the market takes a week (Sowing), by the air of the months (Site).' },
    ),
    ofYear(
      'Money_crop_weeks',
      yearLabels.everyWeek,
      blankIf(cropsOpen, weekOf().times(WEEKS_OF_YEAR)),
      { remark: 'Not counted in what is left.' },
    ),
    ofYear(
      'Money_cost_year',
      yearLabels.costs,
      blankWithout([named('Money_costs')], named('Money_costs').times(MONTHS_OF_YEAR)),
    ),
    ofYear(
      'Money_left',
      yearLabels.left,
      blankWithout([fish, crops, costs], fish.plus(crops).minus(costs)),
      { look: 'result' },
    ),
    {
      name: 'Money_margin',
      label: 'Left in a month, in the mean',
      formula: blankWithout([left], left.over(MONTHS_OF_YEAR)),
      quantity: 'number',
      format: 'money',
      unit: `${currency} a month`,
      look: 'computed',
    },
    {
      name: 'Money_least_fish',
      label: yearLabels.leastFish,
      formula: blankIf(
        any(crops.isBlank, costs.isBlank, wanted.orZero.is(0)),
        call('MAX', 0, costs.minus(crops).over(wanted.times(MONTHS_OF_YEAR))),
      ),
      quantity: 'pricePerMass',
      look: 'result',
      note: 'With what the crops bring: below it, nothing is left in a year.',
    },
    {
      name: 'Money_even_fish',
      label: 'Price at which the fish pay their part',
      formula: blankIf(
        any(wanted.orZero.is(0), costsOpen, fishCosts.is(0)),
        // What MONEY.BREAKEVEN gives, without its call: what it rests on calls twice already.
        fishCosts.over(wanted),
      ),
      quantity: 'pricePerMass',
      look: 'result',
      note: 'Feed, fingerlings and their part of the shared costs, over what is to be sold.',
    },
    {
      name: 'Money_even_bed',
      label: 'What a bed must bring',
      formula: ofBedAndWeek(cropCosts.times(MONTHS_OF_YEAR)),
      quantity: 'moneyPerArea',
      look: 'result',
      note: 'The crops’ part of the shared costs over the whole bed area. Beds below it on the Beds sheet do not pay.',
    },
    {
      label: 'Crops bring on the whole bed area',
      formula: blankWithout([crops], ofBedAndWeek(crops)),
      quantity: 'moneyPerArea',
      look: 'computed',
    },
  ]);
  const everyWeek = blankWithout([left], left.plus(named('Money_crop_weeks')).minus(crops));
  const words = flow.labelled(
    'In words',
    { formula: joined(paysInWords({ left, everyWeek, currency }), whoPays), look: 'verdict' },
    2,
    5,
  );
  ctx.name('Money_verdict', SHEET, words);
}

/** Twelve months up to the as-of date: what came in against what was wanted. */
function months(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  flow.heading('The last twelve months', 8);
  flow.heads([
    'Month',
    'Fish',
    'Crops',
    'Income',
    'Wanted',
    'Against wanted',
    'Costs as above',
    'Left',
  ]);
  const first = flow.row;
  for (let i = 0; i < 12; i++) {
    const row = flow.skip();
    const [month, fish, crops, income, wanted, , costs] = [0, 1, 2, 3, 4, 5, 6].map((column) =>
      rowRef(row, column),
    ) as [Formula, Formula, Formula, Formula, Formula, Formula, Formula];
    const today = named('Farm_date');
    const money = (column: number, look: 'computed' | 'result', formula: Formula): void =>
      sheet.put(row, column, { formula, look, format: 'money' });
    const sold = (kind: 'fish' | 'crop'): Formula =>
      call(
        'SUMIFS',
        named('Harvest_income'),
        named('Harvest_month'),
        monthKey(month),
        named('Harvest_kind'),
        kind,
      );
    sheet.put(row, 0, {
      formula: call('DATE', call('YEAR', today), call('MONTH', today).minus(11 - i), 1),
      look: 'label',
      format: 'date',
    });
    money(1, 'computed', sold('fish'));
    money(2, 'computed', sold('crop'));
    money(3, 'result', fish.plus(crops));
    money(
      4,
      'computed',
      blankWithout(
        [named('Money_fish_year'), named('Money_crop_year')],
        named('Money_fish_year').plus(named('Money_crop_year')).over(MONTHS_OF_YEAR),
      ),
    );
    sheet.put(row, 5, {
      formula: blankIf(wanted.orZero.is(0), income.over(wanted)),
      look: 'computed',
      format: 'percent',
    });
    money(6, 'computed', named('Money_costs'));
    money(7, 'result', blankIf(any(income.is(0), costs.isBlank), income.minus(costs)));
  }
  flow.remark(
    'Income as the Harvest log has it; wanted is a twelfth of what fish and crops bring in a year. A month without entries has no balance. The last month is not over yet.',
  );
  const series = (name: string, column: number) => ({
    name,
    sheet: SHEET,
    area: area(first, column, 12),
  });
  sheet.chart({
    kind: 'column',
    title: `Income and costs by month, ${ctx.farm.currency}`,
    place: area(flow.skip(CHART_ROWS) + 1, 0, CHART_ROWS - 2, 8),
    categories: { sheet: SHEET, area: area(first, 0, 12) },
    series: [series('Income', 3), series('Costs as above', 6)],
    valueTitle: ctx.farm.currency,
  });
}

export function moneySheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Money',
    question:
      'What comes in, what does it cost, and does it pay? What draws power, what is to be bought, which spacing brings more?',
    widths: [LABELS, FIGURES, 15, 13, 13, 13, 13, 13, 58],
    landscape: true,
    headRows: 2,
  });
  if (converts('pricePerMass', ctx.system)) {
    sheet.width(TWINS, 14);
    sheet.width(TWINS + 1, 14);
    sheet.text(2, TWINS, 'In metric', 'source');
  }
  sheet.fold(TWINS);
  const flow = new Flow(sheet, ctx, { row: 3, columns: 4, metricColumn: TWINS });
  prices(ctx, flow);
  flow.skip();
  costs(sheet, ctx, flow);
  flow.skip();
  const pays = flow.row;
  verdicts(ctx, flow);
  flow.skip();
  const twelve = flow.row;
  months(sheet, ctx, flow);
  const [power, list] = whatToBuyBlocks(sheet, ctx, flow);
  flow.skip();
  const spacings = flow.row;
  spacingsBlock(sheet, ctx, flow, TWINS);
  // No table goes over the end of a page.
  sheet.printOnPages(pagesFrom([0, pays, twelve, power, list, spacings], flow.row, COLUMNS));
  return sheet.model();
}
