import { cellAddress, rowAddress } from '../addresses';
import { lookupRow } from '../../functions/lookup';
import type { PlanContext } from '../context';
import { between, fields } from '../fields';
import type { FormatId, LookId, SheetModel } from '../model';
import { type QuantityId, shownIn } from '../quantities';
import { area, SheetBuilder } from '../sheet-builder';
import { WEEK_ROWS } from './stock-weeks';
import { SPARE_TANKS } from './tanks';

const SHEET = 'Stock plan';
/** First of the columns that hold metric twins in US units. */
const TWINS = 13;
const HELPERS = TWINS - 1;
/** First rows of the blocks. */
const ROTATION = 14;
const OUTCOME = 25;
const TANKS = 32;
/** Mean month of the calendar, days. */
const MONTH = 30.4375;

/** Metric formula, shown in the farm's units. */
function shownIf(ctx: PlanContext, quantity: QuantityId, formula: string): string {
  const { factor } = shownIn(quantity, ctx.system);
  return factor === 1 ? formula : `(${formula})/${Number(factor.toPrecision(12))}`;
}

function wanted(sheet: SheetBuilder, ctx: PlanContext): void {
  const { stock } = ctx.farm;
  sheet.heading(3, 0, 4, 'What is wanted');
  fields(
    sheet,
    ctx,
    4,
    0,
    [
      {
        name: 'Stock_species',
        label: 'Species',
        value: stock.species,
        look: 'input',
        rule: {
          rule: { kind: 'list', name: 'Fish_name' },
          message: 'Choose a species of the Species sheet.',
        },
      },
      {
        name: 'Stock_wanted',
        label: 'Fish to sell',
        value: stock.wanted,
        quantity: 'massMonth',
        look: 'input',
        rule: between('massMonth', ctx, 0.1, 1e6),
      },
      {
        name: 'Stock_start_weight',
        label: 'Weight when stocked',
        value: stock.startWeight,
        quantity: 'fishWeight',
        look: 'input',
        rule: between('fishWeight', ctx, 0.1, 20000),
      },
      {
        name: 'Stock_harvest_weight',
        label: 'Weight when sold',
        value: stock.harvestWeight,
        quantity: 'fishWeight',
        look: 'input',
        rule: between('fishWeight', ctx, 1, 50000),
      },
      {
        name: 'Stock_survival',
        label: 'Fish that live to be sold',
        value: stock.survival,
        quantity: 'share',
        look: 'input',
        rule: between('share', ctx, 0.05, 1),
      },
      {
        name: 'Stock_tanks',
        label: 'Tanks in the rotation',
        formula: 'MIN(52,COUNT(Tanks_volume))',
        quantity: 'number',
        unit: 'tanks',
        look: 'computed',
        remark: 'All that the Tanks sheet lists.',
      },
      {
        name: 'Stock_density',
        label: 'Density limit',
        formula: 'INDEX(Fish_density_aerated,Stock_line)',
        quantity: 'density',
        look: 'computed',
        remark: 'From the Species sheet.',
      },
      {
        name: 'Stock_coefficient',
        label: 'Growth coefficient',
        formula: 'INDEX(Fish_tgc,Stock_line)',
        format: 'two',
        look: 'computed',
        remark: 'From the Species sheet.',
      },
      {
        name: 'Stock_week_survival',
        label: 'Fish that live through a week',
        formula: 'Stock_survival^(7/Stock_days)',
        format: 'three',
        look: 'computed',
        remark: 'Losses spread evenly.',
      },
    ],
    TWINS,
  );
  // Beside the species, among what serves formulas alone.
  sheet.text(3, HELPERS, 'Line in Species', 'source');
  sheet.put(4, HELPERS, { formula: lookupRow('Fish', 'Stock_species'), look: 'source' });
  ctx.name('Stock_line', SHEET, area(4, HELPERS));
}

