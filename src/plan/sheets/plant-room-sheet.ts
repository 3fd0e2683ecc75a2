import { MINUTES_TO_ACT } from '../../core/fish-oxygen';
import type { PlanContext } from '../context';
import type { TankEntry } from '../farm';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  cases,
  type Formula,
  joined,
  part,
  roundedUp,
  sum,
  when,
  written,
} from '../formula-parts';
import { plainCall } from '../live-or-plain';
import { named, nth, type PlanName } from '../names';
import { type PresetName, presetValue } from '../presets';
import { figureInWords, inShownUnits, shownIn } from '../quantities';
import { fixedRef, rowRef } from '../references';
import { type At, type Columns, register, type RegisterColumn } from '../register';
import { area, SheetBuilder } from '../sheet-builder';
import { Flow } from '../sheet-flow';
import { typedPreset } from '../typed-cells';
import type { SheetModel } from '../workbook-model';
import { plantRoomMonths } from './plant-room-months';
import { SPARE_TANKS } from './tanks-sheet';

export const PLANT_ROOM = 'Plant room';
/** First of the columns that hold metric twins of the fields in US units. */
const TWINS = 16;
/** Words in place of minutes. */
const HOLDS = 'holds';
/** Crop coefficient of open water to 2 m deep: FAO-56, Table 12. */
const OPEN_WATER = 1.05;

function airFields(ctx: PlanContext, flow: Flow): void {
  const { gill } = ctx;
  flow.heading('Oxygen and air');
  flow.fields([
    {
      name: 'Plant_oxygen',
      label: 'Oxygen in the tanks when something stops',
      preset: 'Plant_oxygen',
      look: 'preset',
      remark: 'What the air is sized to hold, too. Common practice, no source.',
    },
    {
      name: 'Plant_peak',
      label: 'Use after feeding over the mean of the day',
      preset: 'Plant_peak',
      format: 'two',
      look: 'preset',
      remark: '1.3 to 1.5, common practice.',
    },
    {
      name: 'Plant_bacteria',
      label: 'Oxygen that bacteria in the water use',
      preset: 'Plant_bacteria',
      unit: 'mg/L/h',
      format: 'one',
      look: 'preset',
      remark: '1 to 3, common practice.',
    },
    {
      name: 'Plant_stone_depth',
      label: 'Depth of the air stones',
      preset: 'Plant_stone_depth',
      look: 'preset',
    },
    {
      name: 'Plant_dissolved',
      label: 'Oxygen of the air that dissolves, for each m of depth',
      preset: 'Plant_dissolved',
      look: 'preset',
      remark: 'Coarse stones 2 to 4 %, common practice.',
    },
    {
      name: 'Plant_stone_air',
      label: 'Air of one stone',
      preset: 'Plant_stone_air',
      format: 'two',
      look: 'preset',
      remark: '20 L a minute; ask the maker. Common practice, no source.',
    },
    {
      name: 'Plant_blower',
      label: 'Power of the blower for all the air that is needed',
      formula: plainCall('AIR.BLOWER', sum(named('Plant_air')), named('Plant_stone_depth')),
      quantity: 'power',
      look: 'result',
    },
    {
      name: 'Plant_fullest',
      label: 'Oxygen of fish and filter a day, fullest week ahead',
      formula: gill('LOAD.OXYGEN', call('MAX', named('Weeks_feed'))),
      quantity: 'dose',
      look: 'result',
      note: 'From the feed of the Stock weeks sheet. Today’s figure stands on the Balance sheet.',
    },
    {
      name: 'Plant_carbon_dioxide',
      label: 'Carbon dioxide that fish and bacteria give off a day',
      formula: gill('LOAD.CO2', named('Balance_feed')),
      quantity: 'dose',
      look: 'computed',
    },
    {
      name: 'Plant_ratio',
      label: 'Air for each litre of water in a stripping column',
      preset: 'Plant_ratio',
      format: 'one',
      look: 'preset',
      remark: 'Five is enough, eight is all that helps (Hu et al. 2011).',
    },
    {
      name: 'Plant_stripped',
      label: 'Carbon dioxide of the last test, after one pass',
      formula: when(
        named('Last_carbon_dioxide').isNumber,
        gill(
          'CARBON.STRIPPED',
          named('Last_carbon_dioxide'),
          named('Plant_ratio'),
          named('Water_now'),
        ),
        '',
      ),
      quantity: 'concentration',
      look: 'computed',
    },
  ]);
}

