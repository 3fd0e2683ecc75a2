import type { PlanContext } from '../context';
import type { TankEntry } from '../farm';
import type { Flow } from '../sheet-flow';
import { blankWithout, type Condition, type Formula, sum, when } from '../formula-parts';
import { plainCall } from '../live-or-plain';
import { codeOf, named, nth, wordsOf } from '../names';
import { type At, type Columns, register, type RegisterColumn } from '../register';
import type { SheetBuilder } from '../sheet-builder';
import { SPARE_TANKS } from './tanks-sheet';

/** Stands in place of a flow where no flow would do. */
const AIR_NEEDED = 'air needed';

const positive = (message: string): RegisterColumn<TankEntry, 'Pumps'>['rule'] => ({
  rule: { kind: 'number', min: 0 },
  message,
});
/** What the Tanks sheet says of the same tank; nothing where it says nothing. */
const ofTank = (name: 'Tanks_name' | 'Tanks_volume', row: number): Formula =>
  blankWithout([nth(name, row + 1)], nth(name, row + 1));

const fed = (row: number): Formula => nth('Tanks_feed', row + 1);

const oxygenLeast = (row: number): Formula => nth('Fish_oxygen_least', nth('Tanks_line', row + 1));
/** mg/L of the water that comes back. */
const returned = named('Pump_return').times(named('Pump_full'));

const isPoor = (row: number): Condition => returned.atMost(oxygenLeast(row));

const turnover = (at: At<'Pumps'>): Formula => at('water').times(named('Pump_turns'));

/** What holds of all pumps. */
function pumpFields({ gill }: PlanContext, flow: Flow): void {
  flow.heading('Pumps and flow');
  flow.fields([
    {
      name: 'Pump_turns',
      label: 'Tank volumes an hour',
      preset: 'Pump_turns',
      look: 'preset',
      remark: 'FAO Technical Paper 589: once an hour, twice in dense tanks (recalled).',
    },
    {
      name: 'Pump_return',
      label: 'Oxygen in the water that comes back',
      preset: 'Pump_return',
      look: 'preset',
      remark: 'Of saturation. Common practice, no source.',
    },
    {
      name: 'Pump_efficiency',
      label: 'Power that reaches the water',
      preset: 'Pump_efficiency',
      look: 'preset',
      remark: 'Small submersible pumps 15 to 40 % (common practice).',
    },
    {
      name: 'Pump_elbows',
      label: 'Elbows on the way to a tank',
      preset: 'Pump_elbows',
      look: 'preset',
      remark: 'Four are usual (common practice): count your own.',
    },
    {
      name: 'Pump_valves',
      label: 'Ball valves on the way to a tank',
      preset: 'Pump_valves',
      look: 'preset',
      remark: 'One is usual, wide open; half shut it costs many times as much.',
    },
    {
      name: 'Pump_fittings',
      label: 'Loss coefficient of all fittings',
      // Plain in both forms: a chain of calls costs a round trip for each link.
      formula: plainCall(
        'FLOW.FITTINGS',
        named('Pump_elbows').orZero,
        undefined,
        undefined,
        undefined,
        named('Pump_valves').orZero,
        undefined,
        1,
        1,
      ),
      quantity: 'number',
      format: 'two',
      look: 'computed',
      remark: 'With the inlet at the pump and the outlet into the tank.',
    },
    {
      name: 'Pump_full',
      label: 'Oxygen at saturation',
      formula: blankWithout(
        [named('Water_now')],
        gill('OXYGEN.FULL', named('Water_now'), named('Farm_salinity'), named('Farm_altitude')),
      ),
      quantity: 'concentration',
      look: 'computed',
    },
  ]);
}

type PumpColumns = Columns<TankEntry, 'Pumps'>;

