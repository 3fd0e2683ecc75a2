import { type Batch, sowingDate, sowingOffset, sowingSeries, stageDate } from '../core/sowing';
import { MAX_SERIAL, MIN_SERIAL } from '../core/serial-date';
import type { Crop } from '../core/tables/crops';
import { card, spillCard, type SpillCard, type ValueCard } from './card';
import { cropOrDays, MAX_DAYS, stage, stageOrFirstCut } from './crop-parameters';
import { cropFigures, faoAppendix, sowingArithmetic } from './crop-sources';
import { cropTable } from './crop-table';
import { formulaText } from './formula-text';
import { date, nameOrNumber, number } from './parameter';

const sources = [cropFigures, faoAppendix, sowingArithmetic];
const method =
  'The usual days of the crop table: to emergence, to transplanting, from transplanting to the first cut, from the first cut over the harvest days to the last of a crop that grows again. A crop that is cut once is cleared with its first cut: heads are cut within a few days and the raft goes back. At clear the place is free, as BED.PLANTS and BED.AREA have it. A number in place of the crop is the days themselves.';
const validity =
  'Usual days in a well-run house at its best temperatures; cold or dark weeks take longer. Beans and radish are sown in place and have no transplant; strawberry plugs and mint cuttings do not emerge, and their sowing is the potting up.';
const caution =
  'Go by your own records where you have them: give the days as a number. FACT.CROP shows which days are published and which are usual practice.';

/** Days from sowing to each stage of a crop; see dayOfStage in the core. */
const dayOfStage = {
  to_emergence:
    'IF(OR(crop.start = "plugs", crop.start = "cuttings"), NO_ANSWER(), crop.emerge_days)',
  to_bed: 'IF(crop.start = "in place", NO_ANSWER(), crop.transplant_days)',
  to_first_cut: 'crop.transplant_days + crop.bed_days',
  to_clearing: 'to_first_cut + picking',
  picking: 'IF(crop.cut = "again", crop.harvest_days, 0)',
} as const;

/** Days from sowing to the stage that is asked for. */
const days = {
  offset: 'IF(ISNUMBER(crop), crop, by_stage)',
  by_stage:
    'SWITCH(stage, "emerge", to_emergence, "transplant", to_bed, "first cut", to_first_cut, "clear", to_clearing)',
  ...dayOfStage,
} as const;

export const sowOffsetCard = card({
  id: 'SOW.OFFSET',
  subject: 'Sowing and seed',
  summary: 'Days from sowing to a stage of the crop',
  searchWords: ['days to harvest', 'maturity', 'nursery', 'propagation', 'days to maturity'],
  parameters: [cropOrDays, stage],
  result: { kind: 'number', unit: 'day', meaning: 'days from sowing' },
  method,
  formula: days,
  sources,
  validity,
  caution,
  examples: [
    {
      args: ['lettuce', 'transplant'],
      result: 21,
      says: 'Lettuce goes to the beds three weeks after sowing (FAO Technical Paper 589)',
    },
    {
      args: ['lettuce', 'first cut'],
      result: 51,
      says: 'and is cut from day 51: 21 in the nursery and 30 in the bed',
    },
    {
      args: ['zucchini', 'harvest'],
      result: 60,
      says: 'American names and trade words do as well',
    },
  ],
  seeAlso: ['SOW.DATE', 'SOW.STAGE', 'FACT.CROP'],
  compute: sowingOffset,
});

