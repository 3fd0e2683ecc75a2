import { MONTH_NAMES } from '../../core/month-names';
import { EVAPORATION_HEAT } from '../../core/month-heat';
import type { PlanContext } from '../context';
import { cropFigure } from '../crop-figures';
import {
  all,
  any,
  blankWithout,
  call,
  cases,
  type Formula,
  joined,
  part,
  sum,
  when,
} from '../formula-parts';
import { plainCall } from '../live-or-plain';
import { isOpen } from '../month-cells';
import { named, nth } from '../names';
import { inShownUnits, type QuantityId, shownIn } from '../quantities';
import { cellRef, fixedRef, rowRef } from '../references';
import { area, type SheetBuilder } from '../sheet-builder';
import type { Flow } from '../sheet-flow';
import type { FormatId } from '../workbook-model';
import { tanksEvaporate } from './plant-room-water';

/** m2 of cover for each m3 of air, a usual tunnel. */
const COVER_PER_AIR = 0.686;
/** m from floor to cover, on average, of a usual tunnel. */
const MEAN_HEIGHT = 2.5;
/** Air changes an hour of natural vents on a cold day: one in half an hour. */
const COLD_CHANGES = 2;
/** Nights are this much more humid than the mean of the day, at most saturated (common practice). */
const DAMP_NIGHT = 0.15;
/** W/m2 above the air, and the share of it that reaches the ground at noon under a clear sky. */
const SOLAR_CONSTANT = 1361;
const CLEAR_NOON = 0.75;
/** mol/m2 a day that leafy crops and herbs, and fruiting crops, want at least. */
const LEAFY_LIGHT = 12;
const FRUITING_LIGHT = 20;

function houseFields(flow: Flow): void {
  flow.heading('Heat and light of the house');
  flow.fields([
    {
      name: 'Plant_cover',
      label: 'Cover of the house, walls and ends too',
      preset: 'Plant_cover',
      formula: blankWithout([named('House_volume')], named('House_volume').times(COVER_PER_AIR)),
      look: 'preset',
      remark: 'Guessed from its air, 240 m² for 350 m³: measure your own.',
    },
    {
      name: 'Plant_floor',
      label: 'Floor of the house',
      preset: 'Plant_floor',
      formula: blankWithout([named('House_volume')], named('House_volume').over(MEAN_HEIGHT)),
      look: 'preset',
      remark: 'Guessed from its air, at 2.5 m of mean height: measure your own.',
    },
    {
      name: 'Plant_edge',
      label: 'Outer wall along the ground, not insulated',
      preset: 'Plant_edge',
      look: 'input',
      remark: 'Blank leaves the ground out.',
    },
    {
      name: 'Plant_cover_loss',
      label: 'Heat loss rate of the cover, W/m²/K',
      preset: 'Plant_cover_loss',
      format: 'one',
      look: 'preset',
      remark: 'Single film 6.5, inflated double film 4, glass 6.2 (recalled).',
      note: '1 Btu/h/ft²/°F is 5.68 W/m²/K.',
    },
    {
      name: 'Plant_leaks',
      label: 'Air changes an hour with the vents shut',
      preset: 'Plant_leaks',
      look: 'preset',
    },
    {
      name: 'Plant_warmth',
      label: 'Temperature that the house is kept at',
      preset: 'Plant_warmth',
      look: 'preset',
    },
    {
      name: 'Plant_tank_loss',
      label: 'Heat loss rate of tank walls and surface, W/m²/K',
      preset: 'Plant_tank_loss',
      format: 'one',
      look: 'preset',
      remark: 'Bare 5; covered, with 2.5 cm of foam on the walls, 1 (recalled).',
    },
    {
      name: 'Plant_tank_walls',
      label: 'Walls of the tanks, times those of round ones',
      preset: 'Plant_tank_walls',
      format: 'two',
      look: 'preset',
      remark: 'Round 1, square 1.13, four times as long as wide 1.41 (geometry).',
    },
    {
      name: 'Plant_base',
      label: 'Base of the degree-days',
      preset: 'Plant_base',
      look: 'preset',
      remark: 'Lettuce and most leafy crops (recalled).',
    },
    {
      name: 'Plant_fuel',
      label: 'Fuel of the heater',
      preset: 'Plant_fuel',
      across: 2,
      look: 'preset',
      note: 'propane, heating oil, kerosene, natural gas, wood pellets or electricity.',
    },
    {
      name: 'Plant_fuel_price',
      label: 'Price of the fuel, for a L, m³, kg or kWh of it',
      preset: 'Plant_fuel_price',
      format: 'money',
      look: 'input',
      remark: 'Blank leaves the cost out. A US gallon is 3.785 L.',
    },
    {
      name: 'Plant_clearness',
      label: 'Sunshine that reaches the ground',
      preset: 'Plant_clearness',
      look: 'preset',
      remark: 'Dull 35 %, temperate year 50 %, dry and sunny 65 % (recalled).',
    },
    {
      name: 'Plant_film',
      label: 'Light that the cover lets in',
      preset: 'Plant_film',
      look: 'preset',
      remark: 'New film 75 %, old 60 %.',
    },
    {
      name: 'Plant_shade',
      label: 'Light that the shade cloth takes',
      preset: 'Plant_shade',
      look: 'preset',
      remark: '30 % is the commonest in tunnels.',
    },
    {
      name: 'Plant_shade_from',
      label: 'Warmest days from which the cloth goes on',
      preset: 'Plant_shade_from',
      look: 'preset',
      remark: 'Tomato sets no fruit above 32 °C (90 °F). Common practice, no source.',
    },
    {
      name: 'Plant_rise',
      label: 'House over outside at noon that vents must keep, °C',
      preset: 'Plant_rise',
      format: 'one',
      look: 'preset',
      remark: '5 °C are 9 °F.',
    },
    {
      name: 'Plant_lamps_ppfd',
      label: 'Lamps at the leaves, µmol/m²/s',
      preset: 'Plant_lamps_ppfd',
      format: 'whole',
      look: 'input',
      remark: 'Blank where there are none.',
    },
    {
      name: 'Plant_lamps_hours',
      label: 'Lamps burn',
      preset: 'Plant_lamps_hours',
      look: 'preset',
      unit: 'h a day',
    },
    {
      name: 'Plant_lamps_light',
      label: 'Light that they add, mol/m² a day',
      formula: when(
        named('Plant_lamps_ppfd').orZero.above(0),
        plainCall('LIGHT.LAMPS', named('Plant_lamps_ppfd'), named('Plant_lamps_hours')),
        0,
      ),
      quantity: 'number',
      format: 'one',
      look: 'computed',
    },
  ]);
}

