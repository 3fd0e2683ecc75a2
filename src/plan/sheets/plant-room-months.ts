import type { PlanContext } from '../context';
import { any, blankWithout, call, type Formula, sum, when } from '../formula-parts';
import { plainCall } from '../live-or-plain';
import { named, nth } from '../names';
import { fixedRef, rowRef } from '../references';
import { area, type SheetBuilder } from '../sheet-builder';
import type { Flow } from '../sheet-flow';

const MONTHS =
  'January February March April May June July August September October November December'.split(
    ' ',
  );
/** m2 of cover for each m3 of air, a usual tunnel. */
const COVER_PER_AIR = 0.686;
/** Air changes an hour of natural vents on a cold day: one in half an hour. */
const COLD_CHANGES = 2;
/** Nights are this much more humid than the mean of the day, at most saturated (common practice). */
const DAMP_NIGHT = 0.15;

/** Heat and light of the house, month by month. */
export function plantRoomMonths(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const { gill } = ctx;
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
      name: 'Plant_cover_loss',
      label: 'Heat loss rate of the cover, W/m²/K',
      preset: 'Plant_cover_loss',
      format: 'one',
      look: 'preset',
      remark: 'Single film 6.5, inflated double film 4, glass 6.2 (recalled).',
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
  ]);
  flow.wide({
    value:
      'The months of the Site sheet are the house unheated, with its sun: heat lifts it from there.',
    look: 'source',
  });
  flow.heads([
    'Month',
    'Days',
    'Heat, kWh',
    'Fuel (L, m³, kg or kWh)',
    'Light, mol/m² a day',
    'Degree-days, °C day',
    'Cold nights: the cover',
    'Drying by two hours of vents, kg',
    'Wet leaf until grey mould, h',
  ]);
  const first = flow.skip(12);
  const ifHouse = (formula: Formula): Formula =>
    blankWithout([named('House_volume'), named('Plant_cover')], formula);
  MONTHS.forEach((month, i) => {
    const row = first + i;
    const [high, low] = [nth('Month_high', i + 1), nth('Month_low', i + 1)];
    const humidity = nth('Month_humidity', i + 1);
    const year = call('YEAR', named('Farm_date'));
    const middle = call('DATE', year, i + 1, 15);
    const days = rowRef(row, 1);
    const night = call('MIN', 1, humidity.plus(DAMP_NIGHT));
    const put = (column: number, formula: Formula, format: 'whole' | 'one'): void =>
      sheet.put(row, column, { formula, look: 'computed', format });
    sheet.text(row, 0, month, 'label');
    put(1, call('DATE', year, i + 2, 1).minus(call('DATE', year, i + 1, 1)), 'whole');
    put(
      2,
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
        ),
      ),
      'whole',
    );
    put(
      3,
      blankWithout([rowRef(row, 2)], gill('HEAT.FUEL', rowRef(row, 2), named('Plant_fuel'))),
      'whole',
    );
    put(
      4,
      gill(
        'LIGHT.INSIDE',
        named('Farm_latitude'),
        middle,
        named('Plant_clearness'),
        named('Plant_film'),
      ),
      'one',
    );
    put(5, gill('DEGREE.DAYS', high, low, named('Plant_base')).times(days), 'whole');
    // A clear night, colder outside by half the swing of the day (common practice, no source).
    const outside = low.minus(high.minus(low).over(2));
    sheet.put(row, 6, {
      formula: when(
        plainCall('AIR.COVER', low, outside, named('Plant_cover_loss')).atMost(
          plainCall('AIR.DEWPOINT', low, call('MAX', night, 0.01)),
        ),
        'drips',
        'dry',
      ),
      look: 'computed',
    });
    put(
      7,
      blankWithout(
        [named('House_volume')],
        gill(
          'VENT.DRYING',
          named('House_volume').times(COLD_CHANGES),
          high.plus(low).over(2),
          call('MAX', humidity, 0.01),
          low,
          call('MAX', night, 0.01),
        ).times(2),
      ),
      'one',
    );
    put(
      8,
      when(
        any(low.below(9), low.above(28)),
        'none',
        gill('LEAF.WETNESS', 'grey mould', call('MEDIAN', 9, low, 28)),
      ),
      'whole',
    );
  });
  const year = flow.skip();
  sheet.text(year, 0, 'The year', 'label');
  for (const [column, format] of [
    [2, 'whole'],
    [3, 'whole'],
    [5, 'whole'],
  ] as const) {
    sheet.put(year, column, {
      formula: sum(fixedRef(area(first, column, 12))),
      look: 'result',
      format,
    });
  }
  ctx.name('Plant_heat', sheet.name, area(first, 2, 12));
  ctx.name('Plant_light', sheet.name, area(first, 4, 12));
  flow.fields([
    {
      label: 'Heat that the evaporation of the tanks takes, a day',
      formula: plainCall('HEAT.EVAPORATION', named('Plant_evaporation')),
      quantity: 'energy',
      look: 'computed',
      remark: 'A cover on the tanks saves most of it.',
    },
    {
      label: 'Heat that warms all the water by one degree',
      formula: gill('HEAT.WATER', named('Water_total'), 20, 21),
      quantity: 'energy',
      look: 'computed',
    },
    {
      label: 'Heater for the coldest month’s nights',
      formula: ifHouse(
        call(
          'MAX',
          0,
          plainCall(
            'HEAT.COVER',
            named('Plant_cover').plus(
              named('Plant_leaks')
                .times(named('House_volume'))
                .times(0.335)
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
      note: 'Cover and leaks at the mean low of the coldest month; a cold snap asks for more.',
    },
  ]);
}
