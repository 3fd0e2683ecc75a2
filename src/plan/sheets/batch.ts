import { rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import { fields } from '../fields';
import { spilledBlock } from '../filled';
import type { SheetModel } from '../model';
import { converts, type QuantityId, shownFormula, shownIn } from '../quantities';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Batch';
const HEADS = 9;
const FIRST = HEADS + 1;
const MOST = 52;
const columns: readonly (readonly [string, QuantityId])[] = [
  ['Week', 'number'],
  ['Fish', 'count'],
  ['Mean weight', 'fishWeight'],
  ['Biomass', 'mass'],
  ['Density', 'density'],
  ['Feed', 'feedDay'],
];

/** One batch of the rotation from stocking on: the forecast function at work, one call for all of it. */
export function batchSheet(ctx: PlanContext): SheetModel {
  const { system } = ctx;
  const weeks = 26;
  const sheet = new SheetBuilder(SHEET, {
    title: 'One batch',
    question: 'What becomes of a batch that is stocked today, week by week?',
    widths: [34, 14, 12, 12, 12, 12, 4, 12, 12, 12, 12],
    headRows: FIRST,
  });
  fields(
    sheet,
    ctx,
    3,
    0,
    [
      {
        name: 'Batch_weeks',
        label: 'Weeks to look ahead',
        value: weeks,
        quantity: 'weeks',
        format: 'whole',
        look: 'preset',
        rule: {
          rule: { kind: 'whole', min: 1, max: MOST },
          message: `Type whole weeks from 1 to ${MOST}.`,
        },
      },
      {
        label: 'Fish stocked, from the Stock plan',
        formula: 'Stock_batch',
        quantity: 'count',
        look: 'computed',
      },
      {
        label: 'Weight when stocked',
        formula: 'Stock_start_weight',
        quantity: 'fishWeight',
        look: 'computed',
      },
      {
        label: 'Water of the tank',
        formula: 'INDEX(Tanks_volume,1)',
        quantity: 'volume',
        look: 'computed',
        remark: 'The first tank of the Tanks sheet.',
      },
    ],
    12,
  );
  const metric = columns.map(([head, quantity]) => {
    const { unit } = shownIn(quantity, 'metric');
    return unit && quantity !== 'count' ? `${head}, ${unit}` : head;
  });
  sheet.heads(HEADS, 0, metric);
  spilledBlock(
    sheet,
    ctx,
    {
      row: FIRST,
      column: 0,
      rows: ctx.mode === 'live' ? weeks + 1 : MOST + 1,
      columns: columns.map(([, quantity]) => ({
        look: 'computed',
        format: quantity === 'number' ? 'whole' : shownIn(quantity, 'metric').format,
      })),
    },
    'STOCK.FORECAST',
    [
      'Stock_batch',
      'Stock_start_weight',
      'Batch_weeks',
      'Weeks_water',
      'Stock_species',
      'Stock_survival',
      'INDEX(Tanks_volume,1)',
      'Stock_coefficient',
    ],
  );
  let next = 7;
  columns.forEach(([head, quantity], c) => {
    if (!converts(quantity, system)) return;
    const shown = shownIn(quantity, system);
    sheet.heads(HEADS, next, [`${head}, ${shown.unit}`]);
    for (let r = 0; r <= MOST; r++) {
      sheet.put(FIRST + r, next, {
        formula: shownFormula(rowAddress(FIRST + r, c), quantity, system),
        look: 'computed',
        format: shown.format,
      });
    }
    next++;
  });
  const us = system === 'US';
  const chartColumn = us ? 8 : 3;
  sheet.chart({
    kind: 'line',
    title: `Biomass in one tank, ${shownIn('mass', system).unit}`,
    place: area(FIRST, us ? 12 : 7, 18, 6),
    categories: { sheet: SHEET, area: area(FIRST, 0, weeks + 1) },
    series: [{ name: 'Biomass', sheet: SHEET, area: area(FIRST, chartColumn, weeks + 1) }],
    categoryTitle: 'Weeks from stocking',
    valueTitle: shownIn('mass', system).unit,
  });
  return sheet.model();
}
