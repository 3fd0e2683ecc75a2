import { rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import { between, fields } from '../fields';
import type { SheetModel } from '../model';
import { converts } from '../quantities';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Money';
const SPARE_COSTS = 6;
/** First of the columns that hold metric twins in US units. */
const TWINS = 12;
const DAYS_IN_MONTH = '(365/12)';

interface Costs {
  readonly nextRow: number;
}

/** Prices of feed and fish; everything else that costs is in the list below. */
function prices(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const { farm } = ctx;
  sheet.heading(row, 0, 4, 'Prices');
  const price = between('pricePerMass', ctx, 0, 1e6);
  return fields(
    sheet,
    ctx,
    row + 1,
    0,
    [
      {
        name: 'Money_feed_price',
        label: 'Feed',
        value: farm.feed.price,
        quantity: 'pricePerMass',
        look: 'input',
        rule: price,
      },
      {
        name: 'Money_fish_price',
        label: 'Fish sold',
        value: farm.stock.fishPrice,
        quantity: 'pricePerMass',
        look: 'input',
        rule: price,
      },
      {
        name: 'Money_fingerling',
        label: 'One fingerling',
        value: farm.stock.fingerlingPrice,
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
        value: 0.5,
        quantity: 'share',
        look: 'preset',
        remark: 'You choose the split; half is common practice, no source.',
        note: 'Water, energy and labour serve fish and plants. The break-even figures need a stated split.',
        rule: between('share', ctx, 0, 1),
      },
    ],
    TWINS,
  );
}

function costs(sheet: SheetBuilder, ctx: PlanContext, row: number): Costs {
  const { farm } = ctx;
  sheet.heading(row, 0, 4, 'Costs a month');
  sheet.heads(row + 1, 0, ['What', 'A month']);
  const put = (r: number, label: string, formula: string, remark: string): void => {
    sheet.text(r, 0, label, 'label');
    sheet.put(r, 1, { formula, look: 'computed', format: 'money' });
    sheet.text(r, 3, remark, 'source');
  };
  const first = row + 2;
  put(
    first,
    'Feed',
    `SUM(Tanks_feed)/1000*${DAYS_IN_MONTH}*Money_feed_price`,
    'What the Tanks sheet feeds a day now.',
  );
  put(
    first + 1,
    'Fingerlings',
    'Stock_fingerlings/12*Money_fingerling',
    'What the Stock plan calls for in a year.',
  );
  const own = first + 2;
  const rows = farm.costs.length + SPARE_COSTS;
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
  const total = own + rows;
  sheet.text(total, 0, 'All costs', 'label');
  sheet.put(total, 1, {
    formula: `SUM(${rowAddress(first, 1)}:${rowAddress(total - 1, 1)})`,
    look: 'result',
    format: 'money',
  });
  ctx.name('Money_direct', SHEET, area(first, 1, 2));
  ctx.name('Money_shared', SHEET, area(own, 1, rows));
  ctx.name('Money_costs', SHEET, area(total, 1));
  return { nextRow: total + 2 };
}

/** What has to come in, and at which price it pays. */
function verdicts(sheet: SheetBuilder, ctx: PlanContext, row: number): number {
  const { gill } = ctx;
  const currency = ctx.farm.currency;
  sheet.heading(row, 0, 4, 'Does it pay?');
  const words = fields(
    sheet,
    ctx,
    row + 1,
    0,
    [
      {
        name: 'Money_crop_target',
        label: 'Crops, if the market takes what was agreed',
        formula: 'SUMPRODUCT(Sowing_wanted,Sowing_price)*52/12',
        quantity: 'number',
        format: 'money',
        unit: `${currency} a month`,
        look: 'computed',
      },
      {
        name: 'Money_fish_target',
        label: 'Fish, as the Stock plan wants it',
        formula: 'Stock_wanted*Money_fish_price',
        quantity: 'number',
        format: 'money',
        unit: `${currency} a month`,
        look: 'computed',
      },
      {
        name: 'Money_margin',
        label: 'Left after all costs',
        formula: 'Money_crop_target+Money_fish_target-Money_costs',
        quantity: 'number',
        format: 'money',
        unit: `${currency} a month`,
        look: 'result',
      },
      {
        name: 'Money_even_fish',
        label: 'Price at which the fish pay their part',
        formula: `IF(Stock_wanted=0,"",${gill('MONEY.BREAKEVEN', 'SUM(Money_direct)+SUM(Money_shared)*Money_fish_share', 'Stock_wanted')})`,
        quantity: 'pricePerMass',
        look: 'result',
        note: 'Feed, fingerlings and their part of the shared costs, over what is to be sold.',
      },
      {
        name: 'Money_even_bed',
        label: 'What a bed must bring',
        formula:
          'IF(SUM(Beds_area)=0,"",SUM(Money_shared)*(1-Money_fish_share)*12/52/SUM(Beds_area))',
        quantity: 'moneyPerArea',
        look: 'result',
        note: 'The crops’ part of the shared costs over the whole bed area. Beds below it on the Beds sheet do not pay.',
      },
      {
        label: 'Crops bring on the whole bed area',
        formula: 'IF(SUM(Beds_area)=0,"",Money_crop_target*12/52/SUM(Beds_area))',
        quantity: 'moneyPerArea',
        look: 'computed',
      },
    ],
    TWINS,
  );
  sheet.text(words, 0, 'In words', 'label');
  sheet.wide(words, 1, 5, {
    formula:
      'IF(Money_margin>=0,IF(Money_even_fish="","It pays.",IF(Money_fish_price>=Money_even_fish,"It pays, and so do the fish alone.","It pays; the crops carry the fish.")),"It does not pay: "&TEXT(-Money_margin,"0")&" a month are missing.")',
    look: 'verdict',
  });
  ctx.name('Money_verdict', SHEET, area(words, 1));
  return words + 1;
}

/** Twelve months up to the as-of date: what came in against what was wanted. */
function months(sheet: SheetBuilder, ctx: PlanContext, row: number): void {
  sheet.heading(row, 0, 8, 'The last twelve months');
  const head = row + 1;
  sheet.heads(head, 0, [
    'Month',
    'Fish',
    'Crops',
    'Income',
    'Wanted',
    'Against wanted',
    'Costs as now',
    'Left',
  ]);
  const first = head + 1;
  for (let i = 0; i < 12; i++) {
    const r = first + i;
    const month = rowAddress(r, 0);
    const key = `(YEAR(${month})*100+MONTH(${month}))`;
    const money = (c: number, look: 'computed' | 'result', formula: string): void =>
      sheet.put(r, c, { formula, look, format: 'money' });
    sheet.put(r, 0, {
      formula: `DATE(YEAR(Farm_date),MONTH(Farm_date)-${11 - i},1)`,
      look: 'label',
      format: 'date',
    });
    money(1, 'computed', `SUMIFS(Harvest_income,Harvest_month,${key},Harvest_kind,"fish")`);
    money(2, 'computed', `SUMIFS(Harvest_income,Harvest_month,${key},Harvest_kind,"crop")`);
    money(3, 'result', `${rowAddress(r, 1)}+${rowAddress(r, 2)}`);
    money(4, 'computed', 'Money_crop_target+Money_fish_target');
    sheet.put(r, 5, {
      formula: `IF(${rowAddress(r, 4)}=0,"",${rowAddress(r, 3)}/${rowAddress(r, 4)})`,
      look: 'computed',
      format: 'percent',
    });
    money(6, 'computed', 'Money_costs');
    money(7, 'result', `IF(${rowAddress(r, 3)}=0,"",${rowAddress(r, 3)}-${rowAddress(r, 6)})`);
  }
  sheet.text(
    first + 12,
    0,
    'Income as the Harvest log has it; a month without entries has no balance. The last month is not over yet.',
    'source',
  );
  const series = (name: string, column: number) => ({
    name,
    sheet: SHEET,
    area: area(first, column, 12),
  });
  sheet.chart({
    kind: 'column',
    title: `Income and costs by month, ${ctx.farm.currency}`,
    place: area(first + 14, 0, 18, 8),
    categories: { sheet: SHEET, area: area(first, 0, 12) },
    series: [series('Income', 3), series('Costs as now', 6)],
    valueTitle: ctx.farm.currency,
  });
}

export function moneySheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Money',
    question: 'What comes in, what does it cost, and at which price does it pay?',
    widths: [42, 13, 15, 13, 13, 13, 13, 13],
    landscape: false,
    headRows: 2,
  });
  if (converts('pricePerMass', ctx.system)) {
    sheet.width(TWINS, 14);
    sheet.fold(8);
    sheet.text(2, TWINS, 'In metric', 'source');
  }
  const costsRow = prices(sheet, ctx, 3) + 1;
  const { nextRow } = costs(sheet, ctx, costsRow);
  const monthsRow = verdicts(sheet, ctx, nextRow) + 1;
  months(sheet, ctx, monthsRow);
  return sheet.model();
}
