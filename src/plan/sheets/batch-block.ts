import type { PlanContext } from '../context';
import type { Farm } from '../farm';
import { spilledBlock } from '../filled';
import { any } from '../formula-parts';
import type { Flow } from '../sheet-flow';
import { named, nth } from '../names';
import { presets, presetValue } from '../presets';
import { converts, type QuantityId, shownFormula, shownIn } from '../quantities';
import { rowRef } from '../references';
import { area, type SheetBuilder } from '../sheet-builder';

const CHART_ROWS = 14;
const MAX_WEEKS = presets.Batch_weeks.max;
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

/**
 * One batch of the rotation from stocking on: the forecast function at work, one call for all of it. Returns the row
 * of the heads, and the one after the weeks that are printed.
 */
export function batchBlock(
  sheet: SheetBuilder,
  ctx: PlanContext,
  flow: Flow,
): { readonly heads: number; readonly end: number } {
  const { system } = ctx;
  const weeks = Number(presetValue('Batch_weeks', ctx.farm.figures) ?? 0);
  flow.heading('One batch that is stocked today, week by week', 11);
  const chart = area(flow.row, 5, CHART_ROWS, 6);
  flow.fields([
    {
      name: 'Batch_weeks',
      label: 'Weeks to look ahead',
      preset: 'Batch_weeks',
      format: 'whole',
      look: 'preset',
      remark: `On paper ${weeks}, until the plan is renewed.`,
    },
    {
      label: 'Water of the tank',
      formula: nth('Tanks_volume', 1),
      quantity: 'volume',
      look: 'computed',
      remark: 'The first tank of the Tanks sheet.',
    },
  ]);
  flow.skip(chart.row + chart.rows - flow.row);
  const heads = flow.skip();
  const rows = ctx.mode === 'live' ? weeks + 1 : MAX_WEEKS + 1;
  const first = flow.skip(MAX_WEEKS + 1);
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
      rows,
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
  sheet.chart({
    kind: 'line',
    title: `Biomass in one tank, ${shownIn('mass', system).unit}`,
    place: chart,
    categories: { sheet: sheet.name, area: area(first, 0, weeks + 1) },
    series: [
      { name: 'Biomass', sheet: sheet.name, area: area(first, system === 'US' ? 8 : 3, weeks + 1) },
    ],
    categoryTitle: 'Weeks from stocking',
    valueTitle: shownIn('mass', system).unit,
  });
  return { heads, end: first + weeks + 1 };
}
