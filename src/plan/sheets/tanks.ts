import { rowAddress } from '../addresses';
import type { PlanContext } from '../context';
import type { TankEntry } from '../farm';
import { plainCall } from '../formulas';
import type { SheetModel } from '../model';
import { type Register, register, type RegisterColumn } from '../register';
import { area, SheetBuilder } from '../sheet-builder';
import { lookupRow } from '../../functions/lookup';

const SHEET = 'Tanks';
/** Prepared empty rows; sheets that follow the tanks have as many. */
export const SPARE_TANKS = 4;

export interface TanksSheet {
  readonly sheet: SheetModel;
  readonly register: Register;
}

export function tanksSheet(ctx: PlanContext): TanksSheet {
  const { gill } = ctx;
  const filled = (at: (id: string) => string, formula: string): string =>
    `IF(OR(${at('fish')}="",${at('fish')}=0,${at('weight')}="",${at('volume')}=""),"",${formula})`;
  const columns: readonly RegisterColumn<TankEntry>[] = [
    { id: 'name', head: 'Tank', width: 14, look: 'input', value: (tank) => tank.name },
    {
      id: 'volume',
      head: 'Water',
      width: 10,
      look: 'input',
      quantity: 'volume',
      value: (tank) => tank.volume,
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type the water in the tank.' },
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'species',
      head: 'Species',
      width: 18,
      look: 'input',
      value: (tank) => tank.species,
      rule: {
        rule: { kind: 'list', name: 'Fish_name' },
        message: 'Choose a species of the Species sheet.',
      },
    },
    {
      id: 'fish',
      head: 'Fish',
      width: 9,
      look: 'input',
      quantity: 'count',
      value: (tank) => tank.fish,
      rule: { rule: { kind: 'whole', min: 0 }, message: 'Type a whole number of fish.' },
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'weight',
      head: 'Mean weight',
      width: 9,
      look: 'input',
      quantity: 'fishWeight',
      value: (tank) => tank.weight,
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type the mean weight of one fish.' },
    },
    {
      id: 'stocked',
      head: 'Stocked on',
      width: 11,
      look: 'input',
      format: 'date',
      value: (tank) => tank.stocked,
      rule: { rule: { kind: 'date' }, message: 'Type a date.' },
    },
    {
      id: 'own_limit',
      head: 'Own density limit',
      width: 10,
      look: 'input',
      quantity: 'density',
      value: (tank) => tank.density,
      note: 'Leave it blank to take the limit of the Species sheet for an aerated tank.',
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type a density, or leave it blank.' },
    },
    {
      id: 'biomass',
      head: 'Biomass',
      width: 10,
      look: 'computed',
      quantity: 'mass',
      formula: (at) => filled(at, `${at('fish')}*${at('weight')}/1000`),
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'density',
      head: 'Density',
      width: 9,
      look: 'result',
      quantity: 'density',
      formula: (at) => filled(at, gill('STOCK.DENSITY', at('fish'), at('weight'), at('volume'))),
    },
    {
      id: 'limit',
      head: 'Density limit',
      width: 9,
      look: 'computed',
      quantity: 'density',
      formula: (at) =>
        `IF(${at('own_limit')}<>"",${at('own_limit')},IF(${at('line')}="","",INDEX(Fish_density_aerated,${at('line')})))`,
    },
    {
      id: 'room',
      head: 'Room for more fish',
      width: 10,
      look: 'computed',
      quantity: 'count',
      note: 'How many more fish of this weight the limit allows; below 0 that many are too many.',
      formula: (at) =>
        filled(at, `${gill('STOCK.LIMIT', at('volume'), at('weight'), at('limit'))}-${at('fish')}`),
    },
    {
      id: 'rate',
      head: 'Feed rate of the day',
      width: 9,
      look: 'computed',
      quantity: 'share',
      format: 'percent',
      note: 'From the Species sheet, for this weight and the water of the month.',
      formula: (at) => filled(at, plainCall('FEED.RATE', at('species'), at('weight'), 'Water_now')),
    },
    {
      id: 'feed',
      head: 'Feed a day',
      width: 10,
      look: 'result',
      quantity: 'feedDay',
      formula: (at) =>
        filled(
          at,
          gill('FEED.DAY', at('fish'), at('weight'), at('species'), 'Water_now', at('rate')),
        ),
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'verdict',
      head: 'Verdict',
      width: 30,
      look: 'verdict',
      formula: (at) =>
        `IF(OR(${at('fish')}="",${at('fish')}=0),"empty",IF(${at('weight')}="","type the mean weight",IF(${at('volume')}="","type the water in the tank",IF(${at('room')}<0,"over its limit: move "&-${at('room')}&" fish",IF(${at('density')}>0.9*${at('limit')},"nearly full","room left")))))`,
    },
    {
      id: 'line',
      helper: true,
      head: 'Line in Species',
      width: 8,
      look: 'source',
      formula: (at) => `IF(${at('species')}="","",${lookupRow('Fish', at('species'))})`,
    },
  ];
  const sheet = new SheetBuilder(SHEET, {
    title: 'Tanks',
    question: 'What stands in each tank, is there room, and how much is fed?',
    widths: [],
    landscape: true,
    headRows: 5,
    headColumns: 1,
  });
  sheet.text(3, 0, 'Whole farm', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Tanks',
    headRow: 4,
    columns,
    entries: ctx.farm.tanks,
    spare: SPARE_TANKS,
    cautions: ['weight', 'air', 'electricity'],
  });
  const first = made.firstRow;
  const density = made.column('density');
  const cells = area(first, density, made.rows);
  const metric = (id: string): string => rowAddress(first, made.metricColumn(id));
  sheet.mark(
    cells,
    `AND(ISNUMBER(${metric('density')}),ISNUMBER(${metric('limit')}),${metric('density')}>${metric('limit')})`,
    'bad',
  );
  sheet.mark(
    cells,
    `AND(ISNUMBER(${metric('density')}),ISNUMBER(${metric('limit')}),${metric('density')}>0.9*${metric('limit')})`,
    'watch',
  );
  return { sheet: sheet.model(), register: made };
}
