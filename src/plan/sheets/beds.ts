import { lookupRow } from '../../functions/lookup';
import { rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import { cropFigure, daysToFirstCut, daysToPlanting, weeksInBed } from '../crop-figures';
import { bedKinds, type BedEntry } from '../farm';
import type { SheetModel } from '../model';
import { type Register, register, type RegisterColumn } from '../register';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Beds';
const FIRST_ROW = 5;

export interface BedsSheet {
  readonly sheet: SheetModel;
  readonly register: Register;
}

/** First cut: from the planting where it is known, otherwise from the sowing. */
const firstCut = (at: (id: string) => string): string =>
  `IF(${at('planted')}<>"",${at('planted')}+${cropFigure('bed_days', at('line'))},IF(${at('sown')}<>"",${at('sown')}+${daysToFirstCut(at('line'))},""))`;

const inPlace = (at: (id: string) => string): string =>
  `${cropFigure('start', at('line'))}="in place"`;

const state = (at: (id: string) => string): string =>
  `IF(${at('crop')}="","empty",IF(${at('first_cut')}="","no dates yet",IF(Farm_date>=${at('clear')},"clear now",IF(Farm_date>=${at('first_cut')},"cutting",IF(${at('out')}>Farm_date,"in the nursery",IF(AND(${at('planted')}="",NOT(${inPlace(at)})),"plant out now","growing"))))))`;

/** What the bed asks for by the Sunday of the as-of week. */
const task = (at: (id: string) => string): string =>
  `IF(${at('first_cut')}="","",IF(${at('clear')}<=Farm_week+6,"clear",IF(${at('first_cut')}<=Farm_week+6,"cut",IF(AND(${at('planted')}="",NOT(${inPlace(at)}),${at('out')}<=Farm_week+6),"plant out",""))))`;

export function bedsSheet(ctx: PlanContext): BedsSheet {
  const { gill } = ctx;
  const positive = (message: string): RegisterColumn<BedEntry>['rule'] => ({
    rule: { kind: 'number', min: 0 },
    message,
  });
  const date: RegisterColumn<BedEntry>['rule'] = {
    rule: { kind: 'date' },
    message: 'Type a date, or leave it blank.',
  };
  const columns: readonly RegisterColumn<BedEntry>[] = [
    { id: 'name', head: 'Bed', width: 10, look: 'input', value: (bed) => bed.name },
    {
      id: 'kind',
      head: 'Kind',
      width: 8,
      look: 'input',
      value: (bed) => bed.kind,
      rule: { rule: { kind: 'words', words: bedKinds }, message: 'Choose raft or gravel.' },
    },
    {
      id: 'length',
      head: 'Length',
      width: 8,
      look: 'input',
      quantity: 'length',
      value: (bed) => bed.length,
      rule: positive('Type the length of the bed.'),
    },
    {
      id: 'width',
      head: 'Width',
      width: 8,
      look: 'input',
      quantity: 'length',
      value: (bed) => bed.width,
      rule: positive('Type the width of the bed.'),
    },
    {
      id: 'crop',
      head: 'Crop',
      width: 16,
      look: 'input',
      value: (bed) => bed.crop,
      rule: {
        rule: { kind: 'list', name: 'Crop_name' },
        message: 'Choose a crop of the Crops sheet.',
      },
    },
    {
      id: 'plants',
      head: 'Plants',
      width: 8,
      look: 'input',
      quantity: 'plants',
      value: (bed) => bed.plants,
      rule: { rule: { kind: 'whole', min: 0 }, message: 'Type a whole number of plants.' },
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'sown',
      head: 'Sown on',
      width: 11,
      look: 'input',
      format: 'date',
      value: (bed) => bed.sown,
      rule: date,
    },
    {
      id: 'planted',
      head: 'Planted on',
      width: 11,
      look: 'input',
      format: 'date',
      value: (bed) => bed.planted,
      rule: date,
    },
    {
      id: 'area',
      head: 'Area',
      width: 9,
      look: 'computed',
      quantity: 'area',
      formula: (at) =>
        `IF(OR(${at('length')}="",${at('width')}=""),"",${at('length')}*${at('width')})`,
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'spacing',
      head: 'Planting density',
      width: 10,
      look: 'computed',
      quantity: 'plantsPerArea',
      formula: (at) =>
        `IF(OR(${at('plants')}="",${at('area')}=""),"",${at('plants')}/${at('area')})`,
    },
    {
      id: 'out',
      head: 'Plant out',
      width: 11,
      look: 'computed',
      format: 'date',
      formula: (at) =>
        `IF(${at('planted')}<>"",${at('planted')},IF(OR(${at('crop')}="",${at('sown')}=""),"",${at('sown')}+${daysToPlanting(at('line'))}))`,
    },
    {
      id: 'first_cut',
      head: 'First cut',
      width: 11,
      look: 'result',
      format: 'date',
      formula: (at) => `IF(${at('crop')}="","",${firstCut(at)})`,
    },
    {
      id: 'clear',
      head: 'Clear',
      width: 11,
      look: 'computed',
      format: 'date',
      formula: (at) =>
        `IF(${at('first_cut')}="","",${at('first_cut')}+INDEX(Crop_harvest_days,${at('line')}))`,
    },
    { id: 'state', head: 'State', width: 15, look: 'verdict', formula: state },
    {
      id: 'feed_full',
      head: 'Feed it can use when planted',
      width: 11,
      look: 'computed',
      quantity: 'feedDay',
      note: 'Fish feed a day whose nutrients the bed can use when the crop stands in it.',
      formula: (at) =>
        `IF(OR(${at('crop')}="",${at('area')}=""),"",${gill('FEED.WANTED', at('area'), cropFigure('feed_ratio', at('line')))})`,
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'feed',
      head: 'Feed it uses now',
      width: 10,
      look: 'result',
      quantity: 'feedDay',
      note: 'Only beds with plants in them count.',
      formula: (at) =>
        `IF(${at('feed_full')}="","",IF(OR(AND(${at('planted')}<>"",${at('planted')}<=Farm_date),AND(${at('sown')}<>"",${at('sown')}<=Farm_date,${inPlace(at)})),${at('feed_full')},0))`,
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'income',
      head: 'Income',
      width: 10,
      look: 'result',
      quantity: 'moneyPerArea',
      note: 'For each week that the crop keeps its place, with the yield and price of the Sowing sheet. Blank for crops that are not on it.',
      formula: (at) => {
        const market = `MATCH(${at('line')},Sowing_line,0)`;
        return `IF(OR(${at('crop')}="",${at('plants')}="",${at('area')}=""),"",IF(COUNTIF(Sowing_line,${at('line')})=0,"",IF(N(INDEX(Sowing_gives,${market}))<=0,"",${gill(
          'MONEY.BEDWEEK',
          at('plants'),
          `INDEX(Sowing_gives,${market})`,
          `N(INDEX(Sowing_price,${market}))`,
          weeksInBed(at('line')),
          at('area'),
        )})))`;
      },
    },
    { id: 'task', head: 'This week', width: 11, look: 'verdict', formula: task },
    {
      id: 'task_key',
      helper: true,
      head: 'Task number',
      width: 12,
      look: 'source',
      formula: (at) =>
        `IF(${at('task')}="","",${at('task')}&" "&COUNTIF(${at('task').replace(/\d+$/, `$${FIRST_ROW + 1}`)}:${at('task')},${at('task')}))`,
    },
    {
      id: 'line',
      helper: true,
      head: 'Line in Crops',
      width: 8,
      look: 'source',
      formula: (at) => `IF(${at('crop')}="","",${lookupRow('Crop', at('crop'))})`,
    },
  ];
  const sheet = new SheetBuilder(SHEET, {
    title: 'Beds',
    question: 'What grows where, when is it cut, and when is the place free?',
    widths: [],
    landscape: true,
    headRows: 5,
    headColumns: 1,
  });
  sheet.text(3, 0, 'Whole farm', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Beds',
    headRow: FIRST_ROW - 1,
    columns,
    entries: ctx.farm.beds,
    spare: 10,
    cautions: ['weight', 'sprays'],
  });
  const states = area(made.firstRow, made.column('state'), made.rows);
  const cell = rowAddress(made.firstRow, made.column('state'));
  sheet.mark(states, `OR(${cell}="clear now",${cell}="plant out now")`, 'watch');
  sheet.mark(states, `${cell}="cutting"`, 'good');
  return { sheet: sheet.model(), register: made };
}