function waterFields(ctx: PlanContext, flow: Flow): void {
  const { gill, system } = ctx;
  const month = call('MONTH', named('Farm_date'));
  const waterUse = (surfaceOf: Formula, crop: number | undefined): Formula =>
    gill(
      'WATER.USE',
      surfaceOf,
      nth('Month_high', month),
      nth('Month_low', month),
      named('Farm_latitude'),
      named('Farm_date'),
      crop,
    );
  const bedArea = sum(named('Beds_area'));
  const surface = sum(named('Tanks_volume')).over(1000).over(named('Plant_tank_depth'));
  flow.heading('Water ways');
  flow.fields([
    {
      name: 'Plant_drain_bore',
      label: 'Bore of the common return',
      preset: 'Plant_drain_bore',
      look: 'preset',
    },
    {
      name: 'Plant_drain_slope',
      label: 'Its fall, m for each m',
      preset: 'Plant_drain_slope',
      look: 'preset',
      remark: 'At least 1 % from 75 mm on, 2 % below (plumbing code).',
    },
    {
      name: 'Plant_drain',
      label: 'It carries, half full and clean',
      formula: gill('FLOW.DRAIN', named('Plant_drain_bore'), named('Plant_drain_slope')),
      quantity: 'flow',
      look: 'result',
      remark: 'Take half of it once slime and roots are in (common practice).',
    },
    {
      name: 'Plant_settler_area',
      label: 'Surface of the settlers',
      preset: 'Plant_settler_area',
      look: 'input',
      remark: 'Blank where there is none.',
    },
    {
      name: 'Plant_settled',
      label: 'Solids that they take out in a pass',
      formula: blankWithout(
        [named('Plant_settler_area')],
        plainCall('SOLIDS.SETTLED', sum(named('Pumps_turnover')), named('Plant_settler_area')),
      ),
      quantity: 'share',
      look: 'result',
    },
    {
      name: 'Plant_submerged',
      label: 'Water that must stand over the pump',
      preset: 'Plant_submerged',
      look: 'preset',
      remark: 'So that it does not suck air.',
    },
    {
      name: 'Plant_tank_depth',
      label: 'Depth of the tanks',
      preset: 'Plant_tank_depth',
      look: 'preset',
      remark: 'For their surface, which evaporates.',
    },
    {
      name: 'Plant_crop_water',
      label: 'Water that the beds take up, a day this month',
      formula: when(bedArea.above(0), waterUse(bedArea, undefined), 0),
      quantity: 'volume',
      look: 'computed',
      note: 'For full beds in the open; under a cover 0.6 to 0.8 of it (common practice).',
    },
    {
      name: 'Plant_evaporation',
      label: 'Water that open tanks evaporate, a day',
      formula: when(surface.above(0), waterUse(surface, OPEN_WATER), 0),
      quantity: 'volume',
      look: 'computed',
      note: 'FAO-56 Table 12, open water to 2 m.',
    },
    {
      name: 'Plant_discharge',
      label: 'Share of the water that leaves with solids, a day',
      preset: 'Plant_discharge',
      look: 'preset',
      remark: 'Half a percent. Common practice, no source.',
    },
    {
      name: 'Plant_makeup',
      label: 'Make-up water, a day',
      formula: plainCall(
        'WATER.BALANCE',
        named('Plant_crop_water'),
        named('Plant_evaporation'),
        named('Plant_discharge').times(named('Water_total')),
      ),
      quantity: 'volume',
      look: 'result',
      remark: 'FAO Technical Paper 589: 1 to 3 % of the water a day in all.',
    },
    {
      name: 'Plant_source_sodium',
      label: 'Sodium in the source water',
      preset: 'Plant_source_sodium',
      look: 'preset',
      remark: 'From an analysis; hardness and chloride go the same way.',
    },
    {
      name: 'Plant_sodium',
      label: 'Sodium after a year',
      formula: gill(
        'WATER.BUILDUP',
        named('Water_total'),
        named('Plant_source_sodium'),
        named('Plant_makeup'),
        named('Plant_source_sodium'),
        named('Plant_discharge').times(named('Water_total')),
        365,
      ),
      quantity: 'concentration',
      look: 'result',
      remark: 'Leafy crops suffer above 50 to 70 mg/L (recalled).',
      mark: [(cell) => cell.above(50), 'watch'],
    },
    {
      name: 'Plant_sump',
      label: 'Water that the sump must hold',
      formula: gill(
        'SUMP.VOLUME',
        sum(named('Plant_pipe_water')),
        named('Flood_volume'),
        named('Plant_submerged'),
        named('Plant_evaporation'),
      ),
      quantity: 'volume',
      look: 'result',
      note: 'Pipes that run empty, beds that drain at once, water over the pump, one day of evaporation.',
    },
  ]);
  flow.wide(
    {
      formula: joined(
        when(
          named('Sump_volume').atLeast(named('Plant_sump')),
          'The sump takes it.',
          joined(
            'The sump is ',
            figureInWords(named('Plant_sump').minus(named('Sump_volume')), 'volume', system),
            ' short of that: when the power fails it runs over, or the pump runs dry.',
          ),
        ),
        ' ',
        when(
          sum(named('Pumps_turnover')).times(2).atMost(named('Plant_drain')),
          'One return carries the flow of all pumps.',
          joined(
            'The return carries the flow of all pumps only with ',
            written(
              roundedUp(sum(named('Pumps_turnover')).times(2).over(named('Plant_drain'))),
              '0',
            ),
            ' such pipes, counted at half of what they carry clean.',
          ),
        ),
        ' Let the beds flood one after the other where they share a drain.',
      ),
      look: 'verdict',
    },
    3,
  );
}

