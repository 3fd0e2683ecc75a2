import { all, blankIf, call, sum, when } from '../plan/formula-parts';
import { KWH_OF_A_WATT } from './costs-of-proposal';
import type { VariantPart } from './variant-line';
import { preset } from './water-size';
import { upShown, type LineTools } from './variant-tools';

/** Water, air, power, heat and work of a variant. */
export const roomPart = ({ system, place, fish, line, allMonths }: LineTools): VariantPart => ({
  title: 'Water, air, power, heat and work',
  lines: [
    line('tankWater', 'Water in the tanks', 'volume', (at) =>
      fish(at, at('tankSize').times(at('tanks'))),
    ),
    line(
      'allWater',
      'Water in all',
      'volume',
      (at) => fish(at, upShown(at('sumOfWater'), 'volume', system)),
      { look: 'result' },
    ),
    line('sump', 'Sump', 'volume', (at) => fish(at, upShown(at('sumpNeed'), 'volume', system))),
    line('makeup', 'Make-up water a day, thirstiest month', 'volume', (at) =>
      fish(
        at,
        call(
          'SUMPRODUCT',
          call('MAX', at('beds').times(place.thirsts()).plus(at('surface').times(place.opens()))),
        ).plus(at('allWater').times(preset('Plant_discharge'))),
      ),
    ),
    line('media', 'Filter media', 'volume', (at) =>
      fish(at, upShown(at('mediaNeed'), 'volume', system)),
    ),
    line('settler', 'Settlers', 'area', (at) =>
      fish(at, when(at('gravelKind').is('gravel'), 0, upShown(at('settlerNeed'), 'area', system))),
    ),
    line('flow', 'Flow of the pumps', 'flow', (at) => fish(at, at('oneFlow').times(at('tanks')))),
    line('airTank', 'Air for each tank', 'airFlow', (at) =>
      fish(at, upShown(at('airNeed'), 'airFlow', system)),
    ),
    line('watts', 'Power of pumps and blower', 'power', (at) =>
      fish(at, at('pumpWatts').plus(at('blowerWatts'))),
    ),
    line('power', 'Power a year', 'energy', (at) => fish(at, at('watts').times(KWH_OF_A_WATT)), {
      look: 'result',
    }),
    line(
      'heatNeed',
      'Heat of the tanks a year, as if all were bought',
      'energy',
      (at) => fish(at, sum(allMonths(at, 'h'))),
      { look: 'result' },
    ),
    line(
      'work',
      'Work a week',
      'hours',
      (at) =>
        fish(
          at,
          blankIf(
            all(at('workTank').isBlank, at('workBed').isBlank),
            at('tanks')
              .times(at('workTank').orZero)
              .plus(at('beds').times(at('workBed').orZero)),
          ),
        ),
      { look: 'result' },
    ),
  ],
});