/** Tanks stocked in turn at even intervals, each batch staying in its tank until it is sold. */
function rotation(sheet: SheetBuilder, ctx: PlanContext): void {
  const { gill } = ctx;
  sheet.heading(ROTATION, 0, 4, 'The rotation that gives it');
  fields(
    sheet,
    ctx,
    ROTATION + 1,
    0,
    [
      {
        name: 'Stock_days',
        label: 'Days in the tank',
        formula: gill(
          'GROWTH.DAYS',
          'Stock_start_weight',
          'Stock_harvest_weight',
          'Water_year',
          'Stock_species',
          'Stock_coefficient',
        ),
        quantity: 'days',
        look: 'result',
        note: "At the year's mean water. The weeks below follow the seasons.",
      },
      {
        name: 'Stock_interval',
        label: 'Weeks between two harvests',
        formula: 'Stock_days/Stock_tanks/7',
        quantity: 'weeks',
        look: 'result',
      },
      {
        name: 'Stock_sold',
        label: 'Fish to sell from a batch',
        formula: `ROUNDUP(ROUND(Stock_wanted*Stock_days/Stock_tanks*1000/(${MONTH}*Stock_harvest_weight),6),0)`,
        quantity: 'count',
        look: 'computed',
      },
      {
        name: 'Stock_batch',
        label: 'Fish to stock in a batch',
        formula: 'ROUNDUP(ROUND(Stock_sold/Stock_survival,6),0)',
        quantity: 'count',
        look: 'result',
      },
      {
        label: 'Weight of a batch when sold',
        formula: 'Stock_sold*Stock_harvest_weight/1000',
        quantity: 'mass',
        look: 'computed',
      },
      {
        name: 'Stock_batch_litres',
        label: 'Water for each batch',
        formula: 'Stock_sold*Stock_harvest_weight/Stock_density',
        quantity: 'volume',
        look: 'computed',
      },
      {
        name: 'Stock_fingerlings',
        label: 'Fingerlings to buy in a year',
        formula: 'Stock_batch*365.25*Stock_tanks/Stock_days',
        quantity: 'count',
        look: 'computed',
      },
      {
        label: 'Most biomass in the year ahead',
        formula: 'MAX(Weeks_standing)',
        quantity: 'mass',
        look: 'computed',
      },
      {
        label: 'Most feed in the year ahead',
        formula: 'MAX(Weeks_feed)',
        quantity: 'feedDay',
        look: 'computed',
      },
    ],
    TWINS,
  );
}