function powerFields(flow: Flow): void {
  const running = sum(named('Pumps_power')).plus(named('Plant_blower'));
  flow.heading('Power');
  flow.fields([
    {
      name: 'Plant_watts',
      label: 'Pumps and blower together, day and night',
      formula: running,
      quantity: 'power',
      look: 'result',
    },
    {
      name: 'Plant_energy',
      label: 'Energy a year',
      formula: named('Plant_watts').times(8.76),
      quantity: 'energy',
      look: 'computed',
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
      label: 'Cost a year',
      formula: blankWithout(
        [named('Plant_energy_price')],
        named('Plant_energy').times(named('Plant_energy_price')),
      ),
      quantity: 'number',
      format: 'money',
      look: 'result',
    },
    {
      name: 'Plant_outage',
      label: 'Outage to last through, on the blower alone',
      preset: 'Plant_outage',
      look: 'preset',
    },
    {
      name: 'Plant_battery',
      label: 'Battery for it',
      formula: named('Plant_blower')
        .times(named('Plant_outage'))
        .over(1000)
        .over(0.8 * 0.85),
      quantity: 'energy',
      format: 'one',
      look: 'result',
      remark: 'Four fifths of it used, 85 % through the inverter. Common practice, no source.',
    },
    {
      name: 'Plant_generator',
      label: 'Generator for pumps and blower',
      formula: named('Plant_watts').times(2),
      quantity: 'power',
      look: 'result',
      remark:
        'Twice what runs, since motors start with several times their power (common practice).',
    },
  ]);
}

type AtTank = At<'Plant'>;

/** The tank of the same row on the Tanks sheet. */
const ofTank = (
  name: 'Tanks_name' | 'Tanks_volume' | 'Tanks_fish' | 'Tanks_weight' | 'Tanks_species',
  row: number,
): Formula => nth(name, row + 1);

