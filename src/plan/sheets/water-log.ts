import type { PlanContext } from '../context';
import type { WaterTestEntry } from '../farm';
import type { SheetModel } from '../model';
import { type Register, register, type RegisterColumn } from '../register';
import { area, SheetBuilder } from '../sheet-builder';

const SHEET = 'Water log';

export interface WaterLogSheet {
  readonly sheet: SheetModel;
  readonly register: Register;
}

export function waterLogSheet(ctx: PlanContext): WaterLogSheet {
  const { gill } = ctx;
  const measuredColumn = (
    id: 'tan' | 'nitrite' | 'nitrate' | 'oxygen' | 'iron',
    head: string,
  ): RegisterColumn<WaterTestEntry> => ({
    id,
    head,
    width: 10,
    look: 'input',
    quantity: 'concentration',
    value: (test) => test[id],
    rule: { rule: { kind: 'number', min: 0 }, message: 'Type mg/L, or leave it blank.' },
  });
  const columns: readonly RegisterColumn<WaterTestEntry>[] = [
    {
      id: 'date',
      head: 'Date',
      width: 11,
      look: 'input',
      format: 'date',
      value: (test) => test.date,
      rule: { rule: { kind: 'date' }, message: 'Type a date.' },
    },
    {
      id: 'temperature',
      head: 'Water',
      width: 9,
      look: 'input',
      quantity: 'temperature',
      value: (test) => test.temperature,
      rule: { rule: { kind: 'number', min: -2, max: 50 }, message: 'Type a water temperature.' },
    },
    {
      id: 'acidity',
      head: 'pH',
      width: 7,
      look: 'input',
      format: 'one',
      value: (test) => test.ph,
      rule: { rule: { kind: 'number', min: 3, max: 12 }, message: 'Type a pH from 3 to 12.' },
    },
    measuredColumn('tan', 'Total ammonia-N (TAN)'),
    measuredColumn('nitrite', 'Nitrite-N'),
    measuredColumn('nitrate', 'Nitrate-N'),
    measuredColumn('oxygen', 'Oxygen'),
    {
      id: 'alkalinity',
      head: 'Alkalinity',
      width: 11,
      look: 'input',
      quantity: 'alkalinity',
      value: (test) => test.alkalinity,
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type mg/L as CaCO3, or leave it blank.' },
    },
    measuredColumn('iron', 'Iron'),
    {
      id: 'unionised',
      head: 'Un-ionised ammonia-N',
      width: 11,
      look: 'result',
      quantity: 'concentration',
      format: 'three',
      formula: (at) =>
        `IF(OR(${at('tan')}="",${at('acidity')}="",${at('temperature')}=""),"",${gill('AMMONIA.UNIONISED', at('tan'), at('acidity'), at('temperature'), 'Farm_salinity')})`,
    },
  ];
  const sheet = new SheetBuilder(SHEET, {
    title: 'Water log',
    question: 'Is the water fit for the fish, and what has to be added?',
    widths: [],
    landscape: true,
    headRows: 5,
    headColumns: 1,
  });
  const made = register(sheet, ctx, {
    prefix: 'Water',
    headRow: 4,
    columns,
    entries: ctx.farm.waterTests,
    spare: 12,
  });
  const cell = `$${String.fromCharCode(65 + made.column('unionised'))}${made.firstRow + 1}`;
  const cells = area(made.firstRow, made.column('unionised'), made.rows);
  sheet.mark(cells, `AND(ISNUMBER(${cell}),${cell}>=0.05)`, 'bad');
  sheet.mark(cells, `AND(ISNUMBER(${cell}),${cell}>=0.025)`, 'watch');
  return { sheet: sheet.model(), register: made };
}
