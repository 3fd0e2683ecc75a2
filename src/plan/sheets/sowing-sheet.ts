import { LB } from '../units-per-plant';
import type { PlanContext } from '../context';
import {
  coldestAir,
  cropFigure,
  daysToFirstCut,
  daysToPlanting,
  monthsGrown,
  warmestAir,
  weeksInBed,
} from '../crop-figures';
import { between } from '../fields';
import { type MarketEntry, marketUnits } from '../farm';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  cases,
  type Formula,
  joined,
  not,
  part,
  roundedUp,
  sum,
  when,
} from '../formula-parts';
import type { SheetModel } from '../workbook-model';
import { type CropColumn, codeOf, hasCode, lineOf, named, nth, wordsOf } from '../names';
import { priceThatCounts } from '../own-figure-formulas';
import { presetValue } from '../presets';
import { typedPreset } from '../typed-cells';
import { type At, type Columns, HEAD_ROW, register, registerSheet } from '../register';
import { area } from '../sheet-builder';

const SHEET = 'Sowing';

type AtMarket = At<'Sowing'>;

const fact = (at: AtMarket, name: CropColumn): Formula => cropFigure(name, at('line'));

/** Pieces, bunches, kg or lb that one plant gives over its whole crop. */
function yieldOfPlant(at: AtMarket): Formula {
  const kilos = fact(at, 'kg_per_plant');
  const unit = at('sold_as');
  const counted = (weight: CropColumn): Formula => kilos.times(1000).over(fact(at, weight));
  const byCrop = cases(
    [
      [unit.is('kg'), kilos],
      [unit.is('lb'), kilos.over(LB)],
      [unit.is('bunch'), counted('bunch_weight')],
    ],
    counted('piece_weight'),
  );
  return when(at('own_yield').isFilled, at('own_yield'), blankWithout([kilos, unit], byCrop));
}

/** Beds are too few below this share of what is needed, and more than needed above that one. */
const TOO_FEW = 0.9;
const TOO_MANY = 1.3;

function bedStatus(at: AtMarket): Formula {
  const needed = call('SUMIF', named('Sowing_line'), at('line'), named('Sowing_needed'));
  return codeOf(
    'Sowing_status',
    [
      [at('gives').isBlank, 'no yield'],
      [at('next').isBlank, ''],
      [at('there').below(part(TOO_FEW).times(needed)), 'few'],
      [at('there').above(part(TOO_MANY).times(needed)), 'many'],
    ],
    'fit',
  );
}

/** Whether the month of the first cut suits the crop. */
function seasonStatus(at: AtMarket): Formula {
  const mean = nth('Month_air', call('MONTH', at('cut')));
  return codeOf(
    'Sowing_season',
    [
      [any(at('gives').isBlank, at('next').isBlank, mean.isBlank), ''],
      [mean.above(warmestAir(at('line'))), 'warm'],
      [mean.below(coldestAir(at('line'))), 'cold'],
    ],
    '',
  );
}

type SowingColumns = Columns<MarketEntry, 'Sowing'>;

/** What is sold, in which pieces, and what it brings. */
const saleColumns = {
  crop: {
    head: 'Crop',
    width: 15,
    look: 'input',
    field: 'crop',
    rule: {
      rule: { kind: 'list', name: 'Crop_name' },
      message: 'Choose a crop of the Crops sheet.',
    },
  },
  sold_as: {
    head: 'Sold by',
    width: 8,
    look: 'input',
    field: 'unit',
    rule: {
      rule: { kind: 'words', words: marketUnits },
      message: 'Choose piece, bunch, kg or lb.',
    },
  },
  wanted: {
    head: 'Wanted a week',
    width: 9,
    look: 'input',
    field: 'perWeek',
    rule: { rule: { kind: 'number', min: 0 }, message: 'Type how many you sell a week.' },
  },
  price: {
    head: 'Price',
    width: 8,
    look: 'input',
    format: 'money',
    field: 'price',
    rule: {
      rule: { kind: 'number', min: 0 },
      message: 'Type the price of one piece, bunch or kg.',
    },
  },
} satisfies Partial<SowingColumns>;

