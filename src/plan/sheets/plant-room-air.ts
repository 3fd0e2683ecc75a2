import { MINUTES_TO_ACT, USUAL_OXYGEN } from '../../core/fish-oxygen';
import type { PlanContext } from '../context';
import {
  blankWithout,
  call,
  cases,
  type Formula,
  joined,
  sum,
  when,
  written,
} from '../formula-parts';
import { plainCall } from '../live-or-plain';
import { named, nth } from '../names';
import type { Flow } from '../sheet-flow';

/** Share by weight of oxygen in air, times kg of a m3 at 20 °C. */
const OXYGEN_IN_AIR = 1.204 * 0.2315;

/** g/h that so much air brings at least, while the level is not above the one of the fields. */
export const airBrings = (air: Formula): Formula =>
  when(
    air.orZero.above(0),
    plainCall(
      'OXYGEN.TRANSFER',
      call(
        'MAX',
        air.orZero
          .times(OXYGEN_IN_AIR)
          .times(named('Plant_dissolved'))
          .times(named('Plant_stone_depth')),
        0.000001,
      ),
      named('Water_now'),
      named('Plant_oxygen'),
    ).times(1000),
    0,
  );

/** The tank that lasts least, now and in the weeks to come. */
export function answerLine(ctx: PlanContext, flow: Flow): void {
  const [now, then] = [named('Plant_all_stops'), named('Plant_full')];
  const least = (of: Formula): Formula => call('MIN', of);
  const tankOf = (of: Formula): Formula => nth('Plant_tank', call('MATCH', least(of), of, 0));
  const minutes = (of: Formula): Formula => written(least(of), '0');
  const inFullest = joined(tankOf(then), ' lasts ', minutes(then), ' in its fullest week');
  ctx.name(
    'Plant_answer',
    'Plant room',
    flow.wide(
      {
        formula: cases(
          [
            [
              call('COUNT', now).plus(call('COUNT', then)).is(0),
              'No tank holds fish of a known number and weight: nothing to say yet.',
            ],
            [
              call('COUNT', now).is(0),
              joined('When pump and air stop, in minutes: ', inFullest, '.'),
            ],
          ],
          joined(
            'When pump and air stop: ',
            tankOf(now),
            ' lasts ',
            minutes(now),
            ' minutes now',
            when(call('COUNT', then).above(0), joined('; ', inFullest), ''),
            '. ',
            when(
              call('MIN', now, then).below(MINUTES_TO_ACT),
              'Nobody comes so soon: air that starts by itself, and an alarm that was tried out.',
              'Somebody must be there sooner, by day and by night.',
            ),
          ),
        ),
        look: 'verdict',
      },
      2,
    ),
  );
}

export function airFields(ctx: PlanContext, flow: Flow): void {
  const { gill } = ctx;
  const perDay = sum(named('Plant_use')).over(named('Plant_peak')).times(24);
  flow.heading('Oxygen and air');
  flow.fields([
    {
      name: 'Plant_oxygen',
      label: 'Oxygen in the tanks when something stops',
      preset: 'Plant_oxygen',
      formula: call('MAX', USUAL_OXYGEN, named('Plant_oxygen_least')),
      look: 'preset',
      remark: `What the air is sized to hold, too. ${USUAL_OXYGEN} mg/L (common practice, no source), or more where a species of the tanks needs it (Species sheet).`,
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
      name: 'Plant_standby',
      label: 'Stand-by stones in each tank, with air that starts by itself',
      preset: 'Plant_standby',
      format: 'whole',
      look: 'preset',
      remark: 'The tanks below say how long they last with them.',
    },
    {
      name: 'Plant_standby_air',
      label: 'Air of the stand-by stones, in each tank',
      formula: named('Plant_standby').times(named('Plant_stone_air')),
      quantity: 'airFlow',
      format: 'two',
      look: 'computed',
    },
    {
      name: 'Plant_standby_brings',
      label: 'Oxygen that they bring each tank, an hour',
      formula: blankWithout([named('Water_now')], airBrings(named('Plant_standby_air'))),
      quantity: 'number',
      unit: 'g',
      format: 'one',
      look: 'computed',
    },
    {
      name: 'Plant_fish_oxygen',
      label: 'Oxygen that the fish use a day',
      formula: perDay,
      quantity: 'dose',
      look: 'computed',
    },
    {
      name: 'Plant_filter_oxygen',
      label: 'Oxygen that filter and solids use a day',
      formula: call('MAX', 0, named('Load_oxygen').minus(named('Plant_fish_oxygen'))),
      quantity: 'dose',
      look: 'computed',
      note: 'What the Balance sheet has for all of the feed, less the fish. Fish on little feed breathe more than their feed asks for: then it is 0.',
    },
    {
      name: 'Plant_flow_brings',
      label: 'Oxygen that the flow of the pumps brings, an hour',
      formula: call(
        'MAX',
        0,
        sum(named('Pumps_turnover'))
          .times(named('Pump_return').times(named('Pump_full')).minus(named('Plant_oxygen')))
          .over(1000),
      ),
      quantity: 'number',
      unit: 'g',
      format: 'whole',
      look: 'computed',
    },
    {
      name: 'Plant_air_brings',
      label: 'Oxygen that the air stones bring now, an hour',
      formula: sum(named('Plant_supply')),
      quantity: 'number',
      unit: 'g',
      format: 'whole',
      look: 'computed',
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
      formula: gill('LOAD.OXYGEN', call('MAX', named('Ahead_feed'))),
      quantity: 'dose',
      look: 'result',
      note: 'From the feed of the Tank year sheet. Today’s figure stands on the Balance sheet.',
    },
    {
      name: 'Plant_carbon_dioxide',
      label: 'Carbon dioxide that fish and bacteria give off a day',
      formula: blankWithout([named('Balance_feed')], gill('LOAD.CO2', named('Balance_feed'))),
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
      name: 'Plant_column_air',
      label: 'Air of a column that takes the flow of all pumps',
      formula: sum(named('Pumps_turnover')).over(1000).times(named('Plant_ratio')),
      quantity: 'airFlow',
      look: 'computed',
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