const sowOn = card({
  id: 'SOW.DATE',
  subject: 'Sowing and seed',
  summary: 'Sowing date that brings a stage of the crop to a wanted date',
  searchWords: [
    'when to sow',
    'count back',
    'market day',
    'plan backwards',
    'when to plant',
    'planting date',
    'sowing date',
  ],
  parameters: [date('date', 'wanted date of the stage'), cropOrDays, stageOrFirstCut],
  result: { kind: 'date', unit: '', meaning: 'date of sowing' },
  method: `The date less the days of SOW.OFFSET, as a sheet date. ${method}`,
  formula: {
    sown: `IF(sowing < ${MIN_SERIAL}, NO_ANSWER(), sowing)`,
    sowing: 'INT(date) - offset',
    ...days,
  },
  sources,
  validity,
  caution,
  examples: [
    {
      args: ['2026-06-05', 'lettuce'],
      result: 46127,
      says: 'Lettuce for 5 June 2026 is sown on 15 April (5 + 16 + 30 days)',
    },
    {
      args: ['2024-03-10', 95],
      result: 45266,
      says: '95 days back from 10 March 2024, over 29 February: 6 December 2023',
    },
    {
      args: ['2026-04-01', 'tomato', 'transplant'],
      result: 46071,
      says: 'Tomatoes to plant on 1 April 2026 are sown six weeks before, on 18 February',
    },
  ],
  seeAlso: ['SOW.STAGE', 'SOW.SERIES', 'SEED.COUNT'],
  compute: sowingDate,
});

const stageOn = card({
  id: 'SOW.STAGE',
  subject: 'Sowing and seed',
  summary: 'Date on which a sown batch reaches a stage',
  searchWords: [
    'when to transplant',
    'harvest date',
    'bed free',
    'due',
    'when to plant',
    'transplant date',
    'planting out',
  ],
  parameters: [date('sown', 'date of sowing'), cropOrDays, stage],
  result: { kind: 'date', unit: '', meaning: 'date of the stage' },
  method: `The date of sowing and the days of SOW.OFFSET, as a sheet date. ${method}`,
  formula: {
    reached: `IF(day > ${MAX_SERIAL}, NO_ANSWER(), day)`,
    day: 'INT(sown) + offset',
    ...days,
  },
  sources,
  validity,
  caution,
  dangers: ['food'],
  examples: [
    {
      args: ['2026-04-15', 'lettuce', 'first cut'],
      result: 46178,
      says: 'Lettuce sown on 15 April 2026 is cut from 5 June',
    },
    {
      args: ['2026-04-15', 'lettuce', 'clear'],
      result: 46178,
      says: 'and its place is free with the cut',
    },
    {
      args: ['2026-04-15', 'kale', 'clear'],
      result: 46272,
      says: 'Kale sown on the same day is picked until 7 September',
    },
  ],
  seeAlso: ['SOW.DATE', 'SOW.SERIES'],
  compute: stageDate,
});

const MAX_BATCHES = 1000;
const SOWN_IN_PLACE = 'sown in place';

/** A number as the crop is the days to the first cut: nothing is known then of the other stages. */
const batchRow = (batch: Batch, crop: Crop | number): (number | string)[] => [
  batch.batch,
  batch.sown,
  batch.transplant ?? (typeof crop === 'number' ? '' : SOWN_IN_PLACE),
  batch.firstCut,
  batch.clear ?? '',
  batch.week,
];

/** The steps of its formula in the order of the columns. */
const seriesSteps = ['batch', 'sow', 'transplant', 'first_cut', 'clear', 'week'] as const;

const seriesParameters = [
  date('first', 'date of the first sowing'),
  number('every', 'days from one sowing to the next', {
    unit: 'day',
    min: 1,
    max: MAX_DAYS,
    whole: true,
  }),
  number('batches', 'number of sowings', { min: 1, max: MAX_BATCHES, whole: true }),
  nameOrNumber('crop', 'crop, or the days from sowing to the first cut', cropTable.book, {
    unit: 'day',
    min: 1,
    max: MAX_DAYS,
    whole: true,
    of: (crop): Crop => crop,
  }),
] as const;

