import { bedFeeds, type BedKind, RATIO_PROTEIN } from '../../core/feed-area';
import { GRAVEL_SURFACE } from '../../core/filter';
import { PUBLISHED_BASE } from '../../core/load';
import { restingOn } from '../basis';
import type { PlanContext } from '../context';
import { between, type Field } from '../fields';
import { Flow } from '../sheet-flow';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  cases,
  type Formula,
  joined,
  type Part,
  sum,
  when,
  written,
} from '../formula-parts';
import { plainCall } from '../live-or-plain';
import type { Area, SheetModel } from '../workbook-model';
import { type FigureName, named, nth } from '../names';
import { figureInWords, inShownUnits, shownIn } from '../quantities';
import { cellRef, rowRef } from '../references';
import type { Register } from '../register';
import { area, FIGURES, LABELS, pagesFrom, SheetBuilder } from '../sheet-builder';
import { dosesBlocks } from './doses-blocks';
import { WEEK_ROWS } from './stock-weeks-block';

const SHEET = 'Balance';
/** First of the columns that serve formulas alone. */
const FOLDED = 9;
/** First of the columns that hold metric twins in US units. */
const TWINS = 16;
/** Of protein, g/g. */
const NITROGEN_IN_PROTEIN = 0.16;

/** Part of the way from the least to the most feed up to which a farm stands at the lower end, and the upper. */
const LOWER_END = 1 / 3;
const UPPER_END = 2 / 3;

/** Nothing as long as nobody can say what the fish are fed: the water of the month is not known. */
const fed = (formula: Formula): Formula => blankWithout([named('Balance_feed')], formula);

/** Nothing as long as the protein of the feed is not known. */
const withProtein = (formula: Formula): Formula => blankWithout([named('Feed_protein')], formula);

interface Block {
  readonly title: string;
  readonly lines: readonly Field[];
  /** Said under the block, over its whole width. */
  readonly verdict: { readonly name: FigureName; readonly formula: Formula };
}

/**
 * Feed a day with which the beds of `feeds` ran well in published farms, at the lower or the upper end: by their
 * kind, and never above or below what their crops call for.
 */
function publishedFeed(feeds: 'Beds_feed' | 'Beds_feed_full', end: 0 | 1): Formula {
  const areaOf = (...kind: readonly Part[]): Formula =>
    call('SUMIFS', named('Beds_area'), named(feeds), '>0', ...kind);
  const of = (kind: BedKind): number => bedFeeds[kind].band[end];
  const apart = ['raft', 'film'] as const;
  const areas = apart.map((kind) => areaOf(named('Beds_kind'), kind));
  const gravel = areas.reduce((rest, classArea) => rest.minus(classArea), areaOf());
  const onGravel = when(named('Gravel_kind').is('gravel'), of('gravel'), of('clean gravel'));
  const total = apart.reduce(
    (all, kind, i) => all.plus((areas[i] as Formula).times(of(kind))),
    gravel.times(onGravel),
  );
  const called = sum(named(feeds));
  return restingOn(
    'FEED.AREA',
    call(end === 0 ? 'MIN' : 'MAX', total.times(RATIO_PROTEIN).over(named('Feed_protein')), called),
  );
}

