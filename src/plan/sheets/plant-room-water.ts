import { AMMONIA_PER_CHLORAMINE } from '../../core/dosing';
import type { PlanContext } from '../context';
import {
  all,
  any,
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
import { oneOf } from '../fields';
import { plainCall } from '../live-or-plain';
import { named, nth } from '../names';
import { figureInWords, inShownUnits, shownIn } from '../quantities';
import { SheetBuilder } from '../sheet-builder';
import type { Flow } from '../sheet-flow';

/** Crop coefficient of open water to 2 m deep: FAO-56, Table 12. */
const OPEN_WATER = 1.05;

/** L a day by the weather of a month, by its number: of beds, or of open water. */
export function waterUseOf(
  ctx: PlanContext,
  surface: Formula,
  month: Formula | number,
  date: Formula,
  crop?: number,
): Formula {
  const [high, low] = [nth('Month_high', month), nth('Month_low', month)];
  const latitude = named('Farm_latitude');
  return blankWithout(
    [high, low, latitude],
    ctx.gill('WATER.USE', surface, high, low, latitude, date, crop),
  );
}

/** L a day that open tanks evaporate in a month; 0 without tanks. */
export const tanksEvaporate = (ctx: PlanContext, month: Formula | number, date: Formula): Formula =>
  when(
    named('Plant_tank_surface').above(0),
    waterUseOf(ctx, named('Plant_tank_surface'), month, date, OPEN_WATER),
    0,
  );

const turnover = (): Formula => sum(named('Pumps_turnover'));

/** The pump that stands there, against what the ways to the tanks cost. */
function pumpFields(ctx: PlanContext, flow: Flow): void {
  const { gill } = ctx;
  const highest = call('MAX', named('Pumps_lift'));
  const loss = call('MAX', named('Pumps_loss'));
  flow.fields([
    {
      name: 'Plant_pump_shutoff',
      label: 'Pump: greatest lift, where nothing flows',
      preset: 'Plant_pump_shutoff',
      look: 'input',
      remark: 'From its label or curve. Blank where none is chosen yet.',
    },
    {
      name: 'Plant_pump_most',
      label: 'Pump: flow without any lift',
      preset: 'Plant_pump_most',
      look: 'input',
    },
    {
      name: 'Plant_pumps_running',
      label: 'Such pumps that run side by side',
      preset: 'Plant_pumps_running',
      format: 'whole',
      look: 'preset',
    },
    {
      name: 'Plant_turnover',
      label: 'Flow that the tanks ask for',
      formula: turnover(),
      quantity: 'flow',
      look: 'computed',
    },
    {
      name: 'Plant_head',
      label: 'Head at that flow',
      formula: highest.plus(loss),
      quantity: 'length',
      look: 'computed',
      note: 'The highest lift and the dearest pipe with its fittings; valves even out the others.',
    },
    {
      name: 'Plant_pump_flow',
      label: 'The pumps really give',
      formula: blankWithout(
        [named('Plant_pump_shutoff'), named('Plant_pump_most')],
        cases(
          [
            [turnover().is(0), ''],
            [named('Plant_pump_shutoff').atMost(highest), 'nothing so high'],
          ],
          gill(
            'FLOW.PUMP',
            named('Plant_pump_shutoff'),
            named('Plant_pump_most').times(named('Plant_pumps_running')),
            highest,
            loss,
            turnover(),
          ),
        ),
      ),
      quantity: 'flow',
      look: 'result',
      note: 'Where the curve of the pumps meets lift and friction.',
    },
  ]);
}

function returnFields(ctx: PlanContext, flow: Flow): void {
  const { gill } = ctx;
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
      name: 'Plant_drain_length',
      label: 'Its length',
      preset: 'Plant_drain_length',
      look: 'input',
      remark: 'For the list of what to buy.',
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
      name: 'Plant_drain_pipes',
      label: 'Such pipes for the flow of all pumps',
      formula: roundedUp(turnover().times(2).over(named('Plant_drain'))),
      quantity: 'number',
      format: 'whole',
      look: 'result',
      note: 'Each counted at half of what it carries clean.',
    },
    {
      name: 'Plant_settler_area',
      label: 'Surface of the settlers',
      preset: 'Plant_settler_area',
      look: 'input',
      remark: 'Blank where there is none.',
    },
    {
      name: 'Plant_settler',
      label: 'Kind of settler',
      preset: 'Plant_settler',
      across: 2,
      look: 'preset',
      rule: oneOf('Plant_settler'),
    },
    {
      name: 'Plant_settled',
      label: 'Solids that they take out in a pass',
      formula: blankWithout(
        [named('Plant_settler_area')],
        plainCall(
          'SOLIDS.SETTLED',
          turnover(),
          named('Plant_settler_area'),
          named('Plant_settler'),
        ),
      ),
      quantity: 'share',
      look: 'result',
    },
    {
      name: 'Plant_screen',
      label: 'Solids that a screen behind them takes out in a pass',
      preset: 'Plant_screen',
      look: 'input',
      remark:
        'Drum screen of 60 µm 30 to 80 % (recalled): ask the maker. Blank where there is none.',
    },
    {
      name: 'Plant_solids_left',
      label: 'Solids that both leave in the water in a pass',
      formula: when(
        all(named('Plant_settled').isBlank, named('Plant_screen').isBlank),
        '',
        part(1)
          .minus(named('Plant_settled').orZero)
          .times(part(1).minus(named('Plant_screen').orZero)),
      ),
      quantity: 'share',
      look: 'result',
    },
  ]);
}