/** Figures of the farm's own, in place of the table's. */
const ownFigureColumns = {
  own_yield: {
    head: 'One plant gives',
    width: 9,
    look: 'input',
    field: 'perPlant',
    note: 'Pieces, bunches, kg or lb that one plant gives in its whole life. Left blank: by the yield and the weights on the Crops sheet.',
    rule: {
      rule: { kind: 'number', min: 0 },
      message: 'Type pieces, bunches or kg of one plant, or leave it blank.',
    },
  },
  every: {
    head: 'Sow every, days',
    width: 9,
    look: 'input',
    field: 'every',
    rule: {
      rule: { kind: 'whole', min: 1, max: 364 },
      message: 'Type days between sowings, 1 to 364.',
    },
  },
  harvest: {
    head: 'First harvest',
    width: 11,
    look: 'input',
    format: 'date',
    field: 'firstHarvest',
    rule: { rule: { kind: 'date' }, message: 'Type the date of the first harvest.' },
  },
  own_germination: {
    head: 'Own germination',
    width: 14,
    look: 'input',
    quantity: 'share',
    field: 'germination',
    note: 'Share of the seeds that come up in your own trays. Left blank: the Crops sheet.',
    rule: {
      rule: { kind: 'number', min: 0.01, max: 1 },
      message: 'Type a share such as 80 %, or leave it blank.',
    },
  },
  own_losses: {
    head: 'Own losses after that',
    width: 10,
    look: 'input',
    quantity: 'share',
    field: 'losses',
    note: 'Share of the seedlings that never reach the market. Left blank: the figure above.',
    rule: {
      rule: { kind: 'number', min: 0, max: 0.9 },
      message: 'Type a share from 0 % to 90 %, or leave it blank.',
    },
  },
} satisfies Partial<SowingColumns>;

/** How much of it is sown at a time. */
const batchSizeColumns = ({ gill }: PlanContext) =>
  ({
    cells: {
      head: 'Cells in a tray',
      width: 8,
      look: 'input',
      field: 'cells',
      rule: {
        rule: { kind: 'whole', min: 1, max: 2000 },
        message: 'Type the cells of one tray, or leave it blank.',
      },
    },
    gives: {
      head: 'Yield of a plant, as used',
      width: 10,
      look: 'computed',
      format: 'two',
      formula: yieldOfPlant,
    },
    plants: {
      head: 'Plants a batch',
      width: 9,
      look: 'computed',
      quantity: 'plants',
      formula: (at) =>
        blankIf(
          any(at('wanted').isBlank, at('every').isBlank, at('gives').orZero.atMost(0)),
          roundedUp(at('wanted').over(at('gives')).times(at('every')).over(7)),
        ),
    },
    seeds: {
      head: 'Seeds a batch',
      width: 9,
      look: 'result',
      format: 'whole',
      formula: (at) =>
        blankWithout(
          [at('plants')],
          gill(
            'SEED.COUNT',
            at('plants'),
            when(at('own_germination').isBlank, fact(at, 'germination'), at('own_germination')),
            when(at('own_losses').isBlank, named('Sowing_losses'), at('own_losses')),
          ),
        ),
    },
    trays: {
      head: 'Trays a batch',
      width: 8,
      look: 'computed',
      format: 'whole',
      formula: (at) =>
        blankWithout([at('seeds'), at('cells')], gill('SEED.TRAYS', at('seeds'), at('cells'))),
    },
  }) satisfies Partial<SowingColumns>;

/** When it is sown, planted and cut. */
const dateColumns = ({ gill }: PlanContext) =>
  ({
    first: {
      head: 'First sowing',
      width: 11,
      look: 'computed',
      format: 'date',
      formula: (at) =>
        blankWithout([at('harvest')], gill('SOW.DATE', at('harvest'), daysToFirstCut(at('line')))),
    },
    next: {
      head: 'Next sowing',
      width: 11,
      look: 'result',
      format: 'date',
      note: 'From Monday of the week of the plan on.',
      formula: (at) => {
        const first = at('first');
        const late = named('Farm_week').minus(first).over(at('every'));
        const skipped = call('MAX', 0, call('ROUNDUP', late, 0));
        return blankWithout([first, at('every')], first.plus(skipped.times(at('every'))));
      },
    },
    week: {
      head: 'ISO week',
      width: 7,
      look: 'computed',
      format: 'whole',
      formula: (at) => blankWithout([at('next')], call('ISOWEEKNUM', at('next'))),
    },
    out: {
      head: 'Plant out',
      width: 11,
      look: 'computed',
      format: 'date',
      formula: (at) =>
        blankIf(
          any(at('next').isBlank, fact(at, 'start').is('in place')),
          at('next').plus(daysToPlanting(at('line'))),
        ),
    },
    cut: {
      head: 'First cut',
      width: 11,
      look: 'computed',
      format: 'date',
      formula: (at) => blankWithout([at('next')], at('next').plus(daysToFirstCut(at('line')))),
    },
  }) satisfies Partial<SowingColumns>;