function feedAndBeds(ctx: PlanContext): Block {
  const { gill, system } = ctx;
  const [feed, wanted] = [named('Balance_feed'), named('Balance_wanted')];
  const [least, most] = [named('Balance_least'), named('Balance_most')];
  const planted = named('Balance_planted');
  const more = figureInWords(planted.times(feed.over(most).minus(1)), 'area', system);
  const words = (figure: Formula): Formula => figureInWords(figure, 'feedDay', system);
  const bounds = joined(' (', words(least), ' to ', words(most), ').');
  const way = feed.minus(least).over(most.minus(least));
  return {
    title: 'Feed and beds',
    lines: [
      {
        name: 'Balance_feed',
        label: 'Feed given',
        formula: blankWithout([named('Water_now')], sum(named('Tanks_feed'))),
        quantity: 'feedDay',
        look: 'result',
      },
      {
        name: 'Gravel_kind',
        label: 'Gravel in the beds',
        preset: 'Gravel_kind',
        look: 'preset',
        remark: 'Clean gravel: the solids are taken out before the beds. Gravel: they stay.',
      },
      {
        name: 'Balance_wanted',
        label: 'Feed the beds call for',
        formula: withProtein(sum(named('Beds_feed'))),
        quantity: 'feedDay',
        look: 'result',
        note: 'Beds with plants in them, each with the feed ratio of its crop on the Crops sheet, turned to its kind of bed and to the protein of the feed.',
      },
      {
        name: 'Balance_least',
        label: 'Such beds ran well from',
        formula: withProtein(publishedFeed('Beds_feed', 0)),
        quantity: 'feedDay',
        look: 'computed',
        note: 'Published farms ran well anywhere between these two: rafts from 40 to 100 g on a m² a day, clean gravel from 30 to 100, gravel from 25 to 80, film channels from 15 to 42, with a feed of 32 % protein.',
      },
      {
        name: 'Balance_most',
        label: 'Such beds ran well up to',
        formula: withProtein(publishedFeed('Beds_feed', 1)),
        quantity: 'feedDay',
        look: 'computed',
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
        formula: fed(blankIf(wanted.orZero.is(0), gill('FEED.AREA', feed, wanted.over(planted)))),
        quantity: 'area',
        look: 'result',
        note: 'With the crops that stand now, in their kinds of bed.',
      },
      {
        name: 'Balance_share',
        label: 'Feed given, of what is called for',
        formula: fed(blankIf(wanted.orZero.is(0), feed.over(wanted))),
        quantity: 'share',
        look: 'computed',
      },
      {
        name: 'Balance_full_least',
        label: 'All beds full: they run well from',
        formula: withProtein(publishedFeed('Beds_feed_full', 0)),
        quantity: 'feedDay',
        look: 'computed',
      },
      {
        name: 'Balance_full_most',
        label: 'All beds full: they run well up to',
        formula: withProtein(publishedFeed('Beds_feed_full', 1)),
        quantity: 'feedDay',
        look: 'computed',
      },
    ],
    verdict: {
      name: 'Balance_verdict',
      formula: cases(
        [
          [
            wanted.isBlank,
            'Whether feed and beds fit each other stays open: the protein of the feed, or the species, is not said yet.',
          ],
          [
            feed.isBlank,
            'Whether feed and beds fit each other stays open: the water of the months is not said yet.',
          ],
          [
            wanted.is(0),
            'No bed has plants in it: what the fish leave in the water gathers. Plant, or feed as little as they need.',
          ],
          [
            feed.above(most),
            joined(
              'More feed than the beds can use: plant ',
              more,
              ' more, or feed ',
              words(feed.minus(most)),
              ' less (sell sooner, stock fewer).',
            ),
          ],
          [
            feed.below(least),
            joined(
              'Less feed than such beds ran well with: ',
              words(least.minus(feed)),
              ' are missing. Stock more fish, or plant crops that want less.',
            ),
          ],
          [
            way.below(LOWER_END),
            joined(
              'Feed and beds are in balance, at the lower end of what such beds ran well with: watch iron and potassium',
              bounds,
            ),
          ],
          [
            way.above(UPPER_END),
            joined(
              'Feed and beds are in balance, at the upper end of what such beds ran well with: nitrate may gather',
              bounds,
            ),
          ],
        ],
        joined('Feed and beds are in balance', bounds),
      ),
    },
  };
}

