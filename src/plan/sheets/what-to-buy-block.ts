import type { PlanContext } from '../context';
import {
  all,
  blankWithout,
  call,
  cases,
  type Formula,
  joined,
  part,
  roundedUp,
  sum,
  when,
} from '../formula-parts';
import { named, type PlanName } from '../names';
import { type PresetName, presetValue } from '../presets';
import { figureInWords, inShownUnits, shownIn, toShown } from '../quantities';
import { fixedRef, rowRef } from '../references';
import { area, type SheetBuilder } from '../sheet-builder';
import type { Flow } from '../sheet-flow';
import { typedPreset } from '../typed-cells';
import type { FormatId } from '../workbook-model';

/** The last column of remarks. */
const REMARKS_TO = 8;
/** Share of a battery that is used, and what comes through the inverter (common practice). */
const BATTERY_USED = 0.8;
const INVERTER = 0.85;
/** kWh of a battery of 12 V and 100 Ah. */
const BATTERY = 1.2;
/** L of petrol that a small generator burns for a kWh (recalled). */
const PETROL = 0.5;

/** A preset in a cell of a table. */
function typedCell(
  sheet: SheetBuilder,
  ctx: PlanContext,
  at: readonly [row: number, column: number],
  name: PresetName,
  label: string,
  rule: Parameters<SheetBuilder['rule']>[1],
  message: string,
  format: FormatId = 'general',
): void {
  const [row, column] = at;
  const value = presetValue(name, ctx.farm.figures);
  sheet.put(row, column, {
    ...(value !== undefined && { value }),
    look: 'input',
    format: typeof value === 'string' ? 'text' : format,
  });
  ctx.name(name, sheet.name, area(row, column));
  ctx.typed.push(typedPreset(name, label));
  sheet.rule(area(row, column), rule, message);
}

const remarkAt = (sheet: SheetBuilder, row: number, column: number, value: string): void =>
  sheet.wide(row, column, REMARKS_TO + 1 - column, { value, look: 'source' });

interface Consumer {
  readonly what: string;
  readonly watts: Formula | PresetName;
  readonly hours: Formula | PresetName;
  /** Whether it runs in an outage; a blower always does. */
  readonly outage: PresetName | undefined;
  readonly remark: string;
}

const consumers: readonly Consumer[] = [
  {
    what: 'Pumps',
    watts: sum(named('Pumps_power')),
    hours: 'Plant_hours_pumps',
    outage: 'Plant_outage_pumps',
    remark:
      'As on the Plant room sheet. Beds may stand still for hours; fish that live by the flow cannot.',
  },
  {
    what: 'Blower',
    watts: named('Plant_blower'),
    hours: 'Plant_hours_blower',
    outage: undefined,
    remark: 'For all the air of the Plant room sheet. It must run: the fish breathe by it.',
  },
  {
    what: 'Lamps',
    watts: 'Plant_watts_lamps',
    hours: named('Plant_lamps_hours'),
    outage: 'Plant_outage_lamps',
    remark: 'Blank where there are none.',
  },
  {
    what: 'Fans and heater',
    watts: 'Plant_watts_fans',
    hours: 'Plant_hours_fans',
    outage: 'Plant_outage_fans',
    remark: 'A burner needs power, too: seedlings and warm-water fish may need it in a frost.',
  },
  {
    what: 'Alarm, control and all else',
    watts: 'Plant_watts_other',
    hours: 'Plant_hours_other',
    outage: 'Plant_outage_other',
    remark: 'The alarm has a battery of its own.',
  },
];

