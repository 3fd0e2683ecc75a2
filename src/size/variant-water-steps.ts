import {
  all,
  any,
  blankWithout,
  call,
  cases,
  not,
  when,
  type Condition,
  type Formula,
} from '../plan/formula-parts';
import { USUAL_OXYGEN } from '../core/fish-oxygen';
import { span } from '../plan/references';
import { ask } from './ask-functions';
import { BED_DEPTH } from './bed-size';
import type { At, VariantLine, VariantPart } from './variant-line';
import {
  bores,
  MIN_SETTLER,
  LIFT,
  MAX_LOSS,
  PIPE_LENGTH,
  preset,
  SETTLER_LOAD,
  SPARE,
} from './water-size';
import { type LineTools, eats } from './variant-tools';

const losses = (at: At): Formula => span(at('loss1'), at(`loss${bores.length}`));

const fittings = (): number =>
  ask('FLOW.FITTINGS', preset('Pump_elbows'), null, null, null, preset('Pump_valves'), null, 1, 1);

/** Steps on the way to the water, pumps and air of a variant. */
export const waterSteps = ({
  gill,
  place,
  crops,
  total,
  fact,
  fish,
  line,
  words,
  allMonths,
}: LineTools): VariantPart => ({
  title: 'Steps: beds and water',
  lines: [
    line('kept', 'Crops that grow', 'number', (at) =>
      blankWithout(
        [at('species')],
        call(
          'MAX',
          1,
          crops
            .map((id) => when(at(`${id}_months`).orZero.above(0), 1, 0))
            .reduce((all, amount) => all.plus(amount)),
        ),
      ),
    ),
    {
      ...words('gravelKind', 'Gravel of the beds', (at) => {
        const has = (kind: string): Condition =>
          any(
            ...crops.map((id) => all(at(`${id}_months`).orZero.above(0), at(`${id}_bed`).is(kind))),
          );
        return blankWithout(
          [at('species')],
          when(all(has('gravel'), not(has('raft')), not(has('film'))), 'gravel', 'clean gravel'),
        );
      }),
      look: 'computed',
    },
    line('bareFeed', 'Feed for the bare areas of the crops', 'feedDay', (at) =>
      blankWithout([at('used')], total(at, 'bareFeed')),
    ),
    line('surface', 'Surface of the tanks', 'area', (at) =>
      fish(at, at('tankWater').over(1000 * preset('Plant_tank_depth'))),
    ),
    line('oneFlow', 'Flow through a tank', 'flow', (at) =>
      fish(at, gill('FLOW.TURNOVER', at('tankSize'), preset('Pump_turns'))),
    ),
    ...bores.map((bore, i): VariantLine =>
      line(
        `loss${i + 1}`,
        `Head lost in a pipe of ${bore} mm`,
        'number',
        (at) =>
          fish(
            at,
            gill(
              'FLOW.HEADLOSS',
              at('oneFlow'),
              bore,
              PIPE_LENGTH,
              call('MAX', 0, at('coldest')),
              undefined,
              fittings(),
            ),
          ),
        { figure: bore, format: 'three' },
      ),
    ),
    line('pipe', 'Place of the least bore that will do', 'number', (at) =>
      fish(at, call('MIN', bores.length, call('COUNTIF', losses(at), `>${MAX_LOSS}`).plus(1))),
    ),
    line('pumpWatts', 'Power of the pumps', 'power', (at) =>
      fish(
        at,
        gill(
          'FLOW.WATTS',
          at('flow'),
          call('INDEX', losses(at), at('pipe')).plus(LIFT),
          preset('Pump_efficiency'),
        ),
      ),
    ),
    line('pipeWater', 'Water in the pipes', 'volume', (at) =>
      fish(
        at,
        gill(
          'PIPE.VOLUME',
          cases(
            bores.slice(0, -1).map((bore, i) => [at('pipe').is(i + 1), bore]),
            bores.at(-1) as number,
          ),
          PIPE_LENGTH,
        ).times(at('tanks')),
      ),
    ),
    line('flooded', 'Water that floods the gravel', 'volume', (at) =>
      fish(
        at,
        when(
          at('gravel').is(0),
          0,
          gill(
            'FLOOD.VOLUME',
            at('gravel').times(preset('Flood_together')),
            BED_DEPTH.gravel,
            preset('Flood_voids'),
          ),
        ),
      ),
    ),
    line('sumpNeed', 'Sump, not rounded', 'volume', (at) =>
      fish(
        at,
        gill(
          'SUMP.VOLUME',
          at('pipeWater'),
          at('flooded'),
          preset('Plant_submerged'),
          at('surface').times(call('MAX', place.opens())),
          SPARE,
        ),
      ),
    ),
    line('sumOfWater', 'All water, not rounded', 'volume', (at) =>
      fish(
        at,
        at('tankWater')
          .plus(at('rafts').times(1000 * (BED_DEPTH.raft as number)))
          .plus(at('pipeWater'))
          .plus(at('sump')),
      ),
    ),
    line('settlerNeed', 'Settlers, not rounded', 'area', (at) =>
      fish(at, call('MAX', MIN_SETTLER, at('flow').over(1000 * SETTLER_LOAD))),
    ),
    line('oxygen', 'Oxygen of a full tank an hour, peak, g', 'number', (at) =>
      fish(
        at,
        gill(
          'OXYGEN.FISH',
          at('sold'),
          at('harvest'),
          at('species'),
          call('MIN', 40, at('warmest')),
        ).times(preset('Plant_peak')),
      ),
    ),
    line('level', 'Oxygen that the air holds', 'concentration', (at) =>
      fish(at, call('MAX', USUAL_OXYGEN, fact(at, 'Fish_oxygen_least'))),
    ),
    line('airNeed', 'Air of a tank, not rounded', 'airFlow', (at) =>
      fish(
        at,
        gill(
          'AIR.DIFFUSED',
          at('oxygen'),
          preset('Plant_stone_depth'),
          call('MIN', 40, at('warmest')),
          at('level'),
          preset('Plant_dissolved'),
          undefined,
          undefined,
          undefined,
          0,
          place.altitude().orZero,
        ),
      ),
    ),
    line('blowerWatts', 'Power of the blower', 'power', (at) =>
      fish(at, gill('AIR.BLOWER', at('airTank').times(at('tanks')), preset('Plant_stone_depth'))),
    ),
    line('mediaNeed', 'Filter media, not rounded', 'volume', (at) =>
      fish(at, call('MAX', allMonths(at, 'm'))),
    ),
    line('sides', 'Walls and surface of the tanks', 'area', (at) =>
      fish(
        at,
        at('surface').plus(
          at('surface')
            .times(Math.PI)
            .times(at('tanks'))
            .power(0.5)
            .times(2 * preset('Plant_tank_depth')),
        ),
      ),
    ),
    line('eatsMean', 'Feed of a fish of middle weight, mean water', 'number', (at) =>
      fish(at, eats(gill, at, at('mean'))),
    ),
  ],
});