/** g a day for the feed of the day, from g a kg. */
const perKilo = (grams: Part): Formula => fed(named('Balance_feed').times(grams).over(1000));

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
        formula: blankWithout([named('Stock_line')], nth('Fish_protein', named('Stock_line'))),
        quantity: 'share',
        look: protein === undefined ? 'preset' : 'input',
        remark: 'As the bag says.',
        ...(protein !== undefined && { rule: between('share', ctx, 0.1, 0.7) }),
      },
      {
        name: 'Load_nitrogen',
        label: 'Nitrogen in the feed',
        formula: fed(
          withProtein(
            named('Balance_feed').times(named('Feed_protein')).times(NITROGEN_IN_PROTEIN),
          ),
        ),
        unit: 'g N',
        format: 'whole',
        look: 'computed',
        remark: '16 % of protein is nitrogen.',
      },
      {
        name: 'Load_ammonia',
        label: 'Ammonia from the fish, as N',
        formula: fed(withProtein(gill('LOAD.TAN', named('Balance_feed'), named('Feed_protein')))),
        unit: 'g N',
        format: 'whole',
        look: 'computed',
      },
      {
        name: 'Load_oxygen',
        label: 'Oxygen for fish and filter',
        formula: fed(gill('LOAD.OXYGEN', named('Balance_feed'))),
        unit: 'g',
        format: 'whole',
        look: 'result',
      },
      {
        name: 'Load_alkalinity',
        label: 'Alkalinity used up, at most',
        // Plain in both forms: a chain of calls costs a round trip for each link.
        formula: blankWithout(
          [named('Load_ammonia')],
          plainCall('LOAD.ALKALINITY', named('Load_ammonia')),
        ),
        unit: 'g CaCO3',
        format: 'whole',
        look: 'result',
        note: 'The bound for a bare filter in soft water: plants, gas from the solids and make-up water give most of it back.',
      },
      {
        name: 'Load_base_least',
        label: 'Given back by three published farms, from',
        formula: restingOn('LOAD.ALKALINITY', perKilo(PUBLISHED_BASE.least)),
        unit: 'g CaCO3',
        format: 'whole',
        look: 'computed',
        note: 'Bases that they dosed, 16 to 36 g as CaCO3 for each kg of feed.',
      },
      {
        name: 'Load_base_most',
        label: 'Given back by three published farms, up to',
        formula: restingOn('LOAD.ALKALINITY', perKilo(PUBLISHED_BASE.most)),
        unit: 'g CaCO3',
        format: 'whole',
        look: 'computed',
      },
      {
        name: 'Load_base_table',
        label: "By a practitioner's table",
        formula: when(
          named('Balance_wanted').orZero.above(0),
          perKilo(PUBLISHED_BASE.planted),
          perKilo(PUBLISHED_BASE.bare),
        ),
        unit: 'g CaCO3',
        format: 'whole',
        look: 'computed',
        note: '70 g as CaCO3 for each kg of feed where plants grow, 140 where none do.',
      },
      {
        name: 'Load_base_own',
        label: 'Your own, for each kg of feed',
        unit: 'g CaCO3',
        format: 'whole',
        preset: 'Load_base_own',
        look: 'input',
        remark: 'Base dosed over feed given, from your records.',
        note: 'Take some weeks between two days of the same alkalinity: all the base that was dosed, as CaCO3 (potassium bicarbonate over 2.00, potassium carbonate over 1.38, calcium hydroxide over 0.74), over all the feed in kg. Leave it blank until your records say it.',
      },
      {
        name: 'Load_solids',
        label: 'Solids to take out, dry',
        formula: fed(gill('LOAD.SOLIDS', named('Balance_feed'))),
        unit: 'g',
        format: 'whole',
        look: 'computed',
      },
    ],
    verdict: {
      name: 'Load_verdict',
      formula: when(
        named('Load_alkalinity').isBlank,
        'Base for so much feed stays open: the water of the months, or the protein of the feed, is not said yet.',
        when(
          named('Load_base_own').isBlank,
          joined(
            'Base for so much feed: begin with ',
            written(named('Load_base_least'), '#,##0'),
            ' to ',
            written(named('Load_base_most'), '#,##0'),
            ' g CaCO3 a day, as published farms did; ',
            written(named('Load_alkalinity'), '#,##0'),
            ' is the bound of a bare filter. Let your own record of alkalinity and base correct it.',
          ),
          joined(
            'Base for so much feed, by your own records: ',
            written(perKilo(named('Load_base_own')), '#,##0'),
            ' g CaCO3 a day',
            cases(
              [
                [
                  perKilo(named('Load_base_own')).above(named('Load_alkalinity')),
                  ', more than nitrifying all the ammonia uses up: look for acid in the make-up water, or a slip in the records.',
                ],
                [
                  named('Load_base_own').below(PUBLISHED_BASE.least),
                  ', less than published farms gave: the make-up water or lime in the feed helps.',
                ],
                [
                  named('Load_base_own').above(PUBLISHED_BASE.planted),
                  ', more than published farms gave: little nitrate is taken up.',
                ],
              ],
              ', as published farms gave.',
            ),
          ),
        ),
      ),
    },
  };
}

