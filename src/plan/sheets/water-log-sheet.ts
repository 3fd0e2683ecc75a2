import type { PlanContext } from '../context';
import { baseNames, type WaterTestEntry } from '../farm';
import {
  all,
  any,
  blankUnless,
  blankWithout,
  call,
  cases,
  type Condition,
  type Formula,
  joined,
} from '../formula-parts';
import type { SheetModel } from '../workbook-model';
import { type FigureName, named } from '../names';
import { span } from '../references';
import { type At, type Columns, type Register, register, type RegisterColumn } from '../register';
import { SheetBuilder } from '../sheet-builder';

export const WATER_LOG = 'Water log';
const SHEET = WATER_LOG;

type AtTest = At<'Water'>;

/** A figure against a bound on Balance; a bound that the grower cleared there says nothing. */
const against = (
  cell: Formula,
  bound: FigureName,
  compare: (figure: Formula, limit: Formula) => Condition,
): Condition =>
  all(cell.isNumber, named(bound).isNumber, compare(cell.orZero, named(bound).orZero));

const above = (cell: Formula, bound: FigureName): Condition =>
  against(cell, bound, (figure, limit) => figure.above(limit));
const below = (cell: Formula, bound: FigureName): Condition =>
  against(cell, bound, (figure, limit) => figure.below(limit));

interface Fault {
  readonly column: 'unionised' | 'nitrite' | 'oxygen' | 'carbon_dioxide';
  /** How the status names it; none is part of another. */
  readonly code: string;
  readonly says: string;
  readonly when: (at: AtTest) => Condition;
}

const faults: readonly Fault[] = [
  {
    column: 'unionised',
    code: 'ammonia',
    says: 'ammonia harms gills',
    // Harm begins at that figure, not above it.
    when: (at) =>
      against(at('unionised'), 'Most_unionised', (figure, limit) => figure.atLeast(limit)),
  },
  {
    column: 'nitrite',
    code: 'nitrite',
    says: 'nitrite too high',
    when: (at) => above(at('nitrite'), 'Most_nitrite'),
  },
  {
    column: 'oxygen',
    code: 'oxygen',
    says: 'oxygen too low',
    when: (at) =>
      any(below(at('oxygen'), 'Least_oxygen'), below(at('oxygen_share'), 'Least_oxygen_share')),
  },
  {
    column: 'carbon_dioxide',
    code: 'carbonic',
    says: 'carbon dioxide too high',
    when: (at) => above(at('carbon_dioxide'), 'Most_carbon_dioxide'),
  },
];

/** Whether the status of a test names a fault. */
const names = (status: Formula, { code }: Fault): Condition =>
  call('SEARCH', code, status).isNumber;

export interface WaterLogSheet {
  readonly sheet: SheetModel;
  readonly register: Register<'Water'>;
}

const measuredColumn = (
  id: 'tan' | 'nitrite' | 'nitrate' | 'oxygen' | 'iron',
  head: string,
): RegisterColumn<WaterTestEntry, 'Water'> => ({
  head,
  width: 10,
  look: 'input',
  quantity: 'concentration',
  field: id,
  rule: { rule: { kind: 'number', min: 0 }, message: 'Type mg/L, or leave it blank.' },
});

type WaterColumns = Columns<WaterTestEntry, 'Water'>;