function tankColumns(ctx: PlanContext): Columns<TankEntry, 'Plant'> {
  const { gill } = ctx;
  const [level, water] = [named('Plant_oxygen'), named('Water_now')];
  /** Nothing where no fish stand. */
  const stocked = (at: AtTank, formula: Formula): Formula => blankWithout([at('use')], formula);
  const critical = (row: number): Formula =>
    nth('Fish_oxygen_critical', nth('Tanks_line', row + 1));
  const bacteria = (row: number): Formula =>
    named('Plant_bacteria').times(ofTank('Tanks_volume', row)).over(1000);
  const minutes = (look: 'computed' | 'result', head: string, note: string) => ({
    head,
    width: 11,
    look,
    quantity: 'number' as const,
    format: 'whole' as const,
    note,
  });
  /** g/h that the air of the tank brings at least, while the level is not above the one of the fields. */
  const supply = (at: AtTank): Formula =>
    when(
      at('air_there').orZero.above(0),
      plainCall(
        'OXYGEN.TRANSFER',
        call(
          'MAX',
          at('air_there')
            .orZero.times(1.204 * 0.2315)
            .times(named('Plant_dissolved'))
            .times(named('Plant_stone_depth')),
          0.000001,
        ),
        water,
        level,
      ).times(1000),
      0,
    );
  const flowIn = (row: number): Formula => nth('Pumps_turnover', row + 1).orZero;
  const inlet = named('Pump_return').times(named('Pump_full'));
  const out = (at: AtTank, row: number): Formula => at('use').plus(bacteria(row));
  /** Minutes that a tank lasts: what uses its oxygen, what is still supplied, and the water that runs in. */
  const lasts = (
    row: number,
    use: Formula,
    supply?: Formula,
    ...flow: readonly Formula[]
  ): Formula =>
    gill(
      'OXYGEN.MINUTES',
      ofTank('Tanks_volume', row),
      level,
      critical(row),
      use,
      supply,
      named('Plant_bacteria'),
      ...flow,
    );
  const columns: Columns<TankEntry, 'Plant'> = {
    tank: {
      head: 'Tank',
      width: 62,
      look: 'computed',
      formula: (_, row) => blankWithout([ofTank('Tanks_name', row)], ofTank('Tanks_name', row)),
    },
    air_there: {
      head: 'Air that it has',
      width: 11,
      look: 'input',
      quantity: 'airFlow',
      field: 'air',
      note: 'Of the air stones in this tank. Blank: what happens when the pump alone stops is left out.',
      rule: { rule: { kind: 'number', min: 0 }, message: 'Type the air that this tank gets.' },
    },
    use: {
      head: 'Use of oxygen an hour, peak, g',
      width: 11,
      look: 'result',
      quantity: 'number',
      format: 'one',
      note: 'By the fish of today, some hours after feeding.',
      formula: (_, row) =>
        blankIf(
          any(
            ofTank('Tanks_fish', row).orZero.is(0),
            ofTank('Tanks_weight', row).orZero.is(0),
            ofTank('Tanks_volume', row).orZero.is(0),
          ),
          gill(
            'OXYGEN.FISH',
            ofTank('Tanks_fish', row),
            ofTank('Tanks_weight', row),
            ofTank('Tanks_species', row),
            water,
          ).times(named('Plant_peak')),
        ),
      total: sum,
    },
    air: {
      head: 'Air that it needs',
      width: 10,
      look: 'result',
      quantity: 'airFlow',
      note: 'So that the level of the fields is held at the peak by air alone.',
      formula: (at) =>
        stocked(
          at,
          when(
            level.atLeast(named('Pump_full').times(0.98)),
            'less oxygen',
            gill(
              'AIR.DIFFUSED',
              at('use'),
              named('Plant_stone_depth'),
              water,
              level,
              named('Plant_dissolved'),
            ),
          ),
        ),
      total: sum,
    },
    stones: {
      head: 'Air stones',
      width: 9,
      look: 'computed',
      quantity: 'plants',
      format: 'whole',
      formula: (at) => stocked(at, roundedUp(at('air').orZero.over(named('Plant_stone_air')))),
      total: sum,
    },
    all_stops: {
      ...minutes(
        'result',
        'Minutes when all stops',
        'Until the oxygen at which the species is in danger.',
      ),
      formula: (at, row) => stocked(at, lasts(row, at('use'))),
    },
    air_stops: {
      ...minutes(
        'computed',
        'Minutes when the air stops',
        'While the pump runs on at the turnover of the Pumps sheet, with the oxygen that comes back.',
      ),
      formula: (at, row) => {
        const settles = inlet.minus(
          out(at, row)
            .times(1000)
            .over(call('MAX', flowIn(row), 0.001)),
        );
        return stocked(
          at,
          when(
            all(flowIn(row).above(0), settles.atLeast(critical(row))),
            HOLDS,
            lasts(row, at('use'), undefined, flowIn(row), inlet),
          ),
        );
      },
    },
    pump_stops: {
      ...minutes(
        'computed',
        'Minutes when the pump stops',
        'While the air that the tank has runs on.',
      ),
      formula: (at, row) =>
        stocked(
          at,
          blankWithout(
            [at('air_there')],
            when(
              at('supply').atLeast(out(at, row)),
              HOLDS,
              lasts(row, at('use'), call('MAX', at('supply'), 0)),
            ),
          ),
        ),
    },
    full: {
      ...minutes(
        'computed',
        'Minutes, all stops, tank at its limit',
        'With as many kilograms as the density limit of the Tanks sheet allows, fed like today.',
      ),
      formula: (at, row) => {
        const more = nth('Tanks_limit', row + 1).over(nth('Tanks_density', row + 1));
        return stocked(at, lasts(row, at('use').times(more)));
      },
    },
    verdict: {
      head: 'What lengthens them',
      width: 46,
      look: 'verdict',
      formula: (at) =>
        cases(
          [
            [at('use').isBlank, ''],
            [
              all(at('full').isNumber, at('full').below(MINUTES_TO_ACT)),
              'air on a battery that starts by itself, and an alarm',
            ],
            [at('air_stops').is(HOLDS), 'the flow alone carries the fish; no feed in an outage'],
          ],
          'stand-by air, more water to a fish, no feed before a storm',
        ),
    },
    pipe_water: {
      helper: true,
      head: 'Water in the pipe, L',
      width: 10,
      look: 'source',
      quantity: 'number',
      format: 'one',
      formula: (_, row) => {
        const [bore, pipe] = [nth('Pumps_bore', row + 1), nth('Pumps_pipe', row + 1)];
        return when(any(bore.orZero.is(0), pipe.orZero.is(0)), 0, gill('PIPE.VOLUME', bore, pipe));
      },
    },
    supply: {
      helper: true,
      head: 'Oxygen that the air brings an hour, g',
      width: 10,
      look: 'source',
      quantity: 'number',
      format: 'one',
      formula: (at) => supply(at),
    },
  };
  return columns satisfies Readonly<Record<string, RegisterColumn<TankEntry, 'Plant'>>>;
}

