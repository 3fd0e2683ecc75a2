import { contentApart, contentByGroup } from '../../core/nutrients';
import { bedFeedFormula } from '../bed-feed';
import type { PlanContext } from '../context';
import { lightUntil } from '../planting-ahead';
import { batchNow } from '../planting-columns';
import {
  cropFigure,
  daysToFirstCut,
  daysToPlanting,
  pickingDays,
  weeksInBed,
} from '../crop-figures';
import { bedKinds, type BedEntry } from '../farm';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  cases,
  type Condition,
  type Formula,
  joined,
  not,
  sum,
  when,
} from '../formula-parts';
import type { SheetModel } from '../workbook-model';
import { codeOf, hasCode, lineOf, named, nth, wordsOf } from '../names';
import { span } from '../references';
import { leastLight } from './plant-room-months';
import {
  type At,
  type Columns,
  HEAD_ROW,
  register,
  type RegisterColumn,
  registerSheet,
} from '../register';

const SHEET = 'Beds';

type AtBed = At<'Beds'>;
type Rule = RegisterColumn<BedEntry, 'Beds'>['rule'];

/**
 * First cut: as the Plantings expect it by the warmth of the months. Where these are not known, by the usual days from
 * the planting, otherwise from the sowing.
 */
function firstCut(at: AtBed): Formula {
  const expected = nth('Plantings_due', at('batch'));
  return cases(
    [
      [expected.isNumber, expected],
      [at('planted').isFilled, at('planted').plus(cropFigure('bed_days', at('line')))],
    ],
    blankWithout([at('sown')], at('sown').plus(daysToFirstCut(at('line')))),
  );
}

/** What the Plantings say of the batch in the bed. */
const ofBatch = (at: AtBed, column: 'crop' | 'plants' | 'sown' | 'planted'): Formula => {
  const there = nth(`Plantings_${column}`, at('batch'));
  return blankWithout([at('batch')], blankIf(there.isBlank, there));
};

const inPlace = (at: AtBed): Condition => cropFigure('start', at('line')).is('in place');

/** The cut frees its place, and nobody has written that it was made. */
const isToBeCutOnce = (at: AtBed): Condition =>
  all(at('clear').is(at('first_cut')), nth('Plantings_first_cut', at('batch')).isBlank);

const waitsForPlanting = (at: AtBed): Condition => all(at('planted').isBlank, not(inPlace(at)));

/** The crop stands in the bed on the day of the plan. */
const stands = (at: AtBed): Condition => {
  const today = named('Farm_date');
  return any(
    all(at('planted').isFilled, at('planted').atMost(today)),
    all(at('sown').isFilled, at('sown').atMost(today), inPlace(at)),
  );
};

const status = (at: AtBed): Formula => {
  const today = named('Farm_date');
  return codeOf(
    'Beds_status',
    [
      [at('crop').isBlank, 'empty'],
      [at('first_cut').isBlank, 'undated'],
      [all(isToBeCutOnce(at), today.atLeast(at('first_cut'))), 'cut whole'],
      [today.atLeast(at('clear')), 'clear'],
      [today.atLeast(at('first_cut')), 'cutting'],
      [at('out').above(today), 'nursery'],
      [waitsForPlanting(at), 'plant out'],
    ],
    'growing',
  );
};

/** What the bed asks for by the Sunday of the as-of week. */
const taskCode = (at: AtBed): Formula => {
  const sunday = named('Farm_week').plus(6);
  return codeOf(
    'Beds_task_code',
    [
      [at('first_cut').isBlank, ''],
      [all(isToBeCutOnce(at), at('first_cut').atMost(sunday)), 'cut'],
      [at('clear').atMost(sunday), 'clear'],
      [at('first_cut').atMost(sunday), 'cut'],
      [all(waitsForPlanting(at), at('out').atMost(sunday)), 'plant out'],
    ],
    '',
  );
};

/** Groups whose crops take nutrients up otherwise than leafy ones. */
const otherGroups = Object.entries(contentByGroup).filter(
  ([, content]) => content !== contentByGroup.leafy,
);

const positive = (message: string): Rule => ({
  rule: { kind: 'number', min: 0 },
  message,
});

type BedColumns = Columns<BedEntry, 'Beds'>;

/** What is typed of a bed. */
const bedColumns = {
  name: { head: 'Bed', width: 10, look: 'input', field: 'name' },
  kind: {
    head: 'Kind',
    width: 8,
    look: 'input',
    field: 'kind',
    rule: { rule: { kind: 'words', words: bedKinds }, message: 'Choose raft, gravel or film.' },
  },
  length: {
    head: 'Length',
    width: 8,
    look: 'input',
    quantity: 'length',
    field: 'length',
    rule: positive('Type the length of the bed.'),
  },
  width: {
    head: 'Width',
    width: 8,
    look: 'input',
    quantity: 'length',
    field: 'width',
    rule: positive('Type the width of the bed.'),
  },
  depth: {
    head: 'Depth',
    width: 8,
    look: 'input',
    quantity: 'length',
    field: 'depth',
    note: 'Of the water under a raft, or of the gravel that is flooded.',
    rule: positive('Type the depth of the bed, or leave it blank.'),
  },
} satisfies Partial<BedColumns>;