/** What becomes of the fish that stand in each tank now. */
function tanksNow(sheet: SheetBuilder, ctx: PlanContext, headRow: number): void {
  const { system } = ctx;
  const rows = ctx.farm.tanks.length + SPARE_TANKS;
  const mass = shownIn('mass', system);
  const weight = shownIn('fishWeight', system);
  sheet.heads(headRow, 0, [
    'Tank',
    'Fish now',
    `Mean weight now, ${weight.unit}`,
    'Ready to sell on',
    'Fish then',
    `Biomass then, ${mass.unit}`,
    'Fish to move before then',
    'Limit reached on',
    'Restock in the week of',
    'Fish to stock',
    'What to do this week',
  ]);
  for (let k = 0; k < rows; k++) {
    const row = headRow + 1 + k;
    const column = (name: string): string => `INDEX(${name},0,${k + 1})`;
    const one = (name: string): string => `INDEX(${name},1,${k + 1})`;
    const week = (name: string, w: string): string => `INDEX(${name},${w},${k + 1})`;
    const name = rowAddress(row, 0);
    const here = (c: number): string => rowAddress(row, c);
    const has = (formula: string): string =>
      `IF(${name}="","",IF(${week('Weeks_fish', '1')}=0,"",${formula}))`;
    // Weeks without a harvest yet: the last of them is the week of the first harvest.
    const ready = `COUNTIF(${column('Weeks_sales')},0)`;
    const put = (c: number, look: LookId, format: FormatId, formula: string): void =>
      sheet.put(row, c, { formula, look, format });
    put(0, 'label', 'general', `IF(${one('Weeks_tank')}="","",${one('Weeks_tank')})`);
    put(1, 'computed', 'whole', has(week('Weeks_fish', '1')));
    put(2, 'computed', weight.format, has(shownIf(ctx, 'fishWeight', week('Weeks_weights', '1'))));
    put(
      3,
      'result',
      'date',
      has(
        `IF(${week('Weeks_weights', ready)}<${one('Weeks_harvest')},"after a year",INDEX(Weeks_date,${ready}))`,
      ),
    );
    put(
      4,
      'computed',
      'whole',
      has(`IF(ISNUMBER(${here(3)}),ROUNDDOWN(${week('Weeks_fish', ready)},0),"")`),
    );
    put(
      5,
      'computed',
      mass.format,
      has(`IF(ISNUMBER(${here(3)}),${shownIf(ctx, 'mass', week('Weeks_kilos', ready))},"")`),
    );
    put(
      6,
      'result',
      'whole',
      has(
        `IF(ISNUMBER(${here(3)}),MAX(0,ROUNDUP(ROUND(${week('Weeks_fish', ready)}-${one('Weeks_limit')}*1000/${week('Weeks_weights', ready)},6),0)),"")`,
      ),
    );
    put(
      7,
      'computed',
      'date',
      has(
        `IF(N(${here(6)})=0,"",INDEX(Weeks_date,MIN(${WEEK_ROWS},1+SUMPRODUCT((${column('Weeks_sales')}=0)*(${column('Weeks_kilos')}<=${one('Weeks_limit')})))))`,
      ),
    );
    put(
      8,
      'computed',
      'date',
      `IF(${name}="","",IF(${week('Weeks_fish', '1')}=0,IF(N(${one('Weeks_first')})>52,"after a year",Farm_week+7*N(${one('Weeks_first')})),IF(ISNUMBER(${here(3)}),IF(INDEX(Tanks_fish,${k + 1})>0,${here(3)}+7,Farm_week),"")))`,
    );
    put(9, 'computed', 'whole', `IF(${here(8)}="","",${one('Weeks_head')})`);
    put(
      10,
      'verdict',
      'general',
      `IF(${name}="","",IF(N(INDEX(Tanks_fish,${k + 1}))=0,IF(N(${one('Weeks_first')})=0,"stock "&${one('Weeks_head')}&" fish",""),IF(AND(ISNUMBER(${here(3)}),N(${here(3)})<=Farm_week+6),"sell",IF(AND(ISNUMBER(${here(7)}),N(${here(7)})<=Farm_week+6),"move "&${here(6)}&" fish",""))))`,
    );
  }
  ctx.name('Stock_task', SHEET, area(headRow + 1, 10, rows));
  sheet.mark(area(headRow + 1, 10, rows), `${rowAddress(headRow + 1, 10)}<>""`, 'watch');
  sheet.mark(area(headRow + 1, 6, rows), `N(${rowAddress(headRow + 1, 6)})>0`, 'watch');
}

function weeks(sheet: SheetBuilder, ctx: PlanContext, headRow: number): void {
  const { system } = ctx;
  const unit = (id: QuantityId): string => shownIn(id, system).unit;
  const columns: readonly (readonly [string, QuantityId, string, FormatId?])[] = [
    ['Week of', 'number', 'Weeks_date', 'date'],
    [`Biomass, ${unit('mass')}`, 'mass', 'Weeks_standing'],
    [`Feed, ${unit('feedDay')}`, 'feedDay', 'Weeks_feed'],
    ['Fullest tank, % of its limit', 'share', 'Weeks_fullest'],
    [`Sold, ${unit('mass')}`, 'mass', 'Weeks_sold'],
    ['Fish stocked', 'count', 'Weeks_stocked'],
  ];
  sheet.heads(headRow, 0, ['In weeks', ...columns.map(([head]) => head)]);
  for (let w = 0; w < WEEK_ROWS; w++) {
    const row = headRow + 1 + w;
    sheet.put(row, 0, { value: w, look: 'label', format: 'whole' });
    columns.forEach(([, quantity, name, format], c) =>
      sheet.put(row, c + 1, {
        formula: shownIf(ctx, quantity, `INDEX(${name},${w + 1})`),
        look: 'computed',
        format: format ?? shownIn(quantity, system).format,
      }),
    );
  }
  const first = headRow + 1;
  sheet.mark(area(first, 4, WEEK_ROWS), `${cellAddress(first, 4)}>1.001`, 'bad');
  const series = (name: string, column: number) => ({
    name,
    sheet: SHEET,
    area: area(first, column, WEEK_ROWS),
  });
  const categories = { sheet: SHEET, area: area(first, 1, WEEK_ROWS) };
  sheet.chart({
    kind: 'line',
    title: `Biomass in all tanks, ${unit('mass')}`,
    place: area(3, 5, 14, 6),
    categories,
    series: [series('Biomass', 2)],
    categoryTitle: 'Week of',
    valueTitle: unit('mass'),
  });
  sheet.chart({
    kind: 'line',
    title: 'Fullest tank, share of its limit',
    place: area(17, 5, 14, 6),
    categories,
    series: [series('Fullest tank', 4)],
    categoryTitle: 'Week of',
    valueTitle: 'share of the limit',
  });
}

