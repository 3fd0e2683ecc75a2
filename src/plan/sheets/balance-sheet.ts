import { EVEN_SHARE } from '../../core/feed-area';
import { PUBLISHED_BASE } from '../../core/load';
import type { PlanContext } from '../context';
import { between, type Field } from '../fields';
import { Flow } from '../sheet-flow';
import {
  all,
  any,
  blankIf,
  call,
  cases,
  type Formula,
  joined,
  sum,
  when,
  written,
} from '../formula-parts';
import { plainCall } from '../live-or-plain';
import type { SheetModel } from '../workbook-model';
import { type FigureName, named, nth } from '../names';
import { figureInWords, inShownUnits, shownIn } from '../quantities';
import { cellRef, rowRef } from '../references';
import { area, SheetBuilder } from '../sheet-builder';
import { WEEK_ROWS } from './stock-weeks-sheet';

const SHEET = 'Balance';
/** First of the columns that hold metric twins in US units. */
const TWINS = 16;
/** Of protein, g/g. */
const NITROGEN_IN_PROTEIN = 0.16;

/** From here on feed and beds are out of balance. */
const TOO_MUCH = 1 + EVEN_SHARE;
const TOO_LITTLE = 1 - EVEN_SHARE;

interface Block {
  readonly title: string;
  readonly lines: readonly Field[];
  /** Said under the block, over its whole width. */
  readonly verdict: { readonly name: FigureName; readonly formula: Formula };
}

function feedAndBeds(ctx: PlanContext): Block {
  const { gill, system } = ctx;
  const [feed, wanted] = [named('Balance_feed'), named('Balance_wanted')];
  const [planted, share] = [named('Balance_planted'), named('Balance_share')];
  const more = figureInWords(named('Balance_supplied').minus(planted), 'area', system);
  const less = figureInWords(call('ABS', feed.minus(wanted)), 'feedDay', system);
  return {
    title: 'Feed and beds',
    lines: [
      {
        name: 'Balance_feed',
        label: 'Feed given',
        formula: sum(named('Tanks_feed')),
        quantity: 'feedDay',
        look: 'result',
      },
      {
        name: 'Balance_wanted',
        label: 'Feed the beds call for',
        formula: sum(named('Beds_feed')),
        quantity: 'feedDay',
        look: 'result',
        note: 'Beds with plants in them, each with the feed ratio of its crop on the Crops sheet.',
      },
      {
        name: 'Balance_planted',
        label: 'Area with plants in it',
        formula: call('SUMIF', named('Beds_feed'), '>0', named('Beds_area')),
        quantity: 'area',
        look: 'computed',
      },
      {
        name: 'Balance_supplied',
        label: 'Area that the feed can supply',
        formula: blankIf(wanted.is(0), gill('FEED.AREA', feed, wanted.over(planted))),
        quantity: 'area',
        look: 'result',
        note: 'With the crops that stand now.',
      },
      {
        name: 'Balance_share',
        label: 'Feed given, of what is called for',
        formula: blankIf(wanted.is(0), feed.over(wanted)),
        quantity: 'share',
        look: 'computed',
      },
    ],
    verdict: {
      name: 'Balance_verdict',
      formula: cases(
        [
          [
            wanted.is(0),
            'No bed has plants in it: what the fish leave in the water gathers. Plant, or feed as little as they need.',
          ],
          [
            share.above(TOO_MUCH),
            joined(
              'More feed than the beds can use: plant ',
              more,
              ' more, or feed ',
              less,
              ' less (sell sooner, stock fewer).',
            ),
          ],
          [
            share.below(TOO_LITTLE),
            joined(
              'Less feed than the beds call for: ',
              less,
              ' are missing. Stock more fish, or plant crops that want less.',
            ),
          ],
        ],
        'Feed and beds are even.',
      ),
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
        farm: 'feed.protein',
        formula: nth('Fish_protein', named('Stock_line')),
        quantity: 'share',
        look: protein === undefined ? 'preset' : 'input',
        remark: 'As the bag says.',
        ...(protein !== undefined && { rule: between('share', ctx, 0.1, 0.7) }),
      },
      {
        name: 'Load_nitrogen',
        label: 'Nitrogen in the feed',
        formula: named('Balance_feed').times(named('Feed_protein')).times(NITROGEN_IN_PROTEIN),
        unit: 'g N',
        format: 'whole',
        look: 'computed',
        remark: '16 % of protein is nitrogen.',
      },
      {
        name: 'Load_ammonia',
        label: 'Ammonia from the fish, as N',
        formula: gill('LOAD.TAN', named('Balance_feed'), named('Feed_protein')),
        unit: 'g N',
        format: 'whole',
        look: 'computed',
      },
      {
        name: 'Load_oxygen',
        label: 'Oxygen for fish and filter',
        formula: gill('LOAD.OXYGEN', named('Balance_feed')),
        unit: 'g',
        format: 'whole',
        look: 'result',
      },
      {
        name: 'Load_alkalinity',
        label: 'Alkalinity used up, at most',
        // Plain in both forms: a chain of calls costs a round trip for each link.
        formula: plainCall('LOAD.ALKALINITY', named('Load_ammonia')),
        unit: 'g CaCO3',
        format: 'whole',
        look: 'result',
        note: 'The bound for a bare filter in soft water: plants, gas from the solids and make-up water give most of it back.',
      },
      {
        name: 'Load_solids',
        label: 'Solids to take out, dry',
        formula: gill('LOAD.SOLIDS', named('Balance_feed')),
        unit: 'g',
        format: 'whole',
        look: 'computed',
      },
    ],
    verdict: {
      name: 'Load_verdict',
      formula: joined(
        'Published farms gave back ',
        written(named('Balance_feed').times(PUBLISHED_BASE.least).over(1000), '#,##0'),
        ' to ',
        written(named('Balance_feed').times(PUBLISHED_BASE.most).over(1000), '#,##0'),
        ' g CaCO3 a day for so much feed (16 to 36 g a kg), where the bound is ',
        written(named('Load_alkalinity'), '#,##0'),
        '. Begin there, and let your own record of alkalinity and base correct it.',
      ),
    },
  };
}

