import { EVEN_SHARE } from '../../core/feed-area';
import { cellAddress, rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import { between, type Field, fields } from '../fields';
import { plainCall } from '../formulas';
import type { FormatId, SheetModel } from '../model';
import { type QuantityId, shownIn } from '../quantities';
import { area, SheetBuilder } from '../sheet-builder';
import { WEEK_ROWS } from './stock-weeks';

const SHEET = 'Balance';
/** First of the columns that hold metric twins in US units. */
const TWINS = 16;

const textFormats: Partial<Record<FormatId, string>> = { one: '#,##0.0', two: '#,##0.00' };

/** A metric figure in words of the farm's units: TEXT(…)&" m2". */
function words(ctx: PlanContext, quantity: QuantityId, formula: string): string {
  const { factor, unit, format } = shownIn(quantity, ctx.system);
  const figure = factor === 1 ? formula : `(${formula})/${Number(factor.toPrecision(12))}`;
  return `TEXT(${figure},"${textFormats[format] ?? '#,##0'}")&" ${unit}"`;
}

interface Block {
  readonly title: string;
  readonly lines: readonly Field[];
  /** Said under the block, over its whole width. */
  readonly verdict: { readonly name: string; readonly formula: string };
}

function feedAndBeds(ctx: PlanContext): Block {
  const { gill } = ctx;
  const mean = 'Balance_wanted/Balance_planted';
  const more = words(ctx, 'area', `Balance_supplied-Balance_planted`);
  const less = words(ctx, 'feedDay', 'ABS(Balance_feed-Balance_wanted)');
  return {
    title: 'Feed and beds',
    lines: [
      {
        name: 'Balance_feed',
        label: 'Feed given',
        formula: 'SUM(Tanks_feed)',
        quantity: 'feedDay',
        look: 'result',
      },
      {
        name: 'Balance_wanted',
        label: 'Feed the beds call for',
        formula: 'SUM(Beds_feed)',
        quantity: 'feedDay',
        look: 'result',
        note: 'Beds with plants in them, each with the feed ratio of its crop on the Crops sheet.',
      },
      {
        name: 'Balance_planted',
        label: 'Area with plants in it',
        formula: 'SUMIF(Beds_feed,">0",Beds_area)',
        quantity: 'area',
        look: 'computed',
      },
      {
        name: 'Balance_supplied',
        label: 'Area that the feed can supply',
        formula: `IF(Balance_wanted=0,"",${gill('FEED.AREA', 'Balance_feed', mean)})`,
        quantity: 'area',
        look: 'result',
        note: 'With the crops that stand now.',
      },
      {
        name: 'Balance_share',
        label: 'Feed given, of what is called for',
        formula: 'IF(Balance_wanted=0,"",Balance_feed/Balance_wanted)',
        quantity: 'share',
        look: 'computed',
      },
    ],
    verdict: {
      name: 'Balance_verdict',
      formula: `IF(Balance_wanted=0,"No bed has plants in it: what the fish leave in the water gathers. Plant, or feed as little as they need.",IF(Balance_share>${1 + EVEN_SHARE},"More feed than the beds can use: plant "&${more}&" more, or feed "&${less}&" less (sell sooner, stock fewer).",IF(Balance_share<${1 - EVEN_SHARE},"Less feed than the beds call for: "&${less}&" are missing. Stock more fish, or plant crops that want less.","Feed and beds are even.")))`,
    },
  };
}

function load(ctx: PlanContext): Block {
  const { gill, farm } = ctx;
  const protein = farm.feed.protein;
  return {
    title: 'What the feed leaves in the water, a day',
    lines: [
      {
        name: 'Feed_protein',
        label: 'Protein in the feed',
        ...(protein === undefined
          ? { formula: 'INDEX(Fish_protein,Stock_line)' }
          : { value: protein }),
        quantity: 'share',
        look: protein === undefined ? 'preset' : 'input',
        remark: 'As the bag says.',
        ...(protein !== undefined && { rule: between('share', ctx, 0.1, 0.7) }),
      },
      {
        name: 'Load_nitrogen',
        label: 'Nitrogen in the feed',
        formula: 'Balance_feed*Feed_protein*0.16',
        unit: 'g N',
        format: 'whole',
        look: 'computed',
        remark: '16 % of protein is nitrogen.',
      },
      {
        name: 'Load_ammonia',
        label: 'Ammonia from the fish, as N',
        formula: gill('LOAD.TAN', 'Balance_feed', 'Feed_protein'),
        unit: 'g N',
        format: 'whole',
        look: 'computed',
      },
      {
        name: 'Load_oxygen',
        label: 'Oxygen for fish and filter',
        formula: gill('LOAD.OXYGEN', 'Balance_feed'),
        unit: 'g',
        format: 'whole',
        look: 'result',
      },
      {
        name: 'Load_alkalinity',
        label: 'Alkalinity used up',
        // Plain in both forms: a chain of calls costs a round trip for each link.
        formula: plainCall('LOAD.ALKALINITY', 'Load_ammonia'),
        unit: 'g CaCO3',
        format: 'whole',
        look: 'result',
        note: 'What bases have to give back; plants that take up nitrate give back about half.',
      },
      {
        name: 'Load_solids',
        label: 'Solids to take out, dry',
        formula: gill('LOAD.SOLIDS', 'Balance_feed'),
        unit: 'g',
        format: 'whole',
        look: 'computed',
      },
    ],
    verdict: {
      name: 'Load_verdict',
      formula: `"A day's alkalinity of "&TEXT(Load_alkalinity,"#,##0")&" g CaCO3 is "&TEXT(Load_alkalinity*1000/Water_total,"0.0")&" mg/L in all the water: so much pH support goes each day."`,
    },
  };
}

function filter(ctx: PlanContext): Block {
  const { farm } = ctx;
  return {
    title: 'Filter',
    lines: [
      {
        name: 'Water_total',
        label: 'All the water that moves round',
        value: farm.water.total,
        quantity: 'volume',
        look: 'input',
        rule: between('volume', ctx, 1, 1e9),
      },
      {
        name: 'Filter_media',
        label: 'Filter media',
        value: farm.filter.media,
        quantity: 'volume',
        look: 'input',
        rule: between('volume', ctx, 0, 1e7),
      },
      {
        name: 'Filter_specific',
        label: 'Surface of the media',
        value: farm.filter.specificSurface,
        quantity: 'specificSurface',
        look: 'input',
        rule: between('specificSurface', ctx, 1, 5000),
      },
      {
        name: 'Gravel_specific',
        label: 'Surface of the gravel in beds',
        value: 150,
        quantity: 'specificSurface',
        look: 'preset',
        remark: 'Coarse gravel (usual practice, check with your supplier).',
        rule: between('specificSurface', ctx, 10, 1000),
      },
      {
        name: 'Filter_there',
        label: 'Surface that is there',
        formula: 'Filter_media/1000*Filter_specific+Gravel_area*Flood_depth*Gravel_specific',
        quantity: 'surface',
        look: 'computed',
        note: 'Media of the filter, and the flooded gravel of the beds.',
      },
      {
        name: 'Filter_needed',
        label: 'Surface that is needed',
        formula: plainCall('FILTER.SURFACE', 'Load_ammonia', undefined, 'Water_now'),
        quantity: 'surface',
        look: 'result',
      },
    ],
    verdict: {
      name: 'Filter_verdict',
      formula: `IF(Filter_there>=Filter_needed,"The filter's surface is enough.","The filter is short of "&${words(ctx, 'surface', 'Filter_needed-Filter_there')}&": "&${words(ctx, 'volume', '(Filter_needed-Filter_there)/Filter_specific*1000')}&" more media, or less feed.")`,
    },
  };
}

/** Flooded depth of the farm's gravel beds, m: their mean where the farm file says it. */
function gravelDepth(ctx: PlanContext): number {
  const depths = ctx.farm.beds.flatMap((bed) =>
    bed.kind === 'gravel' && bed.depth !== undefined ? [bed.depth] : [],
  );
  if (depths.length === 0) return 0.25;
  return Number((depths.reduce((sum, depth) => sum + depth, 0) / depths.length).toPrecision(4));
}

function sump(ctx: PlanContext): Block {
  const { gill, farm } = ctx;
  return {
    title: 'Sump and flooded beds',
    lines: [
      {
        name: 'Sump_volume',
        label: 'Sump',
        value: farm.water.sump,
        quantity: 'volume',
        look: 'input',
        rule: between('volume', ctx, 0, 1e8),
      },
      {
        name: 'Gravel_area',
        label: 'Gravel beds',
        formula: 'SUMIF(Beds_kind,"gravel",Beds_area)',
        quantity: 'area',
        look: 'computed',
      },
      {
        name: 'Flood_depth',
        label: 'Flooded depth',
        value: gravelDepth(ctx),
        quantity: 'length',
        look: 'input',
        rule: between('length', ctx, 0.01, 2),
      },
      {
        name: 'Flood_voids',
        label: 'Space between the stones',
        value: 0.4,
        quantity: 'share',
        look: 'preset',
        remark: 'Clean even stone. Measure your own: litres that fill ten litres of it.',
        rule: between('share', ctx, 0.1, 0.7),
      },
      {
        name: 'Flood_together',
        label: 'Beds that are flooded at one time',
        value: 1,
        quantity: 'share',
        look: 'preset',
        remark: 'All of them is the safe assumption.',
        rule: between('share', ctx, 0.01, 1),
      },
      {
        name: 'Flood_volume',
        label: 'Flood volume of the beds',
        formula: `IF(Gravel_area=0,0,${gill('FLOOD.VOLUME', 'Gravel_area*Flood_together', 'Flood_depth', 'Flood_voids')})`,
        quantity: 'volume',
        look: 'result',
      },
    ],
    verdict: {
      name: 'Sump_verdict',
      formula: `IF(Flood_volume=0,"No bed is flooded.",IF(Sump_volume>=Flood_volume,"The sump fills the beds and takes their water back.","The sump is "&${words(ctx, 'volume', 'Flood_volume-Sump_volume')}&" too small: let the beds flood in turn, or the pump runs dry and the sump overflows."))`,
    },
  };
}

function put(sheet: SheetBuilder, ctx: PlanContext, row: number, block: Block): number {
  sheet.heading(row, 0, 6, block.title);
  const end = fields(sheet, ctx, row + 1, 0, block.lines, TWINS);
  sheet.wide(end, 0, 6, { formula: block.verdict.formula, look: 'verdict' }, 2);
  ctx.name(block.verdict.name, SHEET, area(end, 0));
  return end + 3;
}

/** The year ahead: what the fish get against what the beds can use. */
function weeks(sheet: SheetBuilder, ctx: PlanContext, row: number): void {
  const { factor, unit, format } = shownIn('feedDay', ctx.system);
  const shown = (formula: string): string =>
    factor === 1 ? formula : `(${formula})/${Number(factor.toPrecision(12))}`;
  sheet.heading(row, 0, 6, 'The year ahead');
  sheet.wide(row + 1, 0, 6, {
    value:
      'Beds as sown: what stands or is in the nursery now, until it is cleared. All beds full: every bed with the crop it has now, as long as you follow on.',
    look: 'source',
  });
  const head = row + 2;
  sheet.repeat(head, 1);
  sheet.heads(head, 0, [
    'Week of',
    `Feed given, ${unit}`,
    `Beds as sown, ${unit}`,
    `All beds full, ${unit}`,
    'Given, of all full',
  ]);
  const first = head + 1;
  for (let w = 0; w < WEEK_ROWS; w++) {
    const r = first + w;
    const day = rowAddress(r, 0);
    const figure = (c: number, formula: string): void =>
      sheet.put(r, c, { formula: shown(formula), look: 'computed', format });
    sheet.put(r, 0, { formula: `INDEX(Weeks_date,${w + 1})`, look: 'label', format: 'date' });
    figure(1, `INDEX(Weeks_feed,${w + 1})`);
    figure(2, `SUMIFS(Beds_feed_full,Beds_out,"<="&${day},Beds_clear,">"&${day})`);
    figure(3, 'SUM(Beds_feed_full)');
    sheet.put(r, 4, {
      formula: `IF(${rowAddress(r, 3)}=0,"",${rowAddress(r, 1)}/${rowAddress(r, 3)})`,
      look: 'computed',
      format: 'percent',
    });
  }
  const share = cellAddress(first, 4);
  sheet.mark(
    area(first, 4, WEEK_ROWS),
    `AND(ISNUMBER(${share}),OR(${share}>${1 + EVEN_SHARE},${share}<${1 - EVEN_SHARE}))`,
    'watch',
  );
  const series = (name: string, column: number) => ({
    name,
    sheet: SHEET,
    area: area(first, column, WEEK_ROWS),
  });
  sheet.chart({
    kind: 'line',
    title: `Feed given, and feed the beds can use, ${unit}`,
    place: area(3, 6, 22, 8),
    categories: { sheet: SHEET, area: area(first, 0, WEEK_ROWS) },
    series: [series('Feed given', 1), series('Beds as sown', 2), series('All beds full', 3)],
    categoryTitle: 'Week of',
    valueTitle: unit,
  });
}

/** Is what the fish are fed in balance with beds, filter and sump, now and through the year? */
export function balanceSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Balance',
    question: 'Do feed, beds, filter and sump fit each other, and what has to change?',
    widths: [40, 13, 14, 14, 14, 22],
    landscape: true,
    headRows: 2,
  });
  if (ctx.system === 'US') {
    sheet.width(TWINS, 14);
    sheet.fold(14);
    sheet.text(2, TWINS, 'In metric', 'source');
  }
  sheet.cautions(2, 0, 6, ['weight']);
  const blocks = [feedAndBeds, load, filter, sump];
  const next = blocks.reduce((row, block) => put(sheet, ctx, row, block(ctx)), 3);
  weeks(sheet, ctx, next);
  return sheet.model();
}
