import type { PlanContext } from '../context';
import type { Farm } from '../farm';
import { spilledBlock } from '../filled';
import { any } from '../formula-parts';
import { Flow } from '../sheet-flow';
import type { SheetModel } from '../workbook-model';
import { named, nth } from '../names';
import { presets, presetValue } from '../presets';
import { converts, type QuantityId, shownFormula, shownIn } from '../quantities';
import { rowRef } from '../references';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Batch';
/** Rows that stay in sight: title, question, fields and head. */
const HEAD_ROWS = 10;
const MAX_WEEKS = presets.Batch_weeks.max;
/** First of the columns that hold metric twins in US units. */
const TWINS = 12;
const columns: readonly (readonly [string, QuantityId])[] = [
  ['Week', 'number'],
  ['Fish', 'count'],
  ['Mean weight', 'fishWeight'],
  ['Biomass', 'mass'],
  ['Density', 'density'],
  ['Feed', 'feedDay'],
];

/** Something of what the rotation rests on is not said. */
const isUnsaid = ({ stock, months, tanks }: Farm): boolean =>
  tanks.length === 0 ||
  [stock.species, stock.wanted, stock.startWeight, stock.harvestWeight, stock.survival].includes(
    undefined,
  ) ||
  months.some(({ water }) => water === undefined);

/** One batch of the rotation from stocking on: the forecast function at work, one call for all of it. */
export function batchSheet(ctx: PlanContext): SheetModel {
  const { system } = ctx;
  const weeks = Number(presetValue('Batch_weeks', ctx.farm.figures) ?? 0);
  const sheet = new SheetBuilder(SHEET, {
    title: 'One batch',
    question: 'What becomes of a batch that is stocked today, week by week?',
    widths: [34, 14, 12, 12, 12, 12, 4, 12, 12, 12, 12],
    headRows: HEAD_ROWS,
  });
  const flow = new Flow(sheet, ctx, { row: 3, columns: 6, metricColumn: TWINS });
  flow.fields([
    {
      name: 'Batch_weeks',
      label: 'Weeks to look ahead',
      preset: 'Batch_weeks',
      format: 'whole',
      look: 'preset',
    },
    {
      label: 'Fish stocked, from the Stock plan',
      formula: named('Stock_batch'),
      quantity: 'count',
      look: 'computed',
    },
    {
      label: 'Weight when stocked',
      formula: named('Stock_start_weight'),
      quantity: 'fishWeight',
      look: 'computed',
    },
    {
      label: 'Water of the tank',
      formula: nth('Tanks_volume', 1),
      quantity: 'volume',
      look: 'computed',
      remark: 'The first tank of the Tanks sheet.',
    },
  ]);
  flow.skip(HEAD_ROWS - 1 - flow.row);
  const heads = flow.skip();
  const first = flow.row;
  const metric = columns.map(([head, quantity]) => {
    const { unit } = shownIn(quantity, 'metric');
    return unit && quantity !== 'count' ? `${head}, ${unit}` : head;
  });
  sheet.heads(heads, 0, metric);
  spilledBlock(
    sheet,
    ctx,
    {
      row: first,
      column: 0,
      rows: ctx.mode === 'live' ? weeks + 1 : MAX_WEEKS + 1,
      columns: columns.map(([, quantity]) => ({
        look: 'computed',
        format: quantity === 'number' ? 'whole' : shownIn(quantity, 'metric').format,
      })),
      // Where it can stand alone, a hand-over makes ordinary formulas of it.
      ...(isUnsaid(ctx.farm) && {
        blankIf: any(named('Stock_batch').isBlank, named('Stock_start_weight').isBlank),
      }),
    },
    'STOCK.FORECAST',
    [
      named('Stock_batch'),
      named('Stock_start_weight'),
      named('Batch_weeks'),
      named('Weeks_water'),
      named('Stock_species'),
      named('Stock_survival_counts'),
      nth('Tanks_volume', 1),
      named('Stock_coefficient'),
      // Ordinary formulas read the Species sheet, whose feed rates go with the farm's conversion.
      ...(ctx.mode === 'live' ? [nth('Fish_fcr', named('Stock_line'))] : []),
    ],
  );
  let next = 7;
  columns.forEach(([head, quantity], c) => {
    if (!converts(quantity, system)) return;
    const shown = shownIn(quantity, system);
    sheet.heads(heads, next, [`${head}, ${shown.unit}`]);
    for (let r = 0; r <= MAX_WEEKS; r++) {
      sheet.put(first + r, next, {
        formula: shownFormula(rowRef(first + r, c), quantity, system),
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
    place: area(first, us ? 12 : 7, 18, 6),
    categories: { sheet: SHEET, area: area(first, 0, weeks + 1) },
    series: [{ name: 'Biomass', sheet: SHEET, area: area(first, chartColumn, weeks + 1) }],
    categoryTitle: 'Weeks from stocking',
    valueTitle: shownIn('mass', system).unit,
  });
  return sheet.model();
}