interface MonthColumn {
  readonly head: string;
  readonly quantity?: QuantityId;
  readonly format: FormatId;
  /** Empty without a house. */
  readonly house?: true;
  readonly formula: (at: (column: keyof typeof places) => Formula) => Formula;
}

/** Columns of the months, after the name. */
const places = {
  heat: 1,
  fuel: 2,
  tanks: 3,
  light: 4,
  degrees: 5,
  vent: 6,
  shaded: 7,
  cover: 8,
  dew: 9,
  drips: 10,
  drying: 11,
  downy: 12,
  grey: 13,
  says: 14,
} as const;

/** What of the site a column rests on: nothing stands in it as long as one of them is not said. */
function needsOf(id: keyof typeof places, i: number): readonly Formula[] {
  const [high, low] = [nth('Month_high', i + 1), nth('Month_low', i + 1)];
  const humidity = nth('Month_humidity', i + 1);
  const latitude = named('Farm_latitude');
  switch (id) {
    case 'heat':
    case 'degrees':
    case 'cover':
      return [high, low];
    case 'tanks':
      return [high, low, nth('Month_water', i + 1), latitude];
    case 'light':
    case 'vent':
      return [latitude];
    case 'dew':
    case 'drips':
    case 'drying':
      return [high, low, humidity];
    case 'downy':
    case 'grey':
      return [low];
    case 'says':
      return [high, latitude];
    default:
      return [];
  }
}