/** What the Plantings say of the batch in it. */
const batchColumns = {
  crop: {
    head: 'Crop',
    width: 16,
    look: 'computed',
    typedBefore: 'crop',
    note: 'From the Plantings: what was planted out and not cleared, or else what comes next.',
    formula: (at) => ofBatch(at, 'crop'),
  },
  plants: {
    head: 'Plants',
    width: 8,
    look: 'computed',
    quantity: 'plants',
    typedBefore: 'plants',
    formula: (at) => ofBatch(at, 'plants'),
    total: sum,
  },
  sown: {
    head: 'Sown on',
    width: 11,
    look: 'computed',
    format: 'date',
    typedBefore: 'sown',
    formula: (at) => ofBatch(at, 'sown'),
  },
  planted: {
    head: 'Planted on',
    width: 11,
    look: 'computed',
    format: 'date',
    typedBefore: 'planted',
    formula: (at) => ofBatch(at, 'planted'),
  },
} satisfies Partial<BedColumns>;

/** When its place is taken, cut and free. */
const dayColumns = {
  area: {
    head: 'Area',
    width: 9,
    look: 'computed',
    quantity: 'area',
    formula: (at) => blankWithout([at('length'), at('width')], at('length').times(at('width'))),
    total: sum,
  },
  spacing: {
    head: 'Planting density',
    width: 10,
    look: 'computed',
    quantity: 'plantsPerArea',
    formula: (at) => blankWithout([at('plants'), at('area')], at('plants').over(at('area'))),
  },
  out: {
    head: 'Plant out',
    width: 11,
    look: 'computed',
    format: 'date',
    formula: (at) =>
      when(
        at('planted').isFilled,
        at('planted'),
        blankWithout([at('crop'), at('sown')], at('sown').plus(daysToPlanting(at('line')))),
      ),
  },
  first_cut: {
    head: 'First cut',
    width: 11,
    look: 'result',
    format: 'date',
    note: 'By the warmth of the months on Site, as the Season sheet has it; today where what is ready stands uncut.',
    formula: (at) => blankWithout([at('crop')], firstCut(at)),
  },
  clear: {
    head: 'Clear',
    width: 11,
    look: 'computed',
    format: 'date',
    note: 'The place is free: with the cut of a crop that is cut once, else with the last cut.',
    formula: (at) => blankWithout([at('first_cut')], at('first_cut').plus(pickingDays(at('line')))),
  },
  state: {
    head: 'State',
    width: 15,
    look: 'verdict',
    formula: (at) =>
      wordsOf('Beds_status', at('status'), {
        empty: 'empty',
        undated: 'no dates yet',
        'cut whole': 'cut all of it',
        clear: 'clear now',
        cutting: 'cutting',
        nursery: 'in the nursery',
        'plant out': 'plant out now',
        growing: 'growing',
      }),
  },
} satisfies Partial<BedColumns>;

/** What it uses, brings in and gets of light. */
const feedAndIncomeColumns = ({ gill }: PlanContext) =>
  ({
    feed_full: {
      head: 'Feed it can use when planted',
      width: 11,
      look: 'computed',
      quantity: 'feedDay',
      note: 'Fish feed a day whose nutrients the bed can use when the crop stands in it.',
      formula: (at) =>
        blankWithout(
          [at('crop'), at('area'), named('Feed_protein')],
          bedFeedFormula({
            area: at('area'),
            kind: at('kind'),
            ratio: cropFigure('feed_ratio', at('line')),
          }),
        ),
      total: sum,
    },
    feed: {
      head: 'Feed it uses now',
      width: 10,
      look: 'result',
      quantity: 'feedDay',
      note: 'Only beds with plants in them count.',
      formula: (at) => blankWithout([at('feed_full')], when(stands(at), at('feed_full'), 0)),
      total: sum,
    },
    income: {
      head: 'Income',
      width: 10,
      look: 'result',
      quantity: 'moneyPerArea',
      note: 'For each week that the crop keeps its place, with the yield and price of the Sowing sheet. Blank for crops that are not on it.',
      formula: (at) => {
        const market = call('MATCH', at('line'), named('Sowing_line'), 0);
        const gives = nth('Sowing_gives', market);
        const income = gill(
          'MONEY.BEDWEEK',
          at('plants'),
          gives,
          nth('Sowing_price_counts', market).orZero,
          weeksInBed(at('line')),
          at('area'),
        );
        return blankWithout(
          [at('crop'), at('plants'), at('area')],
          blankIf(
            call('COUNTIF', named('Sowing_line'), at('line')).is(0),
            blankIf(gives.orZero.atMost(0), income),
          ),
        );
      },
    },
    light_share: {
      head: 'Light, of the least it wants',
      width: 10,
      look: 'result',
      format: 'percent',
      note: 'Mean light inside, lamps included, from now or the planting out until the first cut; once that is made, until it is cleared. By the months of the Plant room sheet.',
      formula: (at) => blankWithout([at('light')], at('light').over(leastLight(at('line')))),
    },
  }) satisfies Partial<BedColumns>;