export function plantRoomSheet(ctx: PlanContext): SheetModel {
  const sheet = new SheetBuilder(PLANT_ROOM, {
    title: 'Plant room',
    question:
      'How long do the fish live when something stops, and what do air, water, heat and power ask for?',
    widths: [],
    landscape: true,
    headRows: 2,
    headColumns: 1,
  });
  sheet.cautions(2, 1, 8, ['air', 'electricity', 'sulphide', 'weight', 'heater', 'law']);
  const flow = new Flow(sheet, ctx, { row: 3, columns: 5, metricColumn: TWINS });
  airFields(ctx, flow);
  flow.skip();
  waterFields(ctx, flow);
  flow.skip();
  plantRoomMonths(sheet, ctx, flow);
  flow.skip();
  powerFields(flow);
  flow.skip();
  shoppingList(sheet, ctx, flow);
  flow.skip();
  flow.heading('Tank by tank');
  sheet.text(flow.skip(), 0, 'Whole farm', 'label');
  const made = register(sheet, ctx, {
    prefix: 'Plant',
    headRow: flow.skip(),
    columns: tankColumns(ctx),
    list: 'tanks',
    spare: SPARE_TANKS,
  });
  for (const id of ['all_stops', 'full'] as const) {
    const cell = made.first(id);
    sheet.mark(made.cells(id), all(cell.isNumber, cell.below(MINUTES_TO_ACT)), 'bad');
  }
  return sheet.model();
}

