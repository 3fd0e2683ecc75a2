import { rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import type { WaterTestEntry } from '../farm';
import type { SheetModel } from '../model';
import { type Register, register, type RegisterColumn } from '../register';
import { area, SheetBuilder } from '../sheet-builder';
import { leastName, mostName } from './doses';

export const WATER_LOG = 'Water log';
const SHEET = WATER_LOG;

/** What a verdict says, by which the figure behind it is marked. */
const AMMONIA = 'ammonia harms gills';
const NITRITE = 'nitrite too high';
const OXYGEN = 'oxygen too low';
const CARBON_DIOXIDE = 'carbon dioxide too high';

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
    {
      id: 'oxygen_share',
      head: 'Oxygen, of saturation',
      width: 11,
      look: 'computed',
      quantity: 'share',
      formula: (at) =>
        `IF(OR(${at('oxygen')}="",${at('temperature')}=""),"",${gill('OXYGEN.PERCENT', at('oxygen'), at('temperature'), 'Farm_salinity', 'Farm_altitude')})`,
    },
    {
      id: 'carbon_dioxide',
      head: 'Carbon dioxide',
      width: 10,
      look: 'computed',
      quantity: 'concentration',
      format: 'one',
      formula: (at) =>
        `IF(OR(${at('acidity')}="",${at('alkalinity')}="",${at('temperature')}=""),"",${gill('CARBON.DIOXIDE', at('acidity'), at('alkalinity'), at('temperature'))})`,
    },
    {
      id: 'verdict',
      head: 'Verdict',
      width: 34,
      look: 'verdict',
      formula: (at) => {
        // A bound that the grower cleared on Doses says nothing.
        const over = (id: string, sign: '>' | '>=', says: string): string =>
          `IF(AND(ISNUMBER(${at(id)}),ISNUMBER(${mostName(id)}),N(${at(id)})${sign}N(${mostName(id)})),"${says}; ","")`;
        const under = (id: string): string =>
          `AND(ISNUMBER(${at(id)}),ISNUMBER(${leastName(id)}),N(${at(id)})<N(${leastName(id)}))`;
        const parts = [
          over('unionised', '>=', AMMONIA),
          over('nitrite', '>', NITRITE),
          `IF(OR(${under('oxygen')},${under('oxygen_share')}),"${OXYGEN}; ","")`,
          over('carbon_dioxide', '>', CARBON_DIOXIDE),
        ].join('&');
        return `IF(${parts}="",IF(COUNT(${at('temperature')}:${at('iron')})=0,"","nothing over a limit"),${parts})`;
      },
    },
  ];
  const sheet = new SheetBuilder(SHEET, {
    title: 'Water log',
    question: 'What did the tests show? One line a test; leave blank what was not measured.',
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
    cautions: ['chlorine'],
  });
  const verdict = rowAddress(made.firstRow, made.column('verdict'));
  for (const [id, says] of [
    ['unionised', AMMONIA],
    ['nitrite', NITRITE],
    ['oxygen', OXYGEN],
    ['carbon_dioxide', CARBON_DIOXIDE],
  ] as const) {
    sheet.mark(
      area(made.firstRow, made.column(id), made.rows),
      `ISNUMBER(SEARCH("${says}",${verdict}))`,
      'bad',
    );
  }
  return { sheet: sheet.model(), register: made };
}