function filter(ctx: PlanContext): Block {
  const { system } = ctx;
  const [there, needed] = [named('Filter_there'), named('Filter_needed')];
  const specific = named('Filter_specific');
  const missing = needed.minus(there);
  return {
    title: 'Filter',
    lines: [
      {
        name: 'Water_total',
        label: 'All the water that moves round',
        farm: 'water.total',
        quantity: 'volume',
        look: 'input',
        rule: between('volume', ctx, 1, 1e9),
      },
      {
        name: 'Filter_media',
        label: 'Filter media',
        farm: 'filter.media',
        quantity: 'volume',
        look: 'input',
        rule: between('volume', ctx, 0, 1e7),
      },
      {
        name: 'Filter_specific',
        label: 'Surface of the media',
        farm: 'filter.specificSurface',
        quantity: 'specificSurface',
        look: 'input',
        rule: between('specificSurface', ctx, 1, 5000),
      },
      {
        name: 'Gravel_specific',
        label: 'Surface of the gravel in beds',
        preset: 'Gravel_specific',
        look: 'preset',
        remark: 'Coarse gravel (usual practice, check with your supplier).',
      },
      {
        name: 'Filter_there',
        label: 'Surface that is there',
        formula: named('Filter_media')
          .over(1000)
          .times(specific)
          .plus(named('Gravel_area').times(named('Flood_depth')).times(named('Gravel_specific'))),
        quantity: 'surface',
        look: 'computed',
        note: 'Media of the filter, and the flooded gravel of the beds.',
      },
      {
        name: 'Filter_needed',
        label: 'Surface that is needed',
        formula: plainCall('FILTER.SURFACE', named('Load_ammonia'), undefined, named('Water_now')),
        quantity: 'surface',
        look: 'result',
      },
    ],
    verdict: {
      name: 'Filter_verdict',
      formula: when(
        there.atLeast(needed),
        "The filter's surface is enough.",
        joined(
          'The filter is short of ',
          figureInWords(missing, 'surface', system),
          ': ',
          figureInWords(missing.over(specific).times(1000), 'volume', system),
          ' more media, or less feed.',
        ),
      ),
    },
  };
}

/** Where no gravel bed says its depth, m. */
const USUAL_DEPTH = 0.25;

/** Flooded depth of the gravel beds: the mean of those that say it on Beds. */
function gravelDepth(): Formula {
  const [depth, kind] = [named('Beds_depth'), named('Beds_kind')];
  return when(
    call('SUMIFS', depth, kind, 'gravel').is(0),
    USUAL_DEPTH,
    call('AVERAGEIFS', depth, kind, 'gravel'),
  );
}