/** The price of an item of the list. */
type Price = Extract<PresetName, `Plant_price_${string}`>;

/** What a plan of this farm asks for: counted, and priced where a price is typed. */
function shoppingList(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const filled = (name: PlanName): Formula => call('COUNT', named(name));
  const { system } = ctx;
  const media = named('Gravel_area').times(named('Flood_depth')).times(1000);
  const shown = (figure: Formula, quantity: 'length' | 'volume') =>
    [inShownUnits(figure, quantity, system), shownIn(quantity, system).unit] as const;
  const many = (figure: Formula) => [figure, ''] as const;
  const lines: readonly (readonly [Price, string, readonly [Formula, string], string])[] = [
    ['Plant_price_tanks', 'Tanks', many(filled('Tanks_volume')), 'With lids or nets.'],
    ['Plant_price_beds', 'Beds', many(filled('Beds_area')), 'Of all kinds.'],
    [
      'Plant_price_gravel',
      'Gravel of the beds',
      shown(media, 'volume'),
      'Washed. Have the ground checked: wet it weighs nearly two tonnes a cubic metre.',
    ],
    [
      'Plant_price_media',
      'Filter media',
      shown(named('Filter_media'), 'volume'),
      'As on the Balance sheet.',
    ],
    [
      'Plant_price_pipe',
      'Pipe to the tanks',
      shown(sum(named('Pumps_pipe')), 'length'),
      'By bore on the Pumps sheet; buy a tenth over.',
    ],
    [
      'Plant_price_elbows',
      'Elbows',
      many(filled('Pumps_pipe').times(named('Pump_elbows').orZero)),
      'As the Pumps sheet counts them for each tank.',
    ],
    [
      'Plant_price_valves',
      'Valves',
      many(filled('Pumps_pipe').times(named('Pump_valves').orZero)),
      'As the Pumps sheet counts them for each tank.',
    ],
    [
      'Plant_price_pumps',
      'Pumps',
      many(when(sum(named('Pumps_turnover')).above(0), 2, 0)),
      'One that runs, and a spare.',
    ],
    [
      'Plant_price_blowers',
      'Blowers',
      many(when(sum(named('Plant_air')).above(0), 2, 0)),
      'One that runs, and a spare.',
    ],
    [
      'Plant_price_stones',
      'Air stones',
      many(sum(named('Plant_stones'))),
      'For the peak after feeding.',
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
  flow.heading('What to buy');
  flow.heads(['Item', 'How many', 'Unit', 'Price each', 'Cost']);
  const first = flow.row;
  lines.forEach(([price, item, [figure, unit], remark]) => {
    const row = flow.skip();
    sheet.text(row, 0, item, 'label');
    sheet.put(row, 1, { formula: figure, look: 'computed', format: 'whole' });
    if (unit) sheet.text(row, 2, unit, 'unit');
    const value = presetValue(price, ctx.farm.figures);
    sheet.put(row, 3, { ...(value !== undefined && { value }), look: 'input', format: 'money' });
    ctx.name(price, sheet.name, area(row, 3));
    ctx.typed.push(typedPreset(price, `${item}, price each`));
    sheet.rule(
      area(row, 3),
      { kind: 'number', min: 0, max: 1e6 },
      'Type the price of one, or leave it blank.',
    );
    sheet.put(row, 4, {
      formula: blankWithout([rowRef(row, 3)], rowRef(row, 1).times(rowRef(row, 3))),
      look: 'computed',
      format: 'money',
    });
    sheet.text(row, 5, remark, 'source');
  });
  const row = flow.skip();
  sheet.text(row, 0, 'Together, as far as priced', 'label');
  sheet.put(row, 4, {
    formula: sum(fixedRef(area(first, 4, lines.length))),
    look: 'result',
    format: 'money',
  });
}