/** What was measured, and what was added. */
const testColumns = {
  date: {
    head: 'Date',
    width: 11,
    look: 'input',
    format: 'date',
    field: 'date',
    rule: { rule: { kind: 'date' }, message: 'Type a date.' },
  },
  temperature: {
    head: 'Water',
    width: 9,
    look: 'input',
    quantity: 'temperature',
    field: 'temperature',
    rule: { rule: { kind: 'number', min: -2, max: 50 }, message: 'Type a water temperature.' },
  },
  acidity: {
    head: 'pH',
    width: 7,
    look: 'input',
    format: 'one',
    field: 'ph',
    rule: { rule: { kind: 'number', min: 3, max: 12 }, message: 'Type a pH from 3 to 12.' },
  },
  tan: measuredColumn('tan', 'Total ammonia-N (TAN)'),
  nitrite: measuredColumn('nitrite', 'Nitrite-N'),
  nitrate: measuredColumn('nitrate', 'Nitrate-N'),
  oxygen: measuredColumn('oxygen', 'Oxygen'),
  alkalinity: {
    head: 'Alkalinity',
    width: 11,
    look: 'input',
    quantity: 'alkalinity',
    field: 'alkalinity',
    rule: { rule: { kind: 'number', min: 0 }, message: 'Type mg/L as CaCO3, or leave it blank.' },
  },
  iron: measuredColumn('iron', 'Iron'),
  added: {
    head: 'Water added',
    width: 9,
    look: 'input',
    quantity: 'volume',
    field: 'added',
    note: 'Fresh water since the line above that says how much: of a day, a week, as the meter is read.',
    rule: { rule: { kind: 'number', min: 0 }, message: 'Type how much, or leave it blank.' },
  },
  base_given: {
    head: 'Base given',
    width: 9,
    look: 'input',
    quantity: 'dose',
    field: 'baseGiven',
    note: 'Of the pure base: what is on the scale times the purity on the bag.',
    rule: { rule: { kind: 'number', min: 0 }, message: 'Type how much, or leave it blank.' },
  },
  base: {
    head: 'Which base',
    width: 21,
    look: 'input',
    field: 'base',
    rule: {
      rule: { kind: 'words', words: baseNames },
      message: `Choose ${baseNames.slice(0, -1).join(', ')} or ${baseNames.at(-1)}.`,
    },
  },
} satisfies Partial<WaterColumns>;

/** What follows from the tests. */
const resultColumns = ({ gill }: PlanContext) =>
  ({
    unionised: {
      head: 'Un-ionised ammonia-N',
      width: 11,
      look: 'result',
      quantity: 'concentration',
      format: 'three',
      formula: (at) =>
        blankWithout(
          [at('tan'), at('acidity'), at('temperature')],
          gill(
            'AMMONIA.UNIONISED',
            at('tan'),
            at('acidity'),
            at('temperature'),
            named('Farm_salinity'),
          ),
        ),
    },
    oxygen_share: {
      head: 'Oxygen, of saturation',
      width: 11,
      look: 'computed',
      quantity: 'share',
      formula: (at) =>
        blankWithout(
          [at('oxygen'), at('temperature')],
          gill(
            'OXYGEN.PERCENT',
            at('oxygen'),
            at('temperature'),
            named('Farm_salinity'),
            named('Farm_altitude'),
          ),
        ),
    },
    carbon_dioxide: {
      head: 'Carbon dioxide',
      width: 10,
      look: 'computed',
      quantity: 'concentration',
      format: 'one',
      formula: (at) =>
        blankWithout(
          [at('acidity'), at('alkalinity'), at('temperature')],
          gill('CARBON.DIOXIDE', at('acidity'), at('alkalinity'), at('temperature')),
        ),
    },
    verdict: {
      head: 'Verdict',
      width: 34,
      look: 'verdict',
      formula: (at) =>
        cases(
          [
            [
              at('status').isFilled,
              joined(
                ...faults.map((fault) =>
                  blankUnless(names(at('status'), fault), `${fault.says}; `),
                ),
              ),
            ],
            [call('COUNT', span(at('temperature'), at('iron'))).is(0), ''],
          ],
          'nothing over a limit',
        ),
    },
    status: {
      helper: true,
      head: 'Faults',
      width: 14,
      look: 'source',
      formula: (at) =>
        joined(...faults.map((fault) => blankUnless(fault.when(at), `${fault.code} `))),
    },
  }) satisfies Partial<WaterColumns>;

export function waterLogSheet(ctx: PlanContext): WaterLogSheet {
  const columns: WaterColumns = { ...testColumns, ...resultColumns(ctx) };
  const sheet = new SheetBuilder(SHEET, {
    title: 'Water log',
    question:
      'What did the tests show, and what was added? One line a test or a day; leave blank what was not measured.',
    widths: [],
    landscape: true,
    headRows: 5,
    headColumns: 1,
  });
  const made = register(sheet, ctx, {
    prefix: 'Water',
    headRow: 4,
    columns,
    list: 'waterTests',
    spare: 12,
    cautions: ['chlorine', 'medicines'],
  });
  for (const fault of faults)
    sheet.mark(made.cells(fault.column), names(made.first('status'), fault), 'bad');
  return { sheet: sheet.model(), register: made };
}
