import type { PlanContext } from '../context';
import { type Field, fields } from '../fields';
import type { LookId, SheetModel } from '../model';
import { area, SheetBuilder } from '../sheet-builder';
import { allCautions } from './sources';

const SHEET = 'Start';
const COLUMNS = 4;
/** Column of metric twins in US units. */
const TWINS = 8;

const keys: readonly (readonly [LookId, string])[] = [
  [
    'input',
    'You type it. Only these cells need your figures; what you do not know may stay blank.',
  ],
  ['preset', 'A published default or usual practice. Overwrite it where you know better.'],
  ['computed', 'Computed from the others.'],
  ['result', 'Computed, and what you came for.'],
];

const steps: readonly string[] = [
  'Once a week: change the day of the plan on Site, weigh a sample of fish and correct Tanks, then print Week.',
  'Sowing, Water log and Harvest log grow with you: type into the empty prepared rows, or copy the last row down.',
  'Crops and Species hold the figures that the plan works with: overwrite them with those of your own records.',
  'A rebuilt plan goes into new sheets. Nothing that you typed here is ever overwritten; copy over what you want to keep.',
];

/** Every other sheet, by the question it answers. */
export interface Listed {
  readonly name: string;
  readonly question: string;
}

function glance(): readonly Field[] {
  return [
    {
      label: 'Day of the plan, changed on Site',
      formula: 'Farm_date',
      look: 'computed',
      format: 'date',
    },
    {
      label: 'Biomass of the fish',
      formula: 'SUM(Tanks_biomass)',
      quantity: 'mass',
      look: 'result',
    },
    {
      label: 'Fish to sell, mean of the year ahead',
      formula: 'Stock_yield',
      quantity: 'massMonth',
      look: 'result',
    },
    { label: 'Feed a day', formula: 'SUM(Tanks_feed)', quantity: 'feedDay', look: 'result' },
    {
      label: 'Feed that the planted beds call for',
      formula: 'Balance_wanted',
      quantity: 'feedDay',
      look: 'computed',
    },
    { label: 'Bed area', formula: 'SUM(Beds_area)', quantity: 'area', look: 'result' },
    {
      label: 'Tanks over their limit',
      formula: 'COUNTIF(Tanks_verdict,"over*")',
      unit: 'tanks',
      format: 'whole',
      look: 'result',
    },
    {
      label: 'Tanks with a figure missing',
      formula: 'COUNTIF(Tanks_verdict,"type*")',
      unit: 'tanks',
      format: 'whole',
      look: 'computed',
    },
    {
      label: 'Crops with too few beds',
      formula: 'COUNTIF(Sowing_verdict,"*beds too few")',
      unit: 'crops',
      format: 'whole',
      look: 'result',
    },
    {
      label: 'Beds to clear or plant out',
      formula: 'COUNTIF(Beds_task,"clear")+COUNTIF(Beds_task,"plant out")',
      unit: 'beds',
      format: 'whole',
      look: 'computed',
    },
    {
      label: 'Water readings out of range',
      formula: 'COUNTIF(Doses_verdict,"too*")',
      unit: 'readings',
      format: 'whole',
      look: 'result',
    },
  ];
}

/** A sentence for none, for one and for many. */
const counted = (count: string, none: string, one: string, many: string): string =>
  `IF(${count}=0,"${none}",IF(${count}=1,"${one}",${count}&" ${many}"))`;

/** What each part of the farm says of itself: a name, or a formula. */
const verdicts: readonly (readonly [string, string])[] = [
  ['Feed and beds', 'Balance_verdict'],
  ['Filter', 'Filter_verdict'],
  ['Sump', 'Sump_verdict'],
  ['Fish', 'Stock_verdict'],
  [
    'Crops',
    counted(
      'COUNTIF(Sowing_verdict,"*beds too few")',
      'Each crop has the beds that its market asks for.',
      'One crop has too few beds: see the verdicts on Sowing.',
      'crops have too few beds: see the verdicts on Sowing.',
    ),
  ],
  [
    'Water',
    counted(
      'COUNTIF(Doses_verdict,"too*")',
      'No reading of the last tests is out of range.',
      'One reading of the last tests is out of range: see Doses.',
      'readings of the last tests are out of range: see Doses.',
    ),
  ],
  ['Money', 'Money_verdict'],
];

export function startSheet(ctx: PlanContext, others: readonly Listed[]): SheetModel {
  const { farm } = ctx;
  const sheet = new SheetBuilder(SHEET, {
    title: farm.name,
    question: 'How does the farm stand, and what is out of line?',
    widths: [38, 14, 14, 74],
    onePage: true,
    headRows: 2,
  });
  sheet.fold(COLUMNS);
  sheet.heading(3, 0, COLUMNS, 'The farm at a glance');
  let row = fields(sheet, ctx, 4, 0, glance(), TWINS);
  const counts = area(10, 1, 3);
  sheet.mark(counts, 'AND(ISNUMBER($B11),$B11>0)', 'bad');
  sheet.mark(area(14, 1), 'AND(ISNUMBER($B15),$B15>0)', 'bad');
  row += 1;
  sheet.heading(row, 0, COLUMNS, 'What to change');
  for (const [label, formula] of verdicts) {
    row += 1;
    sheet.text(row, 0, label, 'label');
    sheet.wide(row, 1, 3, { formula, look: 'verdict' });
  }
  row += 2;
  sheet.heading(row, 0, COLUMNS, 'How to use it');
  for (const step of steps) {
    row += 1;
    sheet.wide(row, 0, COLUMNS, { value: step, look: 'text' });
  }
  row += 2;
  sheet.heading(row, 0, COLUMNS, 'Kinds of cell');
  for (const [look, says] of keys) {
    row += 1;
    sheet.put(row, 1, { value: 123, look });
    sheet.wide(row, 2, 2, { value: says, look: 'text' });
  }
  row += 2;
  sheet.heading(row, 0, COLUMNS, 'The sheets');
  for (const { name, question } of others) {
    row += 1;
    sheet.text(row, 0, name, 'label');
    sheet.wide(row, 1, 3, { value: question, look: 'text' });
  }
  row += 2;
  sheet.heading(row, 0, COLUMNS, 'Cautions');
  for (const caution of allCautions) {
    row += 1;
    sheet.wide(row, 0, COLUMNS, { value: caution, look: 'caution' });
  }
  return sheet.model();
}
