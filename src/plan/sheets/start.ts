import type { PlanContext } from '../context';
import { fields } from '../fields';
import type { LookId, SheetModel } from '../model';
import { SheetBuilder } from '../sheet-builder';

const SHEET = 'Start';

const key: readonly (readonly [LookId, string, string])[] = [
  ['input', '123', 'You type it. Only these cells need your figures.'],
  ['preset', '123', 'A published default. Overwrite it where you know better.'],
  ['computed', '123', 'Computed.'],
  ['result', '123', 'Computed, and what you came for.'],
];

export function startSheet(ctx: PlanContext): SheetModel {
  const { farm } = ctx;
  const sheet = new SheetBuilder(SHEET, {
    title: farm.name,
    question: 'How does the farm stand on the as-of date?',
    widths: [34, 14, 12, 60],
  });
  sheet.heading(3, 0, 4, 'The farm at a glance');
  let row = fields(sheet, ctx, 4, 0, [
    {
      label: 'As-of date (change it on Site)',
      formula: 'Farm_date',
      look: 'computed',
      format: 'date',
    },
    { label: 'Fish standing', formula: 'SUM(Tanks_biomass)', quantity: 'mass', look: 'result' },
    { label: 'Feed a day', formula: 'SUM(Tanks_feed)', quantity: 'feedDay', look: 'result' },
    { label: 'Bed area', formula: 'SUM(Beds_area)', quantity: 'area', look: 'result' },
    {
      label: 'Feed that the planted beds call for',
      formula: 'SUM(Beds_feed)',
      quantity: 'feedDay',
      look: 'result',
    },
  ]);
  row += 1;
  sheet.heading(row, 0, 4, 'Kinds of cell');
  key.forEach(([look, value, says], i) => {
    sheet.put(row + 1 + i, 0, { value: Number(value), look });
    sheet.text(row + 1 + i, 1, says, 'text');
  });
  return sheet.model();
}