/** Organic carbon for each weight of ammonia nitrogen in the water of the gravel, as FILTER.BEDS takes it. */
const solidsInGravel = when(named('Gravel_kind').is('gravel'), 1, 0);

function filter(ctx: PlanContext): Block {
  const { gill, system } = ctx;
  const [there, needed] = [named('Filter_there'), named('Filter_needed')];
  const specific = named('Filter_specific');
  const missing = needed.minus(there);
  const level = when(
    named('Most_tan').isNumber,
    named('Most_tan'),
    nth('Fish_tan_most', named('Stock_line')),
  );
  const rafts = call('SUMIF', named('Beds_kind'), 'raft', named('Beds_area'));
  /** Nothing as long as the water of the month or the species is not said. */
  const known = (formula: Formula): Formula =>
    blankWithout([named('Water_now'), named('Stock_line')], formula);
  const takenUp = (beds: Formula, kind: string, ...more: readonly Part[]): Formula =>
    gill('FILTER.BEDS', beds, kind, named('Water_now'), level, ...more);
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
        name: 'Filter_beds',
        label: 'Ammonia that rafts and gravel take up',
        formula: known(
          takenUp(rafts, 'raft').plus(
            takenUp(named('Gravel_area'), 'gravel', solidsInGravel, named('Flood_depth'))
              .times(named('Gravel_specific'))
              .over(GRAVEL_SURFACE),
          ),
        ),
        unit: 'g N',
        format: 'whole',
        look: 'computed',
        note: 'As part of the filter, from beds some six weeks old. Film channels are not counted.',
      },
      {
        name: 'Filter_there',
        label: 'Surface of the filter',
        formula: when(
          named('Filter_media').is(0),
          0,
          blankWithout(
            [named('Filter_media'), specific],
            named('Filter_media').over(1000).times(specific),
          ),
        ),
        quantity: 'surface',
        look: 'computed',
      },
      {
        name: 'Filter_needed',
        label: 'Surface that is needed beside the beds',
        formula: blankWithout(
          [named('Load_ammonia'), named('Filter_beds')],
          plainCall(
            'FILTER.SURFACE',
            call('MAX', 0, named('Load_ammonia').minus(named('Filter_beds'))),
            undefined,
            named('Water_now'),
            level,
          ),
        ),
        quantity: 'surface',
        look: 'result',
        note: 'For what rafts and gravel leave, in water that holds no more ammonia than the species bears (Species sheet).',
      },
    ],
    verdict: {
      name: 'Filter_verdict',
      formula: cases(
        [
          [
            needed.isBlank,
            'Whether the filter is large enough stays open: species, water of the months or protein of the feed are not said yet.',
          ],
          [needed.is(0), 'Rafts and gravel take up all the ammonia by themselves.'],
          [
            there.isBlank,
            'Whether the filter is large enough stays open: its media or their surface is not said yet.',
          ],
          [there.atLeast(needed), 'Filter and beds take up all the ammonia.'],
          [
            specific.isBlank,
            joined(
              'The filter is short of ',
              figureInWords(missing, 'surface', system),
              ': more media, or less feed.',
            ),
          ],
        ],
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
  const [volume, flood, needed] = [
    named('Sump_volume'),
    named('Flood_volume'),
    named('Plant_sump'),
  ];
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
          [
            any(volume.isBlank, needed.isBlank),
            'Whether the sump is large enough stays open: its water, the latitude or the months are not said yet.',
          ],
          [all(flood.is(0), volume.atLeast(needed)), 'No bed is flooded.'],
          [volume.atLeast(needed), 'The sump fills the beds and takes all water back.'],
        ],
        joined(
          'The sump is ',
          figureInWords(needed.minus(volume), 'volume', system),
          ' too small for beds, pipes and pump (Plant room sheet): let the beds flood in turn, or the pump runs dry and the sump overflows.',
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
function weeks(sheet: SheetBuilder, ctx: PlanContext, flow: Flow, chart: Area): void {
  const { unit, format } = shownIn('feedDay', ctx.system);
  const full = sum(named('Beds_feed_full'));
  flow.heading('The year ahead');
  flow.wide({
    value:
      'Beds as sown: what the rows of the Plantings have in the beds, done and planned, until it is cleared as expected (Season sheet). Feed given: by the planned rows of the Fish log (Tank year); a tank whose rows are done goes on by its turns, sold at its selling weight and stocked anew, and so does the farm where no row is planned. All beds full: every bed with the crop it has now, as long as you follow on.',
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
    figure(1, nth('Ahead_feed', w + 1));
    figure(
      2,
      call(
        'SUMIFS',
        named('Plantings_calls'),
        named('Plantings_out'),
        joined('<=', day),
        named('Plantings_free'),
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
  // The column of feed holds the farm's units; the share is compared by what it is a share of.
  const fed = cellRef(first, 4).times(full);
  sheet.mark(
    area(first, 4, WEEK_ROWS),
    all(
      cellRef(first, 4).isNumber,
      any(fed.above(named('Balance_full_most')), fed.below(named('Balance_full_least'))),
    ),
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
    place: chart,
    categories: { sheet: SHEET, area: area(first, 0, WEEK_ROWS) },
    series: [series('Feed given', 1), series('Beds as sown', 2), series('All beds full', 3)],
    categoryTitle: 'Week of',
    valueTitle: unit,
  });
}

/** Is what the fish are fed in balance with beds, filter and sump, now and through the year? */
export function balanceSheet(
  ctx: PlanContext,
  log: { readonly name: string; readonly register: Register<'Water'> },
): SheetModel {
  const sheet = new SheetBuilder(SHEET, {
    title: 'Balance',
    question:
      'Do feed, beds, filter and sump fit each other? Is the water fit, what has to be added, and what do the crops lack?',
    widths: [LABELS, FIGURES, 13, 13, 13, 13, 9],
    landscape: true,
    headRows: 2,
  });
  if (ctx.system === 'US') {
    sheet.width(TWINS, 14);
    sheet.text(2, TWINS, 'In metric', 'source');
  }
  sheet.fold(FOLDED);
  sheet.cautions(2, 0, 7, ['weight', 'sulphide']);
  const flow = new Flow(sheet, ctx, { row: 3, columns: 7, metricColumn: TWINS });
  const [, leaves, , sumpFrom, water] = [feedAndBeds, load, filter, sump].reduce<readonly number[]>(
    (begins, block) => {
      put(ctx, flow, block(ctx));
      flow.skip();
      return [...begins, flow.row];
    },
    [flow.row],
  ) as [number, number, number, number, number];
  const waterFlow = new Flow(sheet, ctx, { row: water, columns: FOLDED, metricColumn: TWINS });
  const [toAdd, nutrients] = dosesBlocks(sheet, ctx, waterFlow, log);
  flow.skip(waterFlow.row + 1 - water);
  const ahead = flow.row;
  weeks(sheet, ctx, flow, area(3, 7, leaves - 4, 2));
  sheet.printOnPages(pagesFrom([0, leaves, sumpFrom, toAdd, nutrients, ahead], flow.row, FOLDED));
  return sheet.model();
}
