import type { PlanContext } from '../context';
import type { TankEntry } from '../farm';
import { between, fields } from '../fields';
import type { SheetModel } from '../model';
import { register, type RegisterColumn } from '../register';
import { SheetBuilder } from '../sheet-builder';
import { SPARE_TANKS } from './tanks';

const SHEET = 'Pumps';

export function pumpsSheet(ctx: PlanContext): SheetModel {
  const { gill } = ctx;
  const sheet = new SheetBuilder(SHEET, {
    title: 'Pumps and flow',
    question: 'How much water must run through each tank, and what does the pump draw?',
    widths: [],
    landscape: true,
    headRows: 10,
    headColumns: 1,
  });
  fields(
    sheet,
    ctx,
    3,
    0,
    [
      {
        name: 'Pump_turns',
        label: 'Tank volumes an hour',
        value: 1,
        quantity: 'perHour',
        look: 'preset',
        remark: 'FAO Technical Paper 589: once an hour, twice in dense tanks (recalled).',
        rule: between('perHour', ctx, 0.1, 10),
      },
      {
        name: 'Pump_return',
        label: 'Oxygen in the water that comes back',
        value: 0.9,
        quantity: 'share',
        look: 'preset',
        remark: 'Of saturation. Common practice, no source.',
        rule: between('share', ctx, 0.3, 1.5),
      },
      {
        name: 'Pump_efficiency',
        label: 'Power that reaches the water',
        value: 0.3,
        quantity: 'share',
        look: 'preset',
        remark: 'Small submersible pumps 15 to 40 % (common practice).',
        rule: between('share', ctx, 0.05, 0.9),
      },
      {
        name: 'Pump_full',
        label: 'Oxygen at saturation',
        formula: gill('OXYGEN.FULL', 'Water_now', 'Farm_salinity', 'Farm_altitude'),
        quantity: 'concentration',
        look: 'computed',
      },
    ],
    16,
  );
  const positive = (message: string): RegisterColumn<TankEntry>['rule'] => ({
    rule: { kind: 'number', min: 0 },
    message,
  });
  const withVolume = (at: (id: string) => string, formula: string): string =>
    `IF(${at('water')}="","",${formula})`;
  const columns: readonly RegisterColumn<TankEntry>[] = [
    {
      id: 'tank',
      head: 'Tank',
      width: 36,
      look: 'computed',
      formula: (_, row) =>
        `IF(INDEX(Tanks_name,${row - FIRST + 1})="","",INDEX(Tanks_name,${row - FIRST + 1}))`,
    },
    {
      id: 'bore',
      head: 'Bore of the pipe',
      width: 10,
      look: 'input',
      quantity: 'bore',
      value: (tank) => tank.bore,
      rule: positive('Type the inner width of the pipe.'),
    },
    {
      id: 'pipe',
      head: 'Length of the pipe',
      width: 10,
      look: 'input',
      quantity: 'length',
      value: (tank) => tank.pipe,
      rule: positive('Type the length of the pipe.'),
    },
    {
      id: 'lift',
      head: 'Lift',
      width: 10,
      look: 'input',
      quantity: 'length',
      value: (tank) => tank.lift,
      note: 'From the water that the pump stands in to where the pipe lets it out.',
      rule: positive('Type how high the water is lifted.'),
    },
    {
      id: 'water',
      head: 'Water in the tank',
      width: 10,
      look: 'computed',
      quantity: 'volume',
      formula: (_, row) =>
        `IF(INDEX(Tanks_volume,${row - FIRST + 1})="","",INDEX(Tanks_volume,${row - FIRST + 1}))`,
    },
    {
      id: 'turnover',
      head: 'Flow for turnover',
      width: 11,
      look: 'result',
      quantity: 'flow',
      formula: (at) => withVolume(at, gill('FLOW.TURNOVER', at('water'), 'Pump_turns')),
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'oxygen_flow',
      head: 'Flow that carries the oxygen',
      width: 12,
      look: 'computed',
      quantity: 'flow',
      note: 'Water that would bring all the oxygen for fish and filter bacteria, without air stones. More than the turnover means that the tank needs air of its own.',
      formula: (_, row) => {
        const k = row - FIRST + 1;
        const least = `INDEX(Fish_oxygen_least,INDEX(Tanks_line,${k}))`;
        return `IF(INDEX(Tanks_feed,${k})="","",IF(Pump_return*Pump_full<=${least},"air needed",${gill('FLOW.OXYGEN', gill('LOAD.OXYGEN', `INDEX(Tanks_feed,${k})`), 'Pump_return*Pump_full', least)}))`;
      },
    },
    {
      id: 'loss',
      head: 'Head loss in the pipe',
      width: 10,
      look: 'computed',
      quantity: 'length',
      formula: (at) =>
        `IF(OR(${at('water')}="",${at('bore')}="",${at('pipe')}=""),"",${gill('FLOW.HEADLOSS', `${at('water')}*Pump_turns`, at('bore'), at('pipe'), 'Water_now')})`,
    },
    {
      id: 'power',
      head: 'Power at the wall',
      width: 10,
      look: 'result',
      quantity: 'power',
      formula: (at) =>
        `IF(OR(${at('loss')}="",${at('lift')}=""),"",${gill('FLOW.WATTS', `${at('water')}*Pump_turns`, `${at('lift')}+${at('loss')}`, 'Pump_efficiency')})`,
      total: (all) => `SUM(${all})`,
    },
    {
      id: 'verdict',
      head: 'Verdict',
      width: 44,
      look: 'verdict',
      formula: (at) =>
        `IF(${at('oxygen_flow')}="","",IF(${at('oxygen_flow')}="air needed","air stones needed: the water comes back too poor",IF(${at('oxygen_flow')}>${at('turnover')},"air stones needed beside the flow","the flow carries the oxygen")))`,
    },
  ];
  sheet.text(8, 0, 'Whole farm', 'label');
  register(sheet, ctx, {
    prefix: 'Pumps',
    headRow: FIRST - 1,
    columns,
    entries: ctx.farm.tanks,
    spare: SPARE_TANKS,
    cautions: ['electricity'],
  });
  return sheet.model();
}

const FIRST = 10;