/** The beds that it needs and has. */
const bedAreaColumns = ({ gill }: PlanContext) =>
  ({
    needed: {
      head: 'Beds needed',
      width: 9,
      look: 'result',
      quantity: 'area',
      note: 'Bed area for a steady weekly cut of what is wanted, all batches together.',
      formula: (at) =>
        blankIf(
          any(at('wanted').isBlank, at('gives').orZero.atMost(0)),
          gill('BED.AREA', at('wanted').over(at('gives')), at('weeks'), fact(at, 'plants_per_m2')),
        ),
      total: sum,
    },
    there: {
      head: 'Beds with this crop',
      width: 10,
      look: 'computed',
      quantity: 'area',
      formula: (at) => call('SUMIF', named('Beds_line'), at('line'), named('Beds_area')),
    },
    verdict: {
      head: 'Verdict',
      width: 34,
      look: 'verdict',
      formula: (at) =>
        joined(
          wordsOf('Sowing_season', at('season'), {
            warm: 'too warm when cut; ',
            cold: 'too cold when cut; ',
            '': '',
          }),
          wordsOf('Sowing_status', at('status'), {
            'no yield': 'say what one plant gives',
            few: 'beds too few',
            many: 'more beds than needed',
            fit: 'beds fit',
            '': '',
          }),
        ),
    },
  }) satisfies Partial<SowingColumns>;

/** What other columns and sheets look up. */
const workingColumns = (ctx: PlanContext) =>
  ({
    price_counts: {
      helper: true,
      head: 'Price that counts',
      width: 8,
      look: 'source',
      format: 'money',
      formula: (at) =>
        priceThatCounts(ctx.farm, { crop: at('crop'), price: at('price'), place: at.place }),
    },
    weeks: {
      helper: true,
      head: 'Weeks in bed',
      width: 8,
      look: 'source',
      format: 'two',
      formula: (at) => weeksInBed(at('line')),
    },
    months: {
      helper: true,
      head: 'Months in which it grows',
      width: 8,
      look: 'source',
      formula: (at) =>
        blankIf(
          any(at('line').isBlank, call('COUNT', named('Month_air')).below(12)),
          monthsGrown(at('line'), named('Month_air')),
        ),
    },
    line: {
      helper: true,
      head: 'Line in Crops',
      width: 8,
      look: 'source',
      formula: (at) => lineOf('Crop', at('crop')),
    },
    status: { helper: true, head: 'Beds', width: 8, look: 'source', formula: bedStatus },
    season: { helper: true, head: 'Season', width: 8, look: 'source', formula: seasonStatus },
  }) satisfies Partial<SowingColumns>;

export function sowingSheet(ctx: PlanContext): SheetModel {
  const columns: SowingColumns = {
    ...saleColumns,
    ...ownFigureColumns,
    ...batchSizeColumns(ctx),
    ...dateColumns(ctx),
    ...bedAreaColumns(ctx),
    ...workingColumns(ctx),
  };
  const sheet = registerSheet(
    SHEET,
    'What must be sown, when and how much, so that the market gets its weekly share?',
  );
  sheet.text(2, 0, 'Usual losses', 'label');
  const usualLosses = presetValue('Sowing_losses', ctx.farm.figures);
  sheet.put(2, 2, {
    ...(usualLosses !== undefined && { value: usualLosses }),
    look: 'preset',
    format: 'percent',
    note: 'Seedlings that never reach the market. Common practice, no source: put your own figure here.',
  });
  ctx.name('Sowing_losses', SHEET, area(2, 2));
  ctx.typed.push(typedPreset('Sowing_losses', 'Usual losses'));
  const losses = between('share', ctx, 0, 0.9);
  sheet.rule(area(2, 2), losses.rule, losses.message);
  const made = register(sheet, ctx, {
    prefix: 'Sowing',
    headRow: HEAD_ROW,
    columns,
    list: 'markets',
    spare: 6,
  });
  const [beds, season] = [made.first('status'), made.first('season')];
  sheet.mark(
    made.cells('verdict'),
    all(
      beds.isFilled,
      not(all(hasCode('Sowing_status', beds, 'fit'), hasCode('Sowing_season', season, ''))),
    ),
    'watch',
  );
  return sheet.model();
}