/** What stands in the columns of one month, from 0 for January. */
function monthColumns(ctx: PlanContext, i: number): Record<keyof typeof places, MonthColumn> {
  const { gill } = ctx;
  const [high, low] = [nth('Month_high', i + 1), nth('Month_low', i + 1)];
  const humidity = nth('Month_humidity', i + 1);
  const year = call('YEAR', named('Farm_date'));
  const middle = call('DATE', year, i + 1, 15);
  const days = call('DATE', year, i + 2, 1).minus(call('DATE', year, i + 1, 1));
  const night = call('MIN', 1, humidity.plus(DAMP_NIGHT));
  const damp = call('MAX', night, 0.01);
  const ifHouse = (formula: Formula): Formula =>
    blankWithout([named('House_volume'), named('Plant_cover')], formula);
  // Blank without a house: MAX passes over it.
  const warmed = (air: Formula): Formula => call('MAX', air, named('Plant_tank_air'));
  // A clear night, colder outside by half the swing of the day (common practice, no source).
  const outside = low.minus(high.minus(low).over(2));
  const noon = call(
    'MAX',
    0,
    call('SIN', gill('SUN.NOON', named('Farm_latitude'), middle).times(Math.PI / 180)).times(
      SOLAR_CONSTANT * CLEAR_NOON,
    ),
  );
  const wet = (disease: string, from: number): Formula =>
    when(
      any(low.below(from), low.above(28)),
      'none',
      gill('LEAF.WETNESS', disease, call('MEDIAN', from, low, 28)),
    );
  const clothed = part(1).minus(named('Plant_shade'));
  return {
    heat: {
      head: 'Heat, kWh',
      format: 'whole',
      formula: () =>
        ifHouse(
          gill(
            'HEAT.MONTH',
            named('Plant_cover'),
            named('Plant_cover_loss'),
            named('House_volume'),
            named('Plant_leaks'),
            named('Plant_warmth'),
            high,
            low,
            days,
            named('Plant_edge').orZero,
          ),
        ),
    },
    fuel: {
      head: 'Fuel (L, m³, kg or kWh)',
      format: 'whole',
      formula: (at) =>
        blankWithout([at('heat')], gill('HEAT.FUEL', at('heat'), named('Plant_fuel'))),
    },
    tanks: {
      head: 'Tanks lose, kWh',
      format: 'whole',
      formula: () =>
        when(
          named('Plant_tank_sides').above(0),
          gill(
            'HEAT.MONTH',
            named('Plant_tank_sides'),
            named('Plant_tank_loss'),
            0,
            0,
            nth('Month_water', i + 1),
            warmed(high),
            warmed(low),
            days,
          ).plus(
            tanksEvaporate(ctx, i + 1, middle)
              .times(days)
              .times(EVAPORATION_HEAT / 3.6),
          ),
          0,
        ),
    },
    light: {
      head: 'Light, mol/m² a day',
      format: 'one',
      formula: () =>
        gill(
          'LIGHT.INSIDE',
          named('Farm_latitude'),
          middle,
          named('Plant_clearness'),
          named('Plant_film'),
        ),
    },
    degrees: {
      head: 'Degree-days, °C day',
      format: 'whole',
      formula: () => gill('DEGREE.DAYS', high, low, named('Plant_base')).times(days),
    },
    vent: {
      head: 'Air changes an hour at sunny noon',
      format: 'whole',
      formula: () =>
        blankWithout(
          [named('House_volume'), named('Plant_floor')],
          gill(
            'VENT.HEAT',
            named('Plant_floor'),
            noon,
            named('Plant_rise'),
            0,
            named('Plant_film'),
          ).over(named('House_volume')),
        ),
    },
    shaded: {
      head: 'The same under the cloth',
      format: 'whole',
      formula: (at) => blankWithout([at('vent')], at('vent').times(clothed)),
    },
    cover: {
      head: 'Cover, cold clear night',
      quantity: 'temperature',
      format: 'one',
      formula: () => plainCall('AIR.COVER', low, outside, named('Plant_cover_loss')),
    },
    dew: {
      head: 'Dew point of the night',
      quantity: 'temperature',
      format: 'one',
      formula: () => plainCall('AIR.DEWPOINT', low, damp),
    },
    drips: {
      head: 'The cover then',
      format: 'general',
      formula: (at) => when(at('cover').atMost(at('dew')), 'drips', 'stays dry'),
    },
    drying: {
      head: 'Drying by two hours of vents',
      quantity: 'mass',
      format: 'one',
      house: true,
      formula: () =>
        gill(
          'VENT.DRYING',
          named('House_volume').times(COLD_CHANGES),
          high.plus(low).over(2),
          call('MAX', humidity, 0.01),
          low,
          damp,
        ).times(2),
    },
    downy: {
      head: 'Wet leaf until downy mildew, h',
      format: 'whole',
      formula: () => wet('downy mildew', 10),
    },
    grey: {
      head: 'Wet leaf until grey mould, h',
      format: 'whole',
      formula: () => wet('grey mould', 9),
    },
    says: {
      head: 'Light with the lamps is enough for',
      format: 'general',
      formula: (at) => {
        const light = at('light').plus(named('Plant_lamps_light'));
        const shaded = at('light').times(clothed).plus(named('Plant_lamps_light'));
        return joined(
          cases(
            [
              [light.atLeast(FRUITING_LIGHT), 'all crops'],
              [light.atLeast(LEAFY_LIGHT), 'leafy crops and herbs'],
            ],
            'hardly any growth',
          ),
          when(
            all(high.atLeast(named('Plant_shade_from')), shaded.atLeast(LEAFY_LIGHT)),
            '; cloth on',
            '',
          ),
        );
      },
    },
  };
}