/** The pipe to the tank. */
const pipeColumns = {
  tank: {
    head: 'Tank',
    width: 62,
    look: 'computed',
    formula: (_, row) => ofTank('Tanks_name', row),
  },
  bore: {
    head: 'Bore of the pipe',
    width: 10,
    look: 'input',
    quantity: 'bore',
    field: 'bore',
    rule: positive('Type the inner width of the pipe.'),
  },
  pipe: {
    head: 'Length of the pipe',
    width: 10,
    look: 'input',
    quantity: 'length',
    field: 'pipe',
    rule: positive('Type the length of the pipe.'),
  },
  lift: {
    head: 'Lift',
    width: 10,
    look: 'input',
    quantity: 'length',
    field: 'lift',
    note: 'From the water that the pump stands in to where the pipe lets it out.',
    rule: positive('Type how high the water is lifted.'),
  },
} satisfies Partial<PumpColumns>;

/** Flow that the tank needs, and what the pump draws for it. */
const flowColumns = ({ gill }: PlanContext) =>
  ({
    water: {
      head: 'Water in the tank',
      width: 10,
      look: 'computed',
      quantity: 'volume',
      formula: (_, row) => ofTank('Tanks_volume', row),
    },
    turnover: {
      head: 'Flow for turnover',
      width: 11,
      look: 'result',
      quantity: 'flow',
      formula: (at) =>
        blankWithout([at('water')], gill('FLOW.TURNOVER', at('water'), named('Pump_turns'))),
      total: sum,
    },
    oxygen_flow: {
      head: 'Flow that carries the oxygen',
      width: 12,
      look: 'computed',
      quantity: 'flow',
      note: 'Water that would bring all the oxygen for fish and filter bacteria, without air stones. More than the turnover means that the tank needs air of its own.',
      formula: (_, row) => {
        const feed = fed(row);
        const needed = gill('FLOW.OXYGEN', gill('LOAD.OXYGEN', feed), returned, oxygenLeast(row));
        return blankWithout([feed], when(isPoor(row), AIR_NEEDED, needed));
      },
    },
    loss: {
      head: 'Head loss in pipe and fittings',
      width: 10,
      look: 'computed',
      quantity: 'length',
      formula: (at) =>
        blankWithout(
          [at('water'), at('bore'), at('pipe'), named('Water_now')],
          gill(
            'FLOW.HEADLOSS',
            turnover(at),
            at('bore'),
            at('pipe'),
            named('Water_now'),
            undefined,
            named('Pump_fittings'),
          ),
        ),
    },
    power: {
      head: 'Power at the wall',
      width: 10,
      look: 'result',
      quantity: 'power',
      formula: (at) =>
        blankWithout(
          [at('loss'), at('lift')],
          gill('FLOW.WATTS', turnover(at), at('lift').plus(at('loss')), named('Pump_efficiency')),
        ),
      total: sum,
    },
  }) satisfies Partial<PumpColumns>;

/** Whether the flow is enough. */
const verdictColumns = {
  verdict: {
    head: 'Verdict',
    width: 11,
    across: 5,
    look: 'verdict',
    formula: (at) =>
      wordsOf('Pumps_status', at('status'), {
        '': '',
        poor: 'air stones needed: the water comes back too poor',
        short: 'air stones needed beside the flow',
        enough: 'the flow carries the oxygen',
      }),
  },
  status: {
    helper: true,
    head: 'Status',
    width: 12,
    look: 'source',
    formula: (at, row) =>
      codeOf(
        'Pumps_status',
        [
          [fed(row).isBlank, ''],
          [isPoor(row), 'poor'],
          [at('oxygen_flow').above(at('turnover')), 'short'],
        ],
        'enough',
      ),
  },
} satisfies Partial<PumpColumns>;

/** How much water must run through each tank, and what does the pump draw? */
export function pumpsBlock(sheet: SheetBuilder, ctx: PlanContext, flow: Flow, amid: number): void {
  pumpFields(ctx, flow);
  const columns: PumpColumns = { ...pipeColumns, ...flowColumns(ctx), ...verdictColumns };
  sheet.text(flow.skip(), 0, 'Whole farm', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Pumps',
    headRow: flow.skip(),
    columns,
    list: 'tanks',
    spare: SPARE_TANKS,
    amid,
  });
  flow.skip(made.rows);
}