function power(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  flow.heading('Power: what draws it, and what must run when the mains fail', 8);
  flow.heads(['What runs', 'W', 'Hours a day', 'kWh a year', 'Its bill a year', 'In an outage']);
  const first = flow.row;
  for (const { what, watts, hours, outage, remark } of consumers) {
    const row = flow.skip();
    sheet.text(row, 0, what, 'label');
    if (typeof watts === 'string') {
      typedCell(
        sheet,
        ctx,
        [row, 1],
        watts,
        `${what}, W`,
        { kind: 'number', min: 0, max: 1e6 },
        'Type the power in W, or leave it blank.',
        'whole',
      );
    } else sheet.put(row, 1, { formula: watts, look: 'computed', format: 'whole' });
    if (typeof hours === 'string') {
      typedCell(
        sheet,
        ctx,
        [row, 2],
        hours,
        `${what}, hours a day`,
        { kind: 'number', min: 0, max: 24 },
        'Type the hours a day, 0 to 24.',
        'one',
      );
    } else sheet.put(row, 2, { formula: hours, look: 'computed', format: 'one' });
    sheet.put(row, 3, {
      formula: rowRef(row, 1).orZero.times(rowRef(row, 2)).times(0.365),
      look: 'computed',
      format: 'whole',
    });
    sheet.put(row, 4, {
      formula: blankWithout(
        [named('Plant_energy_price')],
        rowRef(row, 3).times(named('Plant_energy_price')),
      ),
      look: 'computed',
      format: 'money',
    });
    if (outage === undefined) sheet.put(row, 5, { value: 'yes', look: 'computed' });
    else {
      typedCell(
        sheet,
        ctx,
        [row, 5],
        outage,
        `${what}, in an outage`,
        { kind: 'words', words: ['yes', 'no'] },
        'Type yes or no.',
      );
    }
    remarkAt(sheet, row, 6, remark);
  }
  const column = (place: number): Formula => fixedRef(area(first, place, consumers.length));
  flow.fields([
    {
      name: 'Plant_watts',
      label: 'Together, while all of it runs',
      formula: sum(column(1)),
      quantity: 'power',
      look: 'result',
    },
    {
      name: 'Plant_energy',
      label: 'Energy a year',
      formula: sum(column(3)),
      quantity: 'energy',
      look: 'result',
    },
    {
      name: 'Plant_energy_price',
      label: 'Price of a kWh',
      preset: 'Plant_energy_price',
      format: 'money',
      look: 'input',
      remark: 'Blank leaves the cost out.',
    },
    {
      name: 'Plant_energy_cost',
      label: 'Power bill that these hours make, a year',
      formula: blankWithout(
        [named('Plant_energy_price')],
        named('Plant_energy').times(named('Plant_energy_price')),
      ),
      quantity: 'number',
      format: 'money',
      look: 'result',
      remark: 'To check the bill that you typed among the costs a month, which alone counts.',
    },
    {
      name: 'Plant_outage_watts',
      label: 'Must run when the mains fail',
      formula: call('SUMIF', column(5), 'yes', column(1)),
      quantity: 'power',
      look: 'result',
    },
    {
      name: 'Plant_outage',
      label: 'Outage to last through',
      preset: 'Plant_outage',
      look: 'preset',
      remark: 'The longest that you remember, and half as much again (common practice).',
    },
    {
      name: 'Plant_battery',
      label: 'Battery for it',
      formula: named('Plant_outage_watts')
        .times(named('Plant_outage'))
        .over(1000)
        .over(BATTERY_USED * INVERTER),
      quantity: 'energy',
      format: 'one',
      look: 'result',
      remark: 'Four fifths of it used, 85 % through the inverter. Common practice, no source.',
    },
    {
      name: 'Plant_batteries',
      label: 'That is so many of 12 V and 100 Ah',
      formula: roundedUp(named('Plant_battery').over(BATTERY)),
      quantity: 'number',
      format: 'whole',
      look: 'computed',
      remark:
        'Acid and short circuits burn; gas explodes: vented, fused, by a licensed electrician.',
    },
    {
      name: 'Plant_generator',
      label: 'Or a generator',
      formula: named('Plant_outage_watts').times(2),
      quantity: 'power',
      look: 'result',
      remark:
        'Twice what runs, since motors start with several times their power (common practice).',
    },
    {
      name: 'Plant_generator_fuel',
      label: 'Petrol for it',
      formula: named('Plant_outage_watts').times(named('Plant_outage')).over(1000).times(PETROL),
      quantity: 'volume',
      format: 'one',
      look: 'computed',
      remark:
        'Half a litre a kWh (recalled). Outdoors only: exhaust kills. Never fed back into the mains.',
    },
    {
      name: 'Plant_battery_there',
      label: 'Battery that is there',
      preset: 'Plant_battery_there',
      format: 'one',
      look: 'input',
      remark: 'All of them together. Blank where there is none.',
    },
    {
      name: 'Plant_battery_lasts',
      label: 'It lasts',
      formula: blankWithout(
        [named('Plant_battery_there')],
        when(
          named('Plant_outage_watts').above(0),
          named('Plant_battery_there')
            .times(1000 * BATTERY_USED * INVERTER)
            .over(named('Plant_outage_watts')),
          '',
        ),
      ),
      quantity: 'hours',
      format: 'one',
      look: 'result',
    },
    {
      name: 'Plant_generator_there',
      label: 'Generator that is there',
      preset: 'Plant_generator_there',
      look: 'input',
      remark: 'Blank where there is none.',
    },
  ]);
  flow.wide({ formula: standbyVerdict(ctx), look: 'verdict' }, 2, 8);
}