/** Lines for crops that are typed on Sowing after the plan was made. */
const SPARE_CROPS = 3;

/** The least light that a crop of a line of Crops wants, mol/m2 a day. */
export const leastLight = (line: Formula): Formula => {
  const least = cropFigure('daily_light_min', line);
  return when(least.isNumber, least, cropFigure('daily_light', line));
};

/** Light of each month against what each crop that is sold wants at least. */
function lightOfCrops(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  flow.wide({
    value:
      'Light with the lamps, of the least that a crop of the Sowing sheet wants: below 100 % it grows slowly or thin, whatever the warmth. Beds says it for each bed, over the time until its cut.',
    look: 'source',
  });
  flow.heads(['Crop', 'Wants, mol/m² a day', ...MONTH_NAMES.map((month) => month.slice(0, 3))]);
  const crops = ctx.farm.markets.length + SPARE_CROPS;
  const first = flow.skip(crops);
  for (let i = 0; i < crops; i++) {
    const row = first + i;
    const line = nth('Sowing_line', i + 1);
    // A crop on several lines of Sowing stands here once.
    const isFirst = all(line.isNumber, call('MATCH', line, named('Sowing_line'), 0).is(i + 1));
    sheet.put(row, 0, {
      formula: call('IFERROR', when(isFirst, nth('Sowing_crop', i + 1), ''), ''),
      look: 'label',
    });
    sheet.put(row, 1, {
      formula: blankWithout([rowRef(row, 0)], leastLight(line)),
      look: 'computed',
      format: 'one',
    });
    MONTH_NAMES.forEach((_, m) => {
      const light = nth('Plant_light', m + 1);
      sheet.put(row, 2 + m, {
        formula: blankWithout(
          [rowRef(row, 1), light],
          light.plus(named('Plant_lamps_light')).over(rowRef(row, 1)),
        ),
        look: 'computed',
        format: 'percent',
      });
    });
  }
  const cell = cellRef(first, 2);
  sheet.mark(area(first, 2, crops, MONTH_NAMES.length), all(cell.isNumber, cell.below(1)), 'watch');
}

