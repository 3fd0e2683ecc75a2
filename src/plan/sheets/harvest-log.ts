import { lookupRow } from '../../functions/lookup';
import type { PlanContext } from '../context';
import { type HarvestEntry, marketUnits } from '../farm';
import type { SheetModel } from '../model';
import { type Register, register, type RegisterColumn } from '../register';
import { SheetBuilder } from '../sheet-builder';

const SHEET = 'Harvest log';

export interface HarvestLogSheet {
  readonly sheet: SheetModel;
  readonly register: Register;
}

/** What was cut and sold. Income by month is on Money. */
export function harvestLogSheet(ctx: PlanContext): HarvestLogSheet {
  const columns: readonly RegisterColumn<HarvestEntry>[] = [
    {
      id: 'date',
      head: 'Date',
      width: 12,
      look: 'input',
      format: 'date',
      value: (entry) => entry.date,
      rule: { rule: { kind: 'date' }, message: 'Type the day of the harvest.' },
    },
    {
      id: 'what',
      head: 'Crop or fish',
      width: 20,
      look: 'input',
      value: (entry) => entry.crop,
      note: 'The name as it stands on Crops or Species; another spelling counts as a crop.',
    },
    { id: 'bed', head: 'Bed or tank', width: 14, look: 'input', value: (entry) => entry.bed },
    {
      id: 'quantity',
      head: 'How many',
      width: 11,
      look: 'input',
      value: (entry) => entry.quantity,
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type how many, or how much.' },
    },
    {
      id: 'unit',
      head: 'Sold by',
      width: 10,
      look: 'input',
      value: (entry) => entry.unit,
      rule: {
        rule: { kind: 'words', words: marketUnits },
        message: 'Choose piece, bunch, kg or lb.',
      },
    },
    {
      id: 'price',
      head: 'Price of one',
      width: 10,
      look: 'input',
      format: 'money',
      value: (entry) => entry.price,
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type the price of one, kg or lb.' },
    },
    {
      id: 'income',
      head: 'Income',
      width: 12,
      look: 'result',
      format: 'money',
      formula: (at) =>
        `IF(OR(${at('quantity')}="",${at('price')}=""),"",${at('quantity')}*${at('price')})`,
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'kind',
      head: 'Fish or crop',
      width: 10,
      look: 'computed',
      formula: (at) =>
        `IF(${at('what')}="","",IF(ISNUMBER(${lookupRow('Fish', at('what'))}),"fish","crop"))`,
    },
    {
      id: 'month',
      helper: true,
      head: 'Month',
      width: 9,
      look: 'source',
      note: 'Year and month as one number, by which Money adds up.',
      formula: (at) =>
        `IF(ISNUMBER(${at('date')}),YEAR(${at('date')})*100+MONTH(${at('date')}),"")`,
    },
  ];
  const sheet = new SheetBuilder(SHEET, {
    title: 'Harvest log',
    question: 'What was cut and sold, and what did it bring?',
    widths: [],
    headRows: 5,
    headColumns: 1,
  });
  sheet.text(3, 0, 'All of it', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Harvest',
    headRow: 4,
    columns,
    entries: ctx.farm.harvests,
    spare: 40,
    cautions: ['food'],
  });
  return { sheet: sheet.model(), register: made };
}