/** Whether what is there bridges the outage. */
function standbyVerdict({ system }: PlanContext): Formula {
  const [battery, generator] = [named('Plant_battery_there'), named('Plant_generator_there')];
  const lasts = named('Plant_battery_lasts');
  const hours = (figure: Formula): Formula => figureInWords(figure, 'hours', system);
  return cases(
    [
      [named('Plant_outage_watts').is(0), 'Nothing is said to run when the mains fail.'],
      [
        all(battery.isBlank, generator.isBlank),
        'Nothing is typed that runs the air when the mains fail: the fish then live for the minutes on the Plant room sheet.',
      ],
      [
        generator.orZero.atLeast(named('Plant_generator')),
        'The generator starts and runs what must run. Try it out every month, under load, and with fuel for the hours above.',
      ],
      [
        all(lasts.isNumber, lasts.orZero.atLeast(named('Plant_outage'))),
        joined('The battery lasts through the ', hours(named('Plant_outage')), '.'),
      ],
      [
        lasts.isNumber,
        joined(
          'The battery lasts ',
          hours(lasts),
          ' of ',
          hours(named('Plant_outage')),
          ': it takes ',
          figureInWords(named('Plant_battery'), 'energy', system),
          ', or a generator of ',
          figureInWords(named('Plant_generator'), 'power', system),
          '.',
        ),
      ],
    ],
    joined(
      'The generator is too small to start all that must run: it takes ',
      figureInWords(named('Plant_generator'), 'power', system),
      '.',
    ),
  );
}

/** The price of an item of the list. */
type Price = Extract<PresetName, `Plant_price_${string}`>;
type Counted = readonly [figure: Formula, unit: string];

/** Pipes by bore up to so many mm, or inches in US units. */
const bores = { metric: [32, 50, 75, 110], US: [1.25, 2, 3, 4.25].map((inch) => inch * 25.4) };
const pipePrices = [
  'Plant_price_pipe_32',
  'Plant_price_pipe',
  'Plant_price_pipe_75',
  'Plant_price_pipe_110',
  'Plant_price_pipe_wide',
] as const;

/** Pipes to the tanks and the returns, class by class; what has no bore yet stands in a line of its own. */
function pipes(ctx: PlanContext): (readonly [Price, string, Counted, string])[] {
  const { system } = ctx;
  const bore = shownIn('bore', system);
  const { unit } = shownIn('length', system);
  const limits = bores[system];
  const returns = named('Plant_drain_length').orZero.times(
    call('MAX', 1, named('Plant_drain_pipes').orZero),
  );
  const length = (figure: Formula): Counted => [inShownUnits(figure, 'length', system), unit];
  const inWords = (mm: number): string => `${Number(toShown(mm, 'bore', system).toFixed(2))}`;
  /** Both ends of a class as SUMIFS and IF want them. */
  const classes = pipePrices.map((price, i) => {
    const [over, to] = [limits[i - 1], limits[i]];
    const criteria = [
      ...(over === undefined ? [`>0`] : [`>${over}`]),
      ...(to === undefined ? [] : [`<=${to}`]),
    ].flatMap((criterion) => [named('Pumps_bore'), criterion]);
    const drain = named('Plant_drain_bore');
    const isIn = [
      ...(over === undefined ? [] : [drain.above(over)]),
      ...(to === undefined ? [] : [drain.atMost(to)]),
    ].reduce<Formula>((inside, condition) => when(condition, inside, 0), returns);
    const words =
      over === undefined
        ? `up to ${inWords(to as number)} ${bore.unit}`
        : to === undefined
          ? `over ${inWords(over)} ${bore.unit}`
          : `over ${inWords(over)} to ${inWords(to)} ${bore.unit}`;
    return [
      price,
      `Pipe with a bore ${words}`,
      length(call('SUMIFS', named('Pumps_pipe'), ...criteria).plus(isIn)),
      'To the tanks and back. Buy a tenth over.',
    ] as const;
  });
  const known = call('SUMIFS', named('Pumps_pipe'), named('Pumps_bore'), '>0');
  return [
    ...classes,
    [
      'Plant_price_pipe_unknown',
      'Pipe whose bore is not typed yet',
      length(sum(named('Pumps_pipe')).minus(known)),
      'Type the bore on the Plant room sheet.',
    ],
  ];
}

