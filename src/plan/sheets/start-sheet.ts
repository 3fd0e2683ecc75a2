import type { PlanContext } from '../context';
import { type Field } from '../fields';
import { Flow } from '../sheet-flow';
import { all, cases, type Condition, type Formula, joined, sum } from '../formula-parts';
import type { LookId, SheetModel } from '../workbook-model';
import { countOf, named } from '../names';
import { linkTo } from '../references';
import { FIGURES, LABELS, pagesFrom, SheetBuilder } from '../sheet-builder';
import { allCautions } from './sources-sheet';

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
  'Once a week: change the day of the plan on Site, weigh a sample of fish and write it into the Fish log, then print Week.',
  'Write down what happened in the first sheets, one line an event, in any order: Tanks and Beds follow from them. A row that cannot be says so beside itself.',
  'A row marked planned is meant to happen. When its day has come, Week asks for it: clear the mark, or write otherwise or not done.',
  'Type into the empty prepared rows, or copy the last row down.',
  'Crops and Species hold the figures that the plan works with: overwrite them with those of your own records.',
  'More tanks or beds, another year, a newer Gillbed: renew the plan, on the page Plan of the pane. What you typed stays, with sheets, columns and formulas of your own.',
];

/** Sheets that belong together, each by the question it answers. */
interface Group {
  readonly title: string;
  readonly sheets: readonly SheetModel[];
}

/** More parts than these below each other are looked for from here. */
const FEW_PARTS = 3;

/** Rows of the headings of a long sheet; of one that fits on a page, or has few, none. */
function partsOf({ rows, print }: SheetModel): number[] {
  const headings = [...rows.keys()].filter((row) => rows[row]?.[0]?.look === 'heading');
  return print.pagesTall === 1 || headings.length <= FEW_PARTS ? [] : headings;
}

/** How many are out of line, by their codes. */
const tanksUnknown = countOf('Tanks_status', 'unknown')
  .plus(countOf('Tanks_status', 'log'))
  .plus(countOf('Tanks_status', 'unmeasured'));
const cropsShort = countOf('Sowing_status', 'few');
const readingsOut = countOf('Doses_status', 'low').plus(countOf('Doses_status', 'high'));

const someThere = (cell: Formula): Condition => all(cell.isNumber, cell.above(0));

function glance(): readonly Field[] {
  return [
    {
      label: 'Day of the plan, changed on Site',
      formula: named('Farm_date'),
      look: 'computed',
      format: 'date',
    },
    {
      label: 'Biomass of the fish',
      formula: sum(named('Tanks_biomass')),
      quantity: 'mass',
      look: 'result',
    },
    {
      label: 'Fish to sell, mean of the year ahead',
      formula: named('Stock_yield'),
      quantity: 'massMonth',
      look: 'result',
    },
    { label: 'Feed a day', formula: sum(named('Tanks_feed')), quantity: 'feedDay', look: 'result' },
    {
      label: 'Feed that the planted beds call for',
      formula: named('Balance_wanted'),
      quantity: 'feedDay',
      look: 'computed',
    },
    { label: 'Bed area', formula: sum(named('Beds_area')), quantity: 'area', look: 'result' },
    {
      label: 'Tanks over their limit',
      formula: countOf('Tanks_status', 'over'),
      unit: 'tanks',
      format: 'whole',
      look: 'result',
      mark: [someThere, 'bad'],
    },
    {
      label: 'Tanks with lines to put right',
      formula: tanksUnknown,
      unit: 'tanks',
      format: 'whole',
      look: 'computed',
      mark: [someThere, 'bad'],
    },
    {
      label: 'Crops with too few beds',
      formula: cropsShort,
      unit: 'crops',
      format: 'whole',
      look: 'result',
      mark: [someThere, 'bad'],
    },
    {
      label: 'Beds to clear or plant out',
      formula: countOf('Beds_task_code', 'clear').plus(countOf('Beds_task_code', 'plant out')),
      unit: 'beds',
      format: 'whole',
      look: 'computed',
    },
    {
      label: 'Water readings out of range',
      formula: readingsOut,
      unit: 'readings',
      format: 'whole',
      look: 'result',
      mark: [someThere, 'bad'],
    },
  ];
}

/** A sentence for none, for one and for many. */
const counted = (count: Formula, none: string, single: string, many: string): Formula =>
  cases(
    [
      [count.is(0), none],
      [count.is(1), single],
    ],
    joined(count, ` ${many}`),
  );

/** What each part of the farm says of itself. */
const verdicts: readonly (readonly [string, Formula])[] = [
  ['Feed and beds', named('Balance_verdict')],
  ['Filter', named('Filter_verdict')],
  ['Sump', named('Sump_verdict')],
  ['Fish', named('Stock_verdict')],
  [
    'Crops',
    counted(
      cropsShort,
      'Each crop has the beds that its market asks for.',
      'One crop has too few beds: see the verdicts on Sowing.',
      'crops have too few beds: see the verdicts on Sowing.',
    ),
  ],
  [
    'Water',
    counted(
      readingsOut,
      'No reading of the last tests is out of range.',
      'One reading of the last tests is out of range: see Balance.',
      'readings of the last tests are out of range: see Balance.',
    ),
  ],
  ['Money', named('Money_verdict')],
];

/** The colours are those of sheet-groups.ts. */
const TABS =
  'Tabs: dark blue ones are sheets to type on, green ones to look at, grey ones tables and sources.';

export function startSheet(ctx: PlanContext, groups: readonly Group[]): SheetModel {
  const { farm } = ctx;
  const sheet = new SheetBuilder(SHEET, {
    title: farm.name,
    question: 'How does the farm stand, and what is out of line?',
    widths: [LABELS, FIGURES, 12, 40],
    headRows: 2,
  });
  sheet.fold(COLUMNS);
  const flow = new Flow(sheet, ctx, { row: 3, columns: COLUMNS, metricColumn: TWINS });
  flow.heading('The farm at a glance');
  flow.fields(glance());
  flow.skip();
  flow.heading('What to change');
  for (const [label, formula] of verdicts) flow.labelled(label, { formula, look: 'verdict' }, 3);
  flow.skip();
  const howTo = flow.row;
  flow.heading('How to use it');
  for (const step of steps) flow.wide({ value: step, look: 'text' });
  flow.skip();
  flow.heading('Kinds of cell');
  for (const [look, says] of keys) {
    const row = flow.skip();
    sheet.put(row, 1, { value: 123, look });
    sheet.wide(row, 2, 2, { value: says, look: 'text' });
  }
  flow.wide({ value: TABS, look: 'text' });
  flow.skip();
  const list = flow.row;
  for (const { title, sheets } of groups) {
    flow.heading(title);
    for (const one of sheets) {
      flow.labelled(one.name, { value: one.question, look: 'text' });
      for (const part of partsOf(one))
        flow.wide({ formula: linkTo(one.name, part, '→'), look: 'label' });
    }
    flow.skip();
  }
  flow.heading('Cautions');
  for (const caution of allCautions) flow.wide({ value: caution, look: 'caution' });
  sheet.printOnPages(pagesFrom([0, howTo, list], flow.row, COLUMNS));
  return sheet.model();
}
