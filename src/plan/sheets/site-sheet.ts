import { MONTH_NAMES } from '../../core/month-names';
import type { PlanContext } from '../context';
import { coldestAir, cropFigure, warmestAir } from '../crop-figures';
import { between } from '../fields';
import { Flow } from '../sheet-flow';
import {
  any,
  blankIf,
  blankWithout,
  call,
  type Condition,
  type Formula,
  when,
} from '../formula-parts';
import { isOpen, monthNow } from '../month-cells';
import { filledColumn, type Moving } from '../filled';
import type { SheetModel } from '../workbook-model';
import { codeOf, type FigureName, hasCode, named, nth } from '../names';
import { lookOfTyped } from '../preset-fields';
import { metricFormula, type QuantityId, shownFormula, shownIn, toShown } from '../quantities';
import { cellRef, fixedRef, rowRef } from '../references';
import { area, FIGURES, LABELS, pagesFrom, SheetBuilder } from '../sheet-builder';

const SHEET = 'Site';
/** Columns that are shown. */
const COLUMNS = 14;
/** First of the columns that hold metric twins in US units. */
const TWINS = 15;
/** Best air from which on a crop is one of the warm season, °C. */
const WARM_SEASON = 20;

interface MonthColumn {
  readonly head: string;
  readonly quantity: QuantityId;
  readonly name: FigureName;
  readonly min: number;
  readonly max: number;
  readonly field: 'water' | 'high' | 'low' | 'humidity';
}

const typed: readonly MonthColumn[] = [
  { field: 'water', head: 'Water', quantity: 'temperature', name: 'Month_water', min: -2, max: 45 },
  {
    field: 'high',
    head: 'Air by day',
    quantity: 'temperature',
    name: 'Month_high',
    min: -40,
    max: 60,
  },
  {
    field: 'low',
    head: 'Air by night',
    quantity: 'temperature',
    name: 'Month_low',
    min: -50,
    max: 50,
  },
  {
    field: 'humidity',
    head: 'Air humidity',
    quantity: 'share',
    name: 'Month_humidity',
    min: 0,
    max: 1,
  },
];

