import { cellAddress } from '../addresses';
import type { PlanContext } from '../context';
import { between, fields } from '../fields';
import type { SheetModel } from '../model';
import { type QuantityId, shownIn } from '../quantities';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Site';
const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

export function siteSheet(ctx: PlanContext): SheetModel {
  const { farm, system } = ctx;
  const sheet = new SheetBuilder(SHEET, {
    title: 'Site and seasons',
    question: 'Where is the farm, and what do the months bring?',
    widths: [30, 16, 12, 14, 14, 14],
    landscape: true,
  });
  sheet.heading(3, 0, 4, 'The farm');
  let row = fields(sheet, ctx, 4, 0, [
    { name: 'Farm_name', label: 'Farm', value: farm.name, look: 'input' },
    { name: 'Farm_place', label: 'Place', value: farm.site.place, look: 'input' },
    {
      name: 'Farm_date',
      label: 'As-of date',
      value: farm.asOf,
      look: 'input',
      format: 'date',
      remark: 'The whole plan speaks of this day. Change it once a week.',
      rule: { rule: { kind: 'date' }, message: 'Type a date.' },
    },
    {
      name: 'Farm_week',
      label: 'Monday of that week',
      formula: 'Farm_date-WEEKDAY(Farm_date,2)+1',
      look: 'computed',
      format: 'date',
    },
    {
      name: 'Farm_latitude',
      label: 'Latitude',
      value: farm.site.latitude,
      quantity: 'degrees',
      look: 'input',
      remark: 'South of the equator with a minus sign.',
      rule: between('degrees', ctx, -90, 90),
    },
    {
      name: 'Farm_altitude',
      label: 'Altitude',
      value: farm.site.altitude,
      quantity: 'altitude',
      look: 'input',
      rule: between('altitude', ctx, -430, 5000),
    },
    {
      name: 'Farm_salinity',
      label: 'Salinity of the water',
      value: farm.water.salinity,
      quantity: 'salinity',
      look: 'input',
      rule: between('salinity', ctx, 0, 40),
    },
    {
      name: 'Sowing_losses',
      label: 'Plants lost from seedling to market',
      value: 0.1,
      quantity: 'share',
      look: 'preset',
      remark: 'common practice, no source',
      rule: between('share', ctx, 0, 0.9),
    },
    {
      name: 'Water_now',
      label: 'Water this month',
      formula: 'INDEX(Month_water,MONTH(Farm_date))',
      quantity: 'temperature',
      look: 'computed',
    },
    { name: 'Farm_currency', label: 'Currency', value: farm.currency, look: 'input' },
  ]);

  row += 1;
  sheet.heading(row, 0, 6, 'The months');
  const headRow = row + 1;
  const unit = (id: QuantityId): string => shownIn(id, system).unit;
  const typed = [
    ['water', 'Water', 'temperature', 'Month_water', -2, 45],
    ['high', 'Air, highest of the day', 'temperature', 'Month_high', -40, 60],
    ['low', 'Air, lowest of the day', 'temperature', 'Month_low', -50, 50],
    ['humidity', 'Air humidity', 'share', 'Month_humidity', 0, 1],
  ] as const;
  sheet.heads(headRow, 0, ['Month', ...typed.map(([, head, id]) => `${head}, ${unit(id)}`)]);
  const first = headRow + 1;
  MONTHS.forEach((month, i) => sheet.text(first + i, 0, month, 'label'));
  const us = system === 'US';
  typed.forEach(([field, head, quantity, name, min, max], c) => {
    const shown = shownIn(quantity, system);
    const rule = between(quantity, ctx, min, max);
    sheet.rule(area(first, c + 1, 12), rule.rule, rule.message);
    const converted = us && quantity === 'temperature';
    const twin = converted ? 8 + c : c + 1;
    if (converted) sheet.heads(headRow, twin, [`${head}, degC (for the functions)`]);
    ctx.name(name, SHEET, area(first, twin, 12));
    farm.months.forEach((month, i) => {
      const value = month[field];
      const shownValue = converted ? Number((value * 1.8 + 32).toPrecision(10)) : value;
      sheet.put(first + i, c + 1, { value: shownValue, look: 'input', format: shown.format });
      if (converted) {
        const cell = cellAddress(first + i, c + 1);
        sheet.put(first + i, twin, {
          formula: `IF(${cell}="","",(${cell}-32)/1.8)`,
          look: 'computed',
          format: 'one',
        });
      }
    });
  });
  return sheet.model();
}