function sump(ctx: PlanContext): Block {
  const { gill, system } = ctx;
  const [volume, flood] = [named('Sump_volume'), named('Flood_volume')];
  const gravel = named('Gravel_area');
  return {
    title: 'Sump and flooded beds',
    lines: [
      {
        name: 'Sump_volume',
        label: 'Sump',
        farm: 'water.sump',
        quantity: 'volume',
        look: 'input',
        rule: between('volume', ctx, 0, 1e8),
      },
      {
        name: 'Gravel_area',
        label: 'Gravel beds',
        formula: call('SUMIF', named('Beds_kind'), 'gravel', named('Beds_area')),
        quantity: 'area',
        look: 'computed',
      },
      {
        name: 'Flood_depth',
        label: 'Flooded depth',
        preset: 'Flood_depth',
        formula: gravelDepth(),
        look: 'preset',
        remark: 'The mean of the gravel beds on Beds.',
      },
      {
        name: 'Flood_voids',
        label: 'Space between the stones',
        preset: 'Flood_voids',
        look: 'preset',
        remark: 'Clean even stone. Measure your own: litres that fill ten litres of it.',
      },
      {
        name: 'Flood_together',
        label: 'Beds that are flooded at one time',
        preset: 'Flood_together',
        look: 'preset',
        remark: 'All of them is the safe assumption.',
      },
      {
        name: 'Flood_volume',
        label: 'Flood volume of the beds',
        formula: when(
          gravel.is(0),
          0,
          gill(
            'FLOOD.VOLUME',
            gravel.times(named('Flood_together')),
            named('Flood_depth'),
            named('Flood_voids'),
          ),
        ),
        quantity: 'volume',
        look: 'result',
      },
    ],
    verdict: {
      name: 'Sump_verdict',
      formula: cases(
        [
          [flood.is(0), 'No bed is flooded.'],
          [volume.atLeast(flood), 'The sump fills the beds and takes their water back.'],
        ],
        joined(
          'The sump is ',
          figureInWords(flood.minus(volume), 'volume', system),
          ' too small: let the beds flood in turn, or the pump runs dry and the sump overflows.',
        ),
      ),
    },
  };
}

function put(ctx: PlanContext, flow: Flow, block: Block): void {
  flow.heading(block.title);
  flow.fields(block.lines);
  const verdict = flow.wide({ formula: block.verdict.formula, look: 'verdict' }, 2);
  ctx.name(block.verdict.name, SHEET, verdict);
}

/** The year ahead: what the fish get against what the beds can use. */
function weeks(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const { unit, format } = shownIn('feedDay', ctx.system);
  const full = sum(named('Beds_feed_full'));
  flow.heading('The year ahead');
  flow.wide({
    value:
      'Beds as sown: what stands or is in the nursery now, until it is cleared. All beds full: every bed with the crop it has now, as long as you follow on.',
    look: 'source',
  });
  sheet.repeat(flow.row, 1);
  flow.heads([
    'Week of',
    `Feed given, ${unit}`,
    `Beds as sown, ${unit}`,
    `All beds full, ${unit}`,
    'Given, of all full',
  ]);
  const first = flow.row;
  for (let w = 0; w < WEEK_ROWS; w++) {
    const row = flow.skip();
    const [day, given, , wanted] = [0, 1, 2, 3].map((column) => rowRef(row, column)) as [
      Formula,
      Formula,
      Formula,
      Formula,
    ];
    const figure = (column: number, formula: Formula): void =>
      sheet.put(row, column, {
        formula: inShownUnits(formula, 'feedDay', ctx.system),
        look: 'computed',
        format,
      });
    sheet.put(row, 0, { formula: nth('Weeks_date', w + 1), look: 'label', format: 'date' });
    figure(1, nth('Weeks_feed', w + 1));
    figure(
      2,
      call(
        'SUMIFS',
        named('Beds_feed_full'),
        named('Beds_out'),
        joined('<=', day),
        named('Beds_clear'),
        joined('>', day),
      ),
    );
    figure(3, full);
    sheet.put(row, 4, {
      formula: blankIf(wanted.is(0), given.over(wanted)),
      look: 'computed',
      format: 'percent',
    });
  }
  const share = cellRef(first, 4);
  sheet.mark(
    area(first, 4, WEEK_ROWS),
    all(share.isNumber, any(share.above(TOO_MUCH), share.below(TOO_LITTLE))),
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
  sheet.cautions(2, 0, 6, ['weight', 'sulphide']);
  const flow = new Flow(sheet, ctx, { row: 3, columns: 6, metricColumn: TWINS });
  for (const block of [feedAndBeds, load, filter, sump]) {
    put(ctx, flow, block(ctx));
    flow.skip();
  }
  weeks(sheet, ctx, flow);
  return sheet.model();
}