/** Heat and light of the house, month by month; returns the rows in which the months and the light of the crops begin. */
export function plantRoomMonths(
  sheet: SheetBuilder,
  ctx: PlanContext,
  flow: Flow,
): readonly number[] {
  const { gill, system } = ctx;
  houseFields(flow);
  flow.fields([
    {
      name: 'Plant_tank_sides',
      label: 'Walls and surface of the tanks',
      formula: when(
        named('Plant_tank_surface').above(0),
        named('Plant_tank_surface').plus(
          named('Plant_tank_surface')
            .times(Math.PI)
            .times(call('COUNT', named('Tanks_volume')))
            .power(0.5)
            .times(2)
            .times(named('Plant_tank_depth'))
            .times(named('Plant_tank_walls')),
        ),
        0,
      ),
      quantity: 'area',
      look: 'computed',
      note: 'Counted as tanks of one size.',
    },
    {
      name: 'Plant_tank_air',
      label: 'Air around the tanks is kept at',
      formula: blankWithout([named('House_volume')], named('Plant_warmth')),
      quantity: 'temperature',
      look: 'computed',
      note: 'Without a house the tanks stand in the air of the Site sheet.',
    },
  ]);
  const months = flow.row;
  flow.wide({
    value:
      'The months of the Site sheet are the house unheated, with its sun: heat lifts it from there.',
    look: 'source',
  });
  const names = Object.keys(places) as (keyof typeof places)[];
  const shownHead = ({ head, quantity }: MonthColumn): string =>
    quantity ? `${head}, ${shownIn(quantity, system).unit}` : head;
  const heads = monthColumns(ctx, 0);
  flow.heads(['Month', ...names.map((id) => shownHead(heads[id]))]);
  const first = flow.skip(12);
  MONTH_NAMES.forEach((month, i) => {
    const row = first + i;
    const columns = monthColumns(ctx, i);
    sheet.text(row, 0, month, 'label');
    for (const id of names) {
      const { quantity, format, house, formula } = columns[id];
      const metric = formula((column) => rowRef(row, places[column]));
      const shown = quantity ? inShownUnits(metric, quantity, system) : metric;
      const missing = [...(house ? [named('House_volume')] : []), ...needsOf(id, i)];
      sheet.put(row, places[id], {
        formula: missing.length > 0 ? blankWithout(missing, shown) : shown,
        look: 'computed',
        format,
      });
    }
  });
  const year = flow.skip();
  sheet.text(year, 0, 'The year', 'label');
  for (const id of ['heat', 'fuel', 'tanks', 'degrees'] as const) {
    sheet.put(year, places[id], {
      formula: sum(fixedRef(area(first, places[id], 12))),
      look: 'result',
      format: 'whole',
    });
  }
  for (const [name, id] of [
    ['Plant_heat', 'heat'],
    ['Plant_tank_heat', 'tanks'],
    ['Plant_light', 'light'],
    ['Plant_vent', 'vent'],
  ] as const)
    ctx.name(name, sheet.name, area(first, places[id], 12));
  const cost = (kilowattHours: Formula): Formula =>
    blankWithout(
      [named('Plant_fuel_price')],
      gill('HEAT.FUEL', kilowattHours, named('Plant_fuel')).times(named('Plant_fuel_price')),
    );
  flow.fields([
    {
      name: 'Plant_fuel_cost',
      label: 'Cost of the house’s heat, a year',
      formula: cost(sum(named('Plant_heat'))),
      quantity: 'number',
      format: 'money',
      look: 'result',
      remark: 'To check the bill that you typed among the costs on Money, which alone counts.',
    },
    {
      name: 'Plant_tank_cost',
      label: 'Cost of the tanks’ heat with that fuel, a year',
      formula: cost(sum(named('Plant_tank_heat'))),
      quantity: 'number',
      format: 'money',
      look: 'result',
      note: 'As if all of it were bought: sun and pumps give a part of it. What the tanks lose warms the house.',
    },
    {
      label: 'Heat that the evaporation of the tanks takes, a day',
      formula: blankWithout(
        [named('Plant_evaporation')],
        plainCall('HEAT.EVAPORATION', named('Plant_evaporation')),
      ),
      quantity: 'energy',
      look: 'computed',
      remark: 'A cover on the tanks saves most of it.',
    },
    {
      label: 'Heat that warms all the water by one degree',
      formula: blankWithout(
        [named('Water_total')],
        gill('HEAT.WATER', named('Water_total'), 20, 21),
      ),
      quantity: 'energy',
      look: 'computed',
    },
    {
      name: 'Plant_heater',
      label: 'Heater for the coldest month’s nights',
      formula: blankWithout(
        [named('House_volume'), named('Plant_cover'), call('IF', isOpen('Month_low'), '', 1)],
        call(
          'MAX',
          0,
          plainCall(
            'HEAT.COVER',
            named('Plant_cover').plus(
              named('Plant_leaks')
                .times(named('House_volume'))
                .times(0.335)
                .plus(named('Plant_edge').orZero.times(1.38))
                .over(named('Plant_cover_loss')),
            ),
            named('Plant_cover_loss'),
            named('Plant_warmth'),
            call('MIN', named('Month_low')),
          ),
        ),
      ),
      quantity: 'power',
      look: 'result',
      note: 'Cover, leaks and ground at the mean low of the coldest month; a cold snap asks for more.',
    },
    {
      name: 'Plant_heater_there',
      label: 'Heater that is there',
      preset: 'Plant_heater_there',
      look: 'input',
      remark: 'What it gives to the house. Blank where none is chosen yet.',
      mark: [
        (cell) => all(cell.isNumber, cell.orZero.below(named('Plant_heater').orZero)),
        'watch',
      ],
    },
    {
      name: 'Plant_wet_hours',
      label: 'Own record: hours a day that leaves were wet, last week',
      preset: 'Plant_wet_hours',
      look: 'input',
      remark: 'Blank leaves the warning out.',
    },
    {
      name: 'Plant_night_hours',
      label: 'Own record: night hours at 9 to 21 °C (48 to 70 °F)',
      preset: 'Plant_night_hours',
      look: 'input',
      remark: 'Between 18:00 and 08:00, mean of the week.',
    },
    {
      name: 'Plant_mould',
      label: 'Above the limits of grey mould by',
      formula: blankWithout(
        [named('Plant_wet_hours'), named('Plant_night_hours')],
        gill('LEAF.WARNING', named('Plant_wet_hours'), named('Plant_night_hours')),
      ),
      quantity: 'hours',
      look: 'result',
      remark: 'Above 0: vent at dusk and at sunrise (Yunis et al. 1994).',
      mark: [(cell) => all(cell.isNumber, cell.above(0)), 'watch'],
    },
  ]);
  const light = flow.skip();
  lightOfCrops(sheet, ctx, flow);
  return [months, light];
}