function monthTable(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const { system, farm } = ctx;
  const headRow = flow.skip();
  const first = flow.skip(12);
  const headOf = (head: string, quantity: QuantityId): string =>
    `${head}, ${shownIn(quantity, system).unit}`;
  sheet.heads(headRow, 0, ['Month', ...typed.map(({ head, quantity }) => headOf(head, quantity))]);
  MONTH_NAMES.forEach((month, i) => sheet.text(first + i, 0, month, 'label'));
  const twinOf = new Map<number, number>();
  typed.forEach(({ field, head, quantity, name, min, max }, k) => {
    const column = k + 1;
    const shown = shownIn(quantity, system);
    const twin = shown.factor === 1 ? column : TWINS + k;
    twinOf.set(column, twin);
    const { rule, message } = between(quantity, ctx, min, max);
    sheet.rule(area(first, column, 12), rule, message);
    ctx.name(name, SHEET, area(first, twin, 12));
    if (twin !== column)
      sheet.heads(headRow, twin, [
        `${head}, ${shownIn(quantity, 'metric').unit} (for the functions)`,
      ]);
    farm.months.forEach((month, i) => {
      const given = month[field];
      const value = given === undefined ? undefined : toShown(given, quantity, system);
      sheet.put(first + i, column, {
        ...(value !== undefined && { value }),
        look: lookOfTyped(farm, `months[].${field}`, value, 'input'),
        format: shown.format,
      });
      if (twin !== column) {
        const formula = metricFormula(cellRef(first + i, column), quantity, system);
        sheet.put(first + i, twin, { formula, look: 'computed', format: 'one' });
      }
    });
  });
  ctx.typed.push({
    kind: 'register',
    sheet: SHEET,
    list: 'months',
    open: false,
    columns: typed.map(({ field, name, head, quantity }, k) => ({
      field,
      name,
      beside: k + 1 - (twinOf.get(k + 1) as number),
      label: headOf(head, quantity),
      holds: 'number',
      quantity,
    })),
  });
  const moving = (column: number): Moving => ({
    range: fixedRef(area(first, column, 12)),
    cell: (i) => rowRef(first + i, column),
  });
  const date = 5;
  sheet.heads(headRow, date, [
    'Worked out for',
    'Day length, h',
    'Noon sun, degrees above the horizon',
    headOf('Shadow of the trellis at noon', 'length'),
    'Oxygen that water can hold, mg/L',
    'Vapour pressure deficit (VPD), kPa',
  ]);
  MONTH_NAMES.forEach((_, i) =>
    sheet.put(first + i, date, {
      formula: call('DATE', call('YEAR', named('Farm_date')), i + 1, 15),
      look: 'computed',
      format: 'date',
    }),
  );
  const place = (column: number, format: 'one' | 'two', ...needs: readonly Condition[]) => ({
    row: first,
    column,
    rows: 12,
    look: 'computed' as const,
    format,
    ...(needs.length > 0 && { blankIf: any(...needs) }),
  });
  // A function that fills a column stands alone where it can: a hand-over makes ordinary formulas of it then.
  const noLatitude = farm.site.latitude === undefined ? [named('Farm_latitude').isBlank] : [];
  const noAir = farm.months.some(({ high, low, humidity }) =>
    [high, low, humidity].includes(undefined),
  )
    ? [isOpen('Month_high'), isOpen('Month_low'), isOpen('Month_humidity')]
    : [];
  filledColumn(sheet, ctx, place(6, 'one', ...noLatitude), 'SUN.HOURS', [
    named('Farm_latitude'),
    moving(date),
  ]);
  ctx.name('Month_daylight', SHEET, area(first, 6, 12));
  filledColumn(sheet, ctx, place(7, 'one', ...noLatitude), 'SUN.NOON', [
    named('Farm_latitude'),
    moving(date),
  ]);
  const shadow = shownIn('length', system);
  const shadowTwin = shadow.factor === 1 ? 8 : TWINS + 5;
  filledColumn(sheet, ctx, place(shadowTwin, 'one', ...noLatitude), 'SUN.SHADOW', [
    named('Site_trellis'),
    named('Farm_latitude'),
    moving(date),
  ]);
  if (shadowTwin !== 8) {
    sheet.heads(headRow, shadowTwin, ['Shadow of the trellis at noon, m (for the functions)']);
    MONTH_NAMES.forEach((_, i) =>
      sheet.put(first + i, 8, {
        formula: shownFormula(rowRef(first + i, shadowTwin), 'length', system),
        look: 'computed',
        format: 'one',
      }),
    );
  }
  filledColumn(sheet, ctx, place(9, 'two'), 'OXYGEN.FULL', [
    moving(twinOf.get(1) ?? 1),
    named('Farm_salinity'),
    named('Farm_altitude'),
  ]);
  // Air at the mean of day and night, for the vapour pressure deficit and for the crops' seasons.
  const air = shownIn('temperature', system);
  const mean = air.factor === 1 ? 11 : TWINS + 6;
  sheet.heads(headRow, 11, [headOf('Air, mean', 'temperature')]);
  if (mean !== 11) sheet.heads(headRow, mean, ['Air, mean, °C (for the functions)']);
  MONTH_NAMES.forEach((_, i) => {
    sheet.put(first + i, mean, {
      formula: blankWithout(
        [nth('Month_high', i + 1), nth('Month_low', i + 1)],
        // A mean of degrees Fahrenheit would lie a hair beside a limit that it stands on.
        call(
          'ROUND',
          nth('Month_high', i + 1)
            .plus(nth('Month_low', i + 1))
            .over(2),
          6,
        ),
      ),
      look: 'computed',
      format: 'one',
    });
    if (mean === 11) return;
    const formula = shownFormula(rowRef(first + i, mean), 'temperature', system);
    sheet.put(first + i, 11, { formula, look: 'computed', format: air.format });
  });
  ctx.name('Month_air', SHEET, area(first, mean, 12));
  filledColumn(sheet, ctx, place(10, 'two', ...noAir), 'AIR.VPD', [moving(mean), moving(4)]);
  ctx.name('Month_thirst', SHEET, area(first, 10, 12));
}

/** Crops of the market against the months: they fit where the crop is grown at the mean air, as Season has it. */
function seasonTable(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const rows = ctx.farm.markets.length + 6;
  flow.heads(['Crop of the market', 'Season', ...MONTH_NAMES.map((month) => month.slice(0, 3))]);
  const first = flow.row;
  for (let i = 0; i < rows; i++) {
    const row = flow.skip();
    const line = nth('Sowing_line', i + 1);
    const crop = nth('Sowing_crop', i + 1);
    const name = rowRef(row, 0);
    const ofCrop = (formula: Formula): Formula => blankWithout([name], formula);
    sheet.put(row, 0, { formula: blankWithout([crop], crop), look: 'label' });
    sheet.put(row, 1, {
      formula: ofCrop(when(cropFigure('air', line).below(WARM_SEASON), 'cool', 'warm')),
      look: 'computed',
    });
    MONTH_NAMES.forEach((_, m) => {
      const air = nth('Month_air', m + 1);
      const fit = codeOf(
        'Site_fit',
        [
          [air.below(coldestAir(line)), 'cold'],
          [air.above(warmestAir(line)), 'hot'],
        ],
        'fits',
      );
      sheet.put(row, 2 + m, { formula: blankWithout([name, air], fit), look: 'computed' });
    });
  }
  const cells = area(first, 2, rows, 12);
  const at = cellRef(first, 2);
  sheet.mark(cells, hasCode('Site_fit', at, 'fits'), 'good');
  sheet.mark(cells, any(hasCode('Site_fit', at, 'cold'), hasCode('Site_fit', at, 'hot')), 'watch');
}