/** What is to be done this week. */
const taskColumns = {
  task: {
    head: 'This week',
    width: 11,
    look: 'verdict',
    formula: (at) =>
      wordsOf('Beds_task_code', at('task_code'), {
        clear: 'clear',
        cut: 'cut',
        'plant out': 'plant out',
        '': '',
      }),
  },
  task_key: {
    helper: true,
    head: 'Task number',
    width: 12,
    look: 'source',
    formula: (at) =>
      blankWithout(
        [at('task_code')],
        joined(
          at('task_code'),
          ' ',
          call('COUNTIF', span(at.first('task_code'), at('task_code')), at('task_code')),
        ),
      ),
  },
} satisfies Partial<BedColumns>;

/** What the columns before look up. */
const workingColumns = {
  line: {
    helper: true,
    head: 'Line in Crops',
    width: 8,
    look: 'source',
    formula: (at) => blankWithout([at('crop')], lineOf('Crop', at('crop'))),
  },
  status: { helper: true, head: 'Status', width: 10, look: 'source', formula: status },
  task_code: { helper: true, head: 'Task', width: 10, look: 'source', formula: taskCode },
  harvest_week: {
    helper: true,
    head: 'Harvest a week, kg',
    width: 10,
    look: 'source',
    // The whole crop, spread over the weeks that it keeps its place.
    formula: (at) =>
      blankWithout(
        [at('crop'), at('area')],
        when(
          stands(at),
          at('area')
            .times(cropFigure('kg_per_m2', at('line')))
            .over(weeksInBed(at('line'))),
          0,
        ),
      ),
  },
  content: {
    helper: true,
    head: 'Takes up nutrients as',
    width: 10,
    look: 'source',
    formula: (at) =>
      blankWithout(
        [at('crop')],
        cases(
          [
            ...contentApart.map(
              ([name, content]) => [cropFigure('name', at('line')).is(name), content] as const,
            ),
            ...otherGroups.map(
              ([group, content]) => [cropFigure('group', at('line')).is(group), content] as const,
            ),
          ],
          contentByGroup.leafy,
        ),
      ),
  },
  flooded: {
    helper: true,
    head: 'Gravel bed number',
    width: 8,
    look: 'source',
    format: 'whole',
    formula: (at) =>
      when(
        at('kind').is('gravel'),
        call('COUNTIF', span(at.first('kind'), at('kind')), 'gravel'),
        '',
      ),
  },
} satisfies Partial<BedColumns>;

/** Light from the planting to the cut, and the batch that is meant. */
const lightColumns = {
  light_from: {
    helper: true,
    head: 'Light from',
    width: 10,
    look: 'source',
    format: 'date',
    formula: (at) => blankWithout([at('out')], call('MAX', named('Farm_date'), at('out'))),
  },
  light_to: {
    helper: true,
    head: 'Light until',
    width: 10,
    look: 'source',
    format: 'date',
    formula: (at) =>
      blankWithout(
        [at('light_from'), at('first_cut')],
        when(at('first_cut').above(at('light_from')), at('first_cut'), at('clear')),
      ),
  },
  light: {
    helper: true,
    head: 'Light, mol/m² a day',
    width: 10,
    look: 'source',
    format: 'one',
    formula: (at) =>
      blankWithout(
        [at('light_to')],
        when(
          at('light_to').above(at('light_from')),
          call(
            'IFERROR',
            lightUntil(at('light_to'))
              .minus(lightUntil(at('light_from')))
              .over(at('light_to').minus(at('light_from'))),
            '',
          ),
          '',
        ),
      ),
  },
  batch: {
    helper: true,
    head: 'Row of the Plantings',
    width: 10,
    look: 'source',
    formula: (at) =>
      batchNow(
        call('ROW', at('name'))
          .minus(call('ROW', at.first('name')))
          .plus(1),
      ),
  },
} satisfies Partial<BedColumns>;

export function bedsSheet(ctx: PlanContext): SheetModel {
  const columns: BedColumns = {
    ...bedColumns,
    ...batchColumns,
    ...dayColumns,
    ...feedAndIncomeColumns(ctx),
    ...taskColumns,
    ...workingColumns,
    ...lightColumns,
  };
  const sheet = registerSheet(
    SHEET,
    'What grows where, when is it cut, and when is the place free?',
  );
  sheet.text(3, 0, 'Whole farm', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Beds',
    headRow: HEAD_ROW,
    columns,
    list: 'beds',
    spare: 10,
    cautions: ['weight', 'sprays'],
  });
  const code = made.first('status');
  sheet.mark(
    made.cells('state'),
    any(hasCode('Beds_status', code, 'clear'), hasCode('Beds_status', code, 'plant out')),
    'watch',
  );
  const share = made.first('light_share');
  sheet.mark(made.cells('light_share'), all(share.isNumber, share.below(1)), 'watch');
  sheet.mark(
    made.cells('state'),
    any(hasCode('Beds_status', code, 'cutting'), hasCode('Beds_status', code, 'cut whole')),
    'good',
  );
  return sheet.model();
}