const seriesFormula = {
  cell: `IF(last > ${MAX_SERIAL}, NO_ANSWER(), IF(k <= batches, figure, ""))`,
  last: 'INT(first) + (batches - 1) * every + IF(ISNUMBER(crop), crop, to_clearing)',
  batch: 'k',
  sow: 'INT(first) + (k - 1) * every',
  transplant: `IF(ISNUMBER(crop), "", IF(crop.start = "in place", "${SOWN_IN_PLACE}", sow + crop.transplant_days))`,
  first_cut: 'sow + IF(ISNUMBER(crop), crop, to_first_cut)',
  clear: 'IF(ISNUMBER(crop), "", sow + to_clearing)',
  week: 'YEAR(thursday) & "-W" & TEXT(INT((thursday - DATE(YEAR(thursday), 1, 1)) / 7) + 1, "00")',
  thursday: 'sow - WEEKDAY(sow, 2) + 4',
  to_first_cut: dayOfStage.to_first_cut,
  to_clearing: dayOfStage.to_clearing,
  picking: dayOfStage.picking,
} as const;

const series = spillCard({
  id: 'SOW.SERIES',
  subject: 'Sowing and seed',
  summary: 'Sowing plan of a crop in succession, a row for each batch',
  searchWords: [
    'succession',
    'sowing calendar',
    'batches',
    'every two weeks',
    'schedule',
    'succession planting',
    'staggered sowing',
  ],
  parameters: seriesParameters,
  columns: [
    { name: 'batch', unit: '', kind: 'number' },
    { name: 'sow', unit: '', kind: 'date' },
    { name: 'transplant', unit: '', kind: 'date' },
    { name: 'first cut', unit: '', kind: 'date' },
    { name: 'clear', unit: '', kind: 'date' },
    { name: 'week of sowing', unit: '', kind: 'text' },
  ],
  method: `Each batch is sown a fixed number of days after the one before; its stages are those of SOW.STAGE. The week is that of ISO 8601 (Monday first, week 1 holds 4 January) with its year, as text such as 2026-W53: a bare number would mix the first days of January with the weeks of the year before, and the text sorts by time. ${method}`,
  formula: seriesFormula,
  symbols: {
    k: 'number of the batch',
    figure: 'what stands in the column',
    last: 'the last day of the last batch',
  },
  sources: [
    ...sources,
    {
      author: 'ISO',
      year: 2019,
      title: 'ISO 8601-1 Date and time',
      where: 'week dates: week 1 holds the first Thursday of the year',
      evidence: 'definition',
    },
  ],
  validity: `${validity} For a crop sown in place the transplant column says so; where days are given instead of a crop, transplant and clear stay empty.`,
  caution,
  examples: [
    {
      args: ['2026-12-21', 14, 3, 'lettuce'],
      result: [
        [1, 46377, 46398, 46428, 46428, '2026-W52'],
        [2, 46391, 46412, 46442, 46442, '2027-W01'],
        [3, 46405, 46426, 46456, 46456, '2027-W03'],
      ],
      says: 'Salad every two weeks over the turn of the year 2026, which has 53 weeks',
    },
    {
      args: ['2026-12-28', 7, 2, 'beans'],
      result: [
        [1, 46384, 'sown in place', 46443, 46473, '2026-W53'],
        [2, 46391, 'sown in place', 46450, 46480, '2027-W01'],
      ],
      says: 'Beans are sown where they grow; week 53 comes before week 1',
    },
  ],
  seeAlso: ['SOW.DATE', 'SEED.COUNT', 'BED.AREA'],
  spill: (first, every, batches, crop) =>
    sowingSeries(first, every, batches, crop).map((batch) => batchRow(batch, crop)),
  plainCell: (a, row, column) => {
    const stated = { parameters: seriesParameters, formula: seriesFormula };
    const places = { arguments: a, steps: { k: String(row + 1) } };
    const figure = formulaText(stated, places, seriesSteps[column] ?? 'batch');
    return formulaText(stated, { ...places, steps: { ...places.steps, figure } }, 'cell');
  },
});

export const sowingCards: readonly (ValueCard | SpillCard)[] = [
  sowOffsetCard,
  sowOn,
  stageOn,
  series,
];