export function siteSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Site and seasons',
    question: 'Where is the farm, and what do the months bring?',
    widths: [LABELS, FIGURES, 12, 10, 10, 12, 9, 9, 11, 12, 10, 8, 8, 8],
    landscape: true,
  });
  sheet.fold(COLUMNS);
  sheet.cautions(2, 0, 8, ['heater', 'law']);
  const flow = new Flow(sheet, ctx, { row: 3, columns: COLUMNS, metricColumn: TWINS });
  flow.heading('The farm');
  flow.fields([
    { name: 'Farm_name', label: 'Farm', farm: 'name', look: 'input', across: 4 },
    { name: 'Farm_place', label: 'Place', farm: 'site.place', look: 'input', across: 4 },
    { name: 'Farm_currency', label: 'Currency', farm: 'currency', look: 'input' },
    {
      name: 'Farm_date',
      label: 'Day of the plan',
      farm: 'asOf',
      look: 'input',
      format: 'date',
      remark: 'Everything is worked out for this day. Change it once a week.',
      rule: { rule: { kind: 'date' }, message: 'Type a date.' },
    },
    {
      name: 'Farm_week',
      label: 'Monday of that week',
      formula: named('Farm_date')
        .minus(call('WEEKDAY', named('Farm_date'), 2))
        .plus(1),
      look: 'computed',
      format: 'date',
    },
    {
      name: 'Farm_latitude',
      label: 'Latitude',
      farm: 'site.latitude',
      quantity: 'degrees',
      look: 'input',
      remark: 'South of the equator with a minus sign.',
      rule: between('degrees', ctx, -90, 90),
    },
    {
      name: 'Farm_altitude',
      label: 'Altitude',
      farm: 'site.altitude',
      quantity: 'altitude',
      look: 'input',
      rule: between('altitude', ctx, -430, 5000),
    },
    {
      name: 'Farm_salinity',
      label: 'Salinity of the water',
      farm: 'water.salinity',
      quantity: 'salinity',
      look: 'input',
      remark: '0 for fresh water.',
      rule: between('salinity', ctx, 0, 40),
    },
    {
      name: 'Site_trellis',
      label: 'Height of the trellis',
      farm: 'site.trellis',
      quantity: 'length',
      look: 'input',
      remark: 'Rows closer than the shadow is long shade each other at noon.',
      rule: between('length', ctx, 0.1, 20),
    },
    {
      name: 'House_volume',
      label: 'Air in the tunnel',
      farm: 'site.houseVolume',
      quantity: 'houseVolume',
      look: 'input',
      remark: 'Floor times mean height; blank leaves the venting out.',
      rule: between('houseVolume', ctx, 1, 1e7),
    },
    {
      name: 'House_changes',
      label: 'Air changes in full venting',
      preset: 'House_changes',
      look: 'preset',
      remark: 'About one a minute in summer (University of Massachusetts Extension).',
    },
    {
      name: 'House_flow',
      label: 'Air that vents or fans must move',
      formula: blankWithout(
        [named('House_volume')],
        ctx.gill('VENT.FLOW', named('House_volume'), named('House_changes')),
      ),
      quantity: 'airFlow',
      look: 'result',
    },
    {
      name: 'Water_now',
      label: 'Water this month',
      formula: monthNow('Month_water'),
      quantity: 'temperature',
      look: 'computed',
      remark: 'From the months below.',
    },
    {
      name: 'Water_year',
      label: 'Water, mean of the year',
      formula: blankIf(isOpen('Month_water'), call('AVERAGE', named('Month_water'))),
      quantity: 'temperature',
      look: 'computed',
    },
  ]);
  flow.skip();
  const months = flow.row;
  flow.heading('The months where the crops and tanks stand');
  monthTable(sheet, ctx, flow);
  flow.skip();
  flow.heading('In which months the crops of the market fit');
  flow.remark(
    'Mean air of the month against the range on the Crops sheet: cold, fits or hot. Cool-season crops are best below 20 °C (68 °F).',
  );
  seasonTable(sheet, ctx, flow);
  sheet.printOnPages(pagesFrom([0, months], flow.row, COLUMNS));
  return sheet.model();
}