/** Bores of returns that can be bought anywhere, mm and in. */
const bores = { metric: [50, 75, 100, 150, 200], US: [2, 3, 4, 6, 8].map((inch) => inch * 25.4) };
const slopes = [0.005, 0.01, 0.02];

function returnTable(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const { system } = ctx;
  const { unit, format } = shownIn('flow', system);
  const bore = shownIn('bore', system);
  flow.heads([
    `A return half full and clean carries, ${unit}`,
    ...slopes.map((slope) => `at ${slope * 100} %`),
  ]);
  for (const width of bores[system]) {
    const row = flow.skip();
    sheet.text(row, 0, `Bore of ${Math.round(width / bore.factor)} ${bore.unit}`, 'label');
    slopes.forEach((slope, i) =>
      sheet.put(row, i + 1, {
        formula: inShownUnits(plainCall('FLOW.DRAIN', width, slope), 'flow', system),
        look: 'computed',
        format,
      }),
    );
  }
}

function makeupFields(ctx: PlanContext, flow: Flow): void {
  const { gill } = ctx;
  const month = call('MONTH', named('Farm_date'));
  const bedArea = sum(named('Beds_area'));
  const out = named('Plant_discharge').times(named('Water_total'));
  const afterYear = (source: 'Plant_source_sodium' | 'Plant_source_hardness'): Formula =>
    blankWithout(
      [named('Plant_makeup')],
      gill(
        'WATER.BUILDUP',
        named('Water_total'),
        named(source),
        named('Plant_makeup'),
        named(source),
        out,
        365,
      ),
    );
  flow.fields([
    {
      name: 'Plant_tank_depth',
      label: 'Depth of the tanks',
      preset: 'Plant_tank_depth',
      look: 'preset',
      remark: 'For their surface, which evaporates.',
    },
    {
      name: 'Plant_tank_surface',
      label: 'Surface of the tanks',
      formula: sum(named('Tanks_volume')).over(1000).over(named('Plant_tank_depth')),
      quantity: 'area',
      look: 'computed',
    },
    {
      name: 'Plant_crop_water',
      label: 'Water that the beds take up, a day this month',
      formula: when(bedArea.above(0), waterUseOf(ctx, bedArea, month, named('Farm_date')), 0),
      quantity: 'volume',
      look: 'computed',
      note: 'For full beds in the open; under a cover 0.6 to 0.8 of it (common practice).',
    },
    {
      name: 'Plant_evaporation',
      label: 'Water that open tanks evaporate, a day',
      formula: tanksEvaporate(ctx, month, named('Farm_date')),
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
      formula: blankWithout(
        [named('Plant_crop_water'), named('Plant_evaporation'), named('Water_total')],
        plainCall('WATER.BALANCE', named('Plant_crop_water'), named('Plant_evaporation'), out),
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
      remark: 'From an analysis; chloride goes the same way.',
    },
    {
      name: 'Plant_sodium',
      label: 'Sodium after a year',
      formula: afterYear('Plant_source_sodium'),
      quantity: 'concentration',
      look: 'result',
      remark: 'Leafy crops suffer above 50 to 70 mg/L (recalled).',
      mark: [(cell) => cell.above(50), 'watch'],
    },
    {
      name: 'Plant_source_hardness',
      label: 'Hardness of the source water',
      preset: 'Plant_source_hardness',
      look: 'input',
      note: 'From an analysis. Blank leaves it out.',
    },
    {
      name: 'Plant_hardness',
      label: 'Hardness after a year, at most',
      formula: blankWithout([named('Plant_source_hardness')], afterYear('Plant_source_hardness')),
      quantity: 'alkalinity',
      look: 'result',
      note: 'As if no plant took up calcium or magnesium, and no lime fell out.',
    },
    {
      name: 'Plant_source_chlorine',
      label: 'Chlorine in the source water, in all',
      preset: 'Plant_source_chlorine',
      look: 'input',
      remark: 'Measured, or from the water works; 0 for rain or a well without any.',
    },
    {
      name: 'Plant_disinfectant',
      label: 'What the works add',
      preset: 'Plant_disinfectant',
      across: 2,
      look: 'preset',
      rule: oneOf('Plant_disinfectant'),
      note: 'Ask them: chloramine does not air out, and sets ammonia free.',
    },
    {
      name: 'Plant_thiosulphate',
      label: 'Sodium thiosulphate for the make-up, g a day',
      formula: blankWithout(
        [named('Plant_source_chlorine')],
        gill('DOSE.DECHLOR', call('MAX', named('Plant_makeup'), 0), named('Plant_source_chlorine')),
      ),
      quantity: 'number',
      format: 'one',
      look: 'result',
      note: 'Crystals (pentahydrate), in a tank apart, before the water meets the fish. Measure the chlorine again.',
    },
    {
      name: 'Plant_chloramine',
      label: 'Ammonia nitrogen set free in the make-up',
      formula: blankWithout(
        [named('Plant_source_chlorine')],
        when(
          named('Plant_disinfectant').is('chloramine'),
          named('Plant_source_chlorine').times(AMMONIA_PER_CHLORAMINE),
          0,
        ),
      ),
      quantity: 'concentration',
      look: 'result',
      mark: [(cell) => all(cell.isNumber, cell.above(0)), 'watch'],
    },
  ]);
  flow.wide(
    {
      formula: cases(
        [
          [
            named('Plant_source_chlorine').isBlank,
            'Nothing is said of chlorine: ask the water works what they add, and test, before any tap water meets fish or filter.',
          ],
          [named('Plant_source_chlorine').is(0), 'No chlorine, as typed: test it now and then.'],
          [
            named('Plant_disinfectant').is('chloramine'),
            'Chloramine does not air out. Thiosulphate takes the chlorine and leaves ammonia: let the filter of a tank apart take it up, test chlorine, ammonia and pH, and only then let it in.',
          ],
        ],
        'Treat each day’s make-up in a tank apart, air it, and test the chlorine before it meets fish or filter.',
      ),
      look: 'verdict',
    },
    2,
  );
}

function sumpFields(ctx: PlanContext, flow: Flow): void {
  const { gill, system } = ctx;
  flow.fields([
    {
      name: 'Plant_submerged',
      label: 'Water that must stand over the pump',
      preset: 'Plant_submerged',
      look: 'preset',
      remark: 'So that it does not suck air.',
    },
    {
      name: 'Plant_sump',
      label: 'Water that the sump must hold',
      formula: blankWithout(
        [named('Plant_evaporation')],
        gill(
          'SUMP.VOLUME',
          sum(named('Plant_pipe_water')),
          named('Flood_volume'),
          named('Plant_submerged'),
          named('Plant_evaporation'),
        ),
      ),
      quantity: 'volume',
      look: 'result',
      note: 'Pipes that run empty, beds that drain at once, water over the pump, one day of evaporation.',
    },
  ]);
  const gives = named('Plant_pump_flow');
  flow.wide(
    {
      formula: joined(
        cases(
          [
            [
              any(named('Sump_volume').isBlank, named('Plant_sump').isBlank),
              'Whether the sump takes it stays open: its water, the latitude or the months are not said yet.',
            ],
            [named('Sump_volume').atLeast(named('Plant_sump')), 'The sump takes it.'],
          ],
          joined(
            'The sump is ',
            figureInWords(named('Plant_sump').minus(named('Sump_volume')), 'volume', system),
            ' short of that: when the power fails it runs over, or the pump runs dry.',
          ),
        ),
        ' ',
        when(
          named('Plant_drain_pipes').atMost(1),
          'One return carries the flow of all pumps.',
          joined(
            'The return carries the flow of all pumps only with ',
            written(named('Plant_drain_pipes'), '0'),
            ' such pipes, counted at half of what they carry clean.',
          ),
        ),
        cases(
          [
            [gives.isBlank, ''],
            [gives.is('nothing so high'), ' The pump does not reach the highest tank.'],
            [
              gives.below(turnover()),
              joined(
                ' The pumps give ',
                figureInWords(turnover().minus(gives), 'flow', system),
                ' less than the tanks ask for.',
              ),
            ],
          ],
          ' The pumps give what the tanks ask for.',
        ),
      ),
      look: 'verdict',
    },
    3,
  );
}

/** Returns the row in which the make-up water begins. */
export function waterFields(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): number {
  flow.heading('Water ways');
  pumpFields(ctx, flow);
  returnFields(ctx, flow);
  returnTable(sheet, ctx, flow);
  flow.skip();
  const makeup = flow.row;
  flow.heading('Make-up water and sump');
  makeupFields(ctx, flow);
  sumpFields(ctx, flow);
  return makeup;
}