export function stockPlanSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Stock plan',
    question:
      'When to stock, move and sell, and how many, so that the wanted weight comes out each month?',
    widths: [36, 14, 13, 14, 12, 13, 12, 12, 14, 11, 24],
    landscape: true,
  });
  sheet.fold(11);
  sheet.cautions(2, 0, 7, ['permit', 'air']);
  wanted(sheet, ctx);
  rotation(sheet, ctx);
  sheet.heading(OUTCOME, 0, 4, 'Does it come out?');
  // 53 rows are 53 weeks of selling.
  const month = `SUM(Weeks_sold)/${7 * WEEK_ROWS}*${MONTH}`;
  fields(
    sheet,
    ctx,
    OUTCOME + 1,
    0,
    [
      {
        name: 'Stock_yield',
        label: 'Sold on average in the year ahead',
        formula: month,
        quantity: 'massMonth',
        look: 'result',
      },
      {
        name: 'Stock_litres',
        label: 'Water in the tanks',
        formula: 'SUM(Tanks_volume)',
        quantity: 'volume',
        look: 'computed',
      },
      {
        name: 'Stock_litres_needed',
        label: 'Water that the rotation needs',
        formula: 'Stock_batch_litres*Stock_tanks',
        quantity: 'volume',
        look: 'computed',
      },
    ],
    TWINS,
  );
  const litres = shownIn('volume', ctx.system);
  sheet.wide(
    OUTCOME + 4,
    0,
    4,
    {
      formula:
        `IF(COUNTA(Tanks_name)>${ctx.farm.tanks.length + SPARE_TANKS},"The forecast holds ${ctx.farm.tanks.length + SPARE_TANKS} tanks: those further down on Tanks are left out. Build the plan anew with all of them. ","")&` +
        `IF(COUNTIF(Tanks_verdict,"type*")>0,"Left out of the forecast because a figure is missing on Tanks: "&COUNTIF(Tanks_verdict,"type*")&" of the tanks. ","")&` +
        `IF(Stock_litres_needed>Stock_litres,"The tanks are too small for the wanted weight: "&ROUND(${shownIf(ctx, 'volume', 'Stock_litres_needed-Stock_litres')},0)&" ${litres.unit} more water is needed, or sell "&ROUND(100-100*Stock_litres/Stock_litres_needed,0)&" % less.","The tanks are large enough for the wanted weight.")`,
      look: 'verdict',
    },
    2,
  );
  ctx.name('Stock_verdict', SHEET, area(OUTCOME + 4, 0));
  const rows = ctx.farm.tanks.length + SPARE_TANKS;
  sheet.heading(TANKS, 0, 11, 'The tanks as they stand');
  tanksNow(sheet, ctx, TANKS + 1);
  const next = TANKS + 3 + rows;
  sheet.heading(next, 0, 11, 'The 52 weeks ahead');
  sheet.text(
    next + 1,
    0,
    'A tank is sold at its harvest weight and stocked anew in the week after; tank by tank on the sheet Stock weeks.',
    'source',
  );
  weeks(sheet, ctx, next + 2);
  sheet.repeat(next + 2, 1);
  return sheet.model();
}
