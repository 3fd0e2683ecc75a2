import { lookupRow } from '../../functions/lookup';
import type { PlanContext } from '../context';
import { cropFigure, daysToFirstCut, daysToPlanting } from '../crop-figures';
import { bedKinds, type BedEntry } from '../farm';
import type { SheetModel } from '../model';
import { type Register, register, type RegisterColumn } from '../register';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Beds';

export interface BedsSheet {
  readonly sheet: SheetModel;
  readonly register: Register;
}

/** First cut: from the planting where it is known, otherwise from the sowing. */
const firstCut = (at: (id: string) => string): string =>
  `IF(${at('planted')}<>"",${at('planted')}+${cropFigure('bed_days', at('line'))},IF(${at('sown')}<>"",${at('sown')}+${daysToFirstCut(at('line'))},""))`;

const state = (at: (id: string) => string): string =>
  `IF(${at('crop')}="","empty",IF(${at('first_cut')}="","no dates yet",IF(Farm_date>=${at('clear')},"clear now",IF(Farm_date>=${at('first_cut')},"cutting",IF(${at('out')}>Farm_date,"in the nursery",IF(${at('planted')}="","plant out now","growing"))))))`;

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
      head: 'Plants on the area',
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
      id: 'feed',
      head: 'Feed wanted',
      width: 10,
      look: 'computed',
      quantity: 'feedDay',
      note: 'Fish feed whose nutrients the planted bed can use; beds without plants in them want none.',
      formula: (at) =>
        `IF(OR(${at('crop')}="",${at('area')}="",${at('out')}="",${at('out')}>Farm_date),"",${gill('FEED.WANTED', at('area'), `INDEX(Crop_feed_ratio,${at('line')})`)})`,
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'line',
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
    headRow: 4,
    columns,
    entries: ctx.farm.beds,
    spare: 10,
  });
  const states = area(made.firstRow, made.column('state'), made.rows);
  const cell = `$${String.fromCharCode(65 + made.column('state'))}${made.firstRow + 1}`;
  sheet.mark(states, `OR(${cell}="clear now",${cell}="plant out now")`, 'watch');
  sheet.mark(states, `${cell}="cutting"`, 'good');
  return { sheet: sheet.model(), register: made };
}
