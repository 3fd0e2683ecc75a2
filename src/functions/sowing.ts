import { type Batch, sowingDate, sowingOffset, sowingSeries, stageDate } from '../core/sowing';
import { MAX_SERIAL, MIN_SERIAL } from '../core/serial-date';
import type { Crop } from '../core/tables/crops';
import { card, spillCard, type SpillCard, type ValueCard } from './card';
import { cropOrDays, MOST_DAYS, stage, stageOrFirstCut, stageWords } from './crop-parameters';
import { cropFigures, faoAppendix, sowingArithmetic } from './crop-sources';
import { cropTable, plainCropFact, plainDayOfStage } from './crop-table';
import { date, nameOrNumber, number } from './parameter';
import { PLAIN_NO_ANSWER, quoted, numberOrFigure } from './plain';
import { plainByWord } from './plain-words';

const sources = [cropFigures, faoAppendix, sowingArithmetic];
const method =
  'The usual days of the crop table: to emergence, to transplanting, from transplanting to the first cut, from the first cut to clearing. A crop that is cut once is taken within its harvest days, one that grows again is cut over them; at clear the whole batch is gone. A number in place of the crop is the days themselves.';
const validity =
  'Usual days in a well-run house at its best temperatures; cold or dark weeks take longer. Beans and radish are sown in place and have no transplant; strawberry plugs and mint cuttings do not emerge, and their sowing is the potting up.';
const caution =
  'Go by your own records where you have them: give the days as a number. FACT.CROP shows which days are published and which are usual practice.';

const wrongStage = `VALUE(${quoted('stage must be one of emerge, transplant, first cut, clear')})`;

/** Days from sowing to a stage. */
const plainOffset = (crop: string, stageText: string): string =>
  numberOrFigure(
    crop,
    plainByWord(stageText, stageWords, (one) => plainDayOfStage(one, crop), wrongStage),
  );

const offset = card({
  id: 'SOW.OFFSET',
  subject: 'Sowing and seed',
  summary: 'Days from sowing to a stage of the crop',
  searchWords: ['days to harvest', 'maturity', 'nursery', 'propagation', 'days to maturity'],
  parameters: [cropOrDays, stage],
  result: { kind: 'number', unit: 'day', meaning: 'days from sowing' },
  method,
  formula: 'offset = emerge + nursery + bed + harvest',
  symbols: {
    emerge: 'days from sowing to emergence',
    nursery: 'days from emergence to transplanting',
    bed: 'days from transplanting to the first cut',
    harvest:
      'days from the first cut to clearing: each part counts as far as the stage has it behind it',
  },
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
  plain: (a) => plainOffset(a.crop, a.stage),
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
  formula: 'sown = date - offset',
  symbols: { offset: 'days of SOW.OFFSET' },
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
  plain: (a) => {
    const day = `INT(${a.date})-${plainOffset(a.crop, a.stage)}`;
    return `IF(${day}>=${MIN_SERIAL},${day},${PLAIN_NO_ANSWER})`;
  },
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
  formula: 'reached = sown + offset',
  symbols: { offset: 'days of SOW.OFFSET' },
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
      result: 46185,
      says: 'and the batch is cut by 12 June',
    },
  ],
  seeAlso: ['SOW.DATE', 'SOW.SERIES'],
  compute: stageDate,
  plain: (a) => {
    const day = `INT(${a.sown})+${plainOffset(a.crop, a.stage)}`;
    return `IF(${day}<=${MAX_SERIAL},${day},${PLAIN_NO_ANSWER})`;
  },
});

const MOST_BATCHES = 1000;
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

/** "2026-W53" of a date. */
function plainIsoWeek(day: string): string {
  const thursday = `(${day}-WEEKDAY(${day},2)+4)`;
  const week = `INT((${thursday}-DATE(YEAR(${thursday}),1,1))/7)+1`;
  return `YEAR(${thursday})&"-W"&TEXT(${week},"00")`;
}

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
  parameters: [
    date('first', 'date of the first sowing'),
    number('every', 'days from one sowing to the next', {
      unit: 'day',
      min: 1,
      max: MOST_DAYS,
      whole: true,
    }),
    number('batches', 'number of sowings', { min: 1, max: MOST_BATCHES, whole: true }),
    nameOrNumber('crop', 'crop, or the days from sowing to the first cut', cropTable.book, {
      unit: 'day',
      min: 1,
      max: MOST_DAYS,
      whole: true,
      of: (crop): Crop => crop,
    }),
  ],
  columns: [
    { name: 'batch', unit: '', kind: 'number' },
    { name: 'sow', unit: '', kind: 'date' },
    { name: 'transplant', unit: '', kind: 'date' },
    { name: 'first cut', unit: '', kind: 'date' },
    { name: 'clear', unit: '', kind: 'date' },
    { name: 'week of sowing', unit: '', kind: 'text' },
  ],
  method: `Each batch is sown a fixed number of days after the one before; its stages are those of SOW.STAGE. The week is that of ISO 8601 (Monday first, week 1 holds 4 January) with its year, as text such as 2026-W53: a bare number would mix the first days of January with the weeks of the year before, and the text sorts by time. ${method}`,
  formula: 'S_k = first + (k - 1) * every; reached = S_k + offset',
  symbols: {
    k: 'number of the batch',
    S_k: 'day on which it is sown',
    offset: 'days of SOW.OFFSET',
  },
  sources: [
    ...sources,
    {
      author: 'ISO',
      year: 2019,
      title: 'ISO 8601-1 Date and time',
      where: 'week dates: week 1 holds the first Thursday of the year',
      standing: 'definition',
    },
  ],
  validity: `${validity} For a crop sown in place the transplant column says so; where days are given instead of a crop, transplant and clear stay empty.`,
  caution,
  examples: [
    {
      args: ['2026-12-21', 14, 3, 'lettuce'],
      result: [
        [1, 46377, 46398, 46428, 46435, '2026-W52'],
        [2, 46391, 46412, 46442, 46449, '2027-W01'],
        [3, 46405, 46426, 46456, 46463, '2027-W03'],
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
    const sown = (batch: string): string => `(INT(${a.first})+${batch}*${a.every})`;
    const day = sown(String(row));
    const toCut = numberOrFigure(a.crop, plainDayOfStage('first cut', a.crop));
    const toClear = plainDayOfStage('clear', a.crop);
    const inPlace = `${plainCropFact('start', a.crop)}="in place"`;
    const toBed = plainCropFact('transplant_days', a.crop);
    const transplant = `IF(${inPlace},${quoted(SOWN_IN_PLACE)},${day}+${toBed})`;
    const cells = [
      String(row + 1),
      day,
      numberOrFigure(a.crop, transplant, '""'),
      `${day}+${toCut}`,
      numberOrFigure(a.crop, `${day}+${toClear}`, '""'),
      plainIsoWeek(day),
    ];
    const last = `${sown(`(${a.batches}-1)`)}+${numberOrFigure(a.crop, toClear)}`;
    return `IF(${last}>${MAX_SERIAL},${PLAIN_NO_ANSWER},IF(${row}<${a.batches},${cells[column]},""))`;
  },
});

export const sowingCards: readonly (ValueCard | SpillCard)[] = [offset, sowOn, stageOn, series];