/** What a plan of this farm asks for: counted, and priced where a price is typed. */
function shoppingList(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const filled = (name: PlanName): Formula => call('COUNT', named(name));
  const { system } = ctx;
  const kind = (word: string): Counted => [call('COUNTIF', named('Beds_kind'), word), ''];
  const volume = (figure: Formula): Counted => [
    inShownUnits(figure, 'volume', system),
    shownIn('volume', system).unit,
  ];
  const many = (figure: Formula): Counted => [figure, ''];
  const ofEachTank = (name: 'Pump_elbows' | 'Pump_valves'): Counted =>
    many(filled('Pumps_pipe').times(named(name).orZero));
  const media = named('Gravel_area').times(named('Flood_depth')).times(1000);
  const withSpare = (figure: Formula): Counted => many(when(figure.above(0), 2, 0));
  const lines: readonly (readonly [Price, string, Counted, string])[] = [
    ['Plant_price_tanks', 'Tanks', many(filled('Tanks_volume')), 'With lids or nets.'],
    ['Plant_price_beds', 'Raft beds', kind('raft'), 'With their rafts.'],
    [
      'Plant_price_gravel_beds',
      'Gravel beds',
      kind('gravel'),
      'On stands or ground that was checked.',
    ],
    ['Plant_price_film_beds', 'Film channels', kind('film'), ''],
    [
      'Plant_price_gravel',
      'Gravel of the beds',
      volume(media),
      'Washed. Have the ground checked: wet it weighs nearly two tonnes a cubic metre.',
    ],
    [
      'Plant_price_outlets',
      'Siphons or standpipes',
      kind('gravel'),
      'One for each gravel bed, of the bore on the Plant room sheet.',
    ],
    [
      'Plant_price_media',
      'Filter media',
      volume(named('Filter_media')),
      'As on the Balance sheet.',
    ],
    [
      'Plant_price_sump',
      'Sump',
      volume(named('Plant_sump')),
      'At least, as on the Plant room sheet.',
    ],
    ...pipes(ctx),
    [
      'Plant_price_elbows',
      'Elbows',
      ofEachTank('Pump_elbows'),
      'As the Plant room sheet counts them for each tank.',
    ],
    [
      'Plant_price_valves',
      'Valves',
      ofEachTank('Pump_valves'),
      'As the Plant room sheet counts them for each tank.',
    ],
    [
      'Plant_price_pumps',
      'Pumps',
      many(when(sum(named('Pumps_turnover')).above(0), named('Plant_pumps_running').plus(1), 0)),
      'Those that run, and a spare.',
    ],
    [
      'Plant_price_blowers',
      'Blowers',
      withSpare(sum(named('Plant_air'))),
      'One that runs, and a spare.',
    ],
    [
      'Plant_price_stones',
      'Air stones',
      many(
        sum(named('Plant_stones')).plus(
          call('COUNT', named('Plant_use')).times(named('Plant_standby').orZero),
        ),
      ),
      'For the peak after feeding, and the stand-by stones.',
    ],
    [
      'Plant_price_heater',
      'Heater',
      many(when(named('Plant_heater').orZero.above(0), 1, 0)),
      'Of the power on the Plant room sheet, with a flue, fitted by a licensed trade.',
    ],
    [
      'Plant_price_alarms',
      'Alarms',
      many(part(2)),
      'Oxygen or air pressure, and power. Try them out every week.',
    ],
    [
      'Plant_price_standby',
      'Battery or generator',
      many(part(1)),
      'Of the size above, connected by a licensed electrician.',
    ],
  ];
  flow.heading('What to buy', 8);
  flow.heads(['Item', 'How many', 'Unit', 'Price each', 'Cost']);
  const first = flow.row;
  for (const [price, item, [figure, unit], remark] of lines) {
    const row = flow.skip();
    sheet.text(row, 0, item, 'label');
    sheet.put(row, 1, { formula: figure, look: 'computed', format: 'whole' });
    if (unit) sheet.text(row, 2, unit, 'unit');
    typedCell(
      sheet,
      ctx,
      [row, 3],
      price,
      `${item}, price each`,
      { kind: 'number', min: 0, max: 1e6 },
      'Type the price of one, or leave it blank.',
      'money',
    );
    sheet.put(row, 4, {
      formula: blankWithout([rowRef(row, 3)], rowRef(row, 1).times(rowRef(row, 3))),
      look: 'computed',
      format: 'money',
    });
    if (remark) remarkAt(sheet, row, 5, remark);
  }
  const row = flow.skip();
  const costs = fixedRef(area(first, 4, lines.length));
  sheet.text(row, 0, 'Together, as far as priced', 'label');
  sheet.put(row, 4, { formula: sum(costs), look: 'result', format: 'money' });
  ctx.name('Plant_price_all', sheet.name, area(row, 4));
}

/**
 * What draws power, what must run when the mains fail, and what a plan of this farm asks for; returns where each of both
 * begins.
 */
export function whatToBuyBlocks(
  sheet: SheetBuilder,
  ctx: PlanContext,
  flow: Flow,
): readonly [power: number, list: number] {
  const first = flow.row;
  sheet.cautions(flow.skip(), 0, REMARKS_TO + 1, ['electricity', 'air', 'weight', 'heater', 'law']);
  power(sheet, ctx, flow);
  flow.skip();
  const list = flow.row;
  shoppingList(sheet, ctx, flow);
  return [first, list];
}
