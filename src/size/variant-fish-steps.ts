import { all, any, blankIf, blankWithout, call, cases, sum, when } from '../plan/formula-parts';
import { lineOf } from '../plan/names';
import { MANY, SURVIVAL } from './fish-size';
import type { VariantPart } from './variant-line';
import { rotationIds, rotationPlace, type LineTools } from './variant-tools';

/** Steps on the way to the fish of a variant. */
export const fishSteps = ({ fact, rotation, line, words, allMonths }: LineTools): VariantPart => ({
  title: 'Steps: fish',
  lines: [
    line('line', 'Line in Species', 'number', (at) =>
      blankWithout([at('species')], lineOf('Fish', at('species'))),
    ),
    line('used', 'Protein of the feed', 'share', (at) =>
      blankWithout(
        [at('line')],
        when(at('protein').isFilled, at('protein'), fact(at, 'Fish_protein')),
      ),
    ),
    line('lives', 'Fish that live', 'share', (at) =>
      blankWithout([at('line')], when(at('survival').isFilled, at('survival'), SURVIVAL)),
    ),
    line('slow', 'Days of growth over the usual', 'number', (at) =>
      blankWithout(
        [at('line')],
        when(at('coefficient').isFilled, fact(at, 'Fish_tgc').over(at('coefficient')), 1),
      ),
    ),
    line('ration', 'Feed over the usual', 'number', (at) =>
      blankWithout(
        [at('line')],
        when(at('conversion').isFilled, at('conversion').over(fact(at, 'Fish_fcr')), 1).over(
          at('slow'),
        ),
      ),
    ),
    line('density', 'Density limit', 'density', (at) =>
      blankWithout([at('line')], fact(at, 'Fish_density_aerated')),
    ),
    line('mean', 'Water, mean of the year', 'temperature', (at) =>
      blankWithout([at('w1')], sum(allMonths(at, 'w')).over(12)),
    ),
    line('coldest', 'Water, coldest month', 'temperature', (at) =>
      blankWithout([at('w1')], call('MIN', allMonths(at, 'w'))),
    ),
    line('warmest', 'Water, warmest month', 'temperature', (at) =>
      blankWithout([at('w1')], call('MAX', allMonths(at, 'w'))),
    ),
    {
      ...words('harm', 'What harms the fish', (at) =>
        blankWithout(
          [at('line'), at('mean')],
          cases(
            [
              [
                at('coldest').below(fact(at, 'Fish_vital_low')),
                'The fish do not live in water so cold',
              ],
              [
                at('warmest').above(fact(at, 'Fish_vital_high')),
                'The fish do not live in water so warm',
              ],
              [
                at('mean').atMost(fact(at, 'Fish_feed_low')),
                'The fish do not feed: too cold in the mean of the year',
              ],
              [
                at('mean').atLeast(fact(at, 'Fish_feed_high')),
                'The fish do not feed: too warm in the mean of the year',
              ],
              [
                all(
                  at('start').isFilled,
                  at('harvest').isFilled,
                  at('start').atLeast(at('harvest')),
                ),
                'Stocked, they weigh as much already as they are sold with',
              ],
            ],
            '',
          ),
        ),
      ),
      look: 'computed',
    },
    ...[0, 2, 3, 4, 5, 7].map((row) =>
      line(`many${row}`, `Rotation for ${MANY} kg a month: ${rotationIds[row]}`, 'number', (at) =>
        blankIf(
          any(
            at('line').isBlank,
            at('mean').isBlank,
            at('harm').isFilled,
            at('start').isBlank,
            at('harvest').isBlank,
            at('tanks').isBlank,
          ),
          rotation(at, MANY, row, (other) => at(`many${other}`)),
        ),
      ),
    ),
    ...(['days', 'weeks', 'stocked', 'sold', 'batch', 'litres', 'peak'] as const).map((id) =>
      line(
        id,
        `Rotation: ${{ days: 'days in the tank', weeks: 'weeks between harvests', stocked: 'fish to stock in a batch', sold: 'fish to sell from a batch', batch: 'kg of a batch', litres: 'water for a batch, L', peak: 'feed before a harvest, g a day' }[id]}`,
        'number',
        (at) =>
          blankWithout(
            [at('kilos')],
            rotation(at, at('kilos'), rotationPlace(id), (row) => at(rotationIds[row] as string)),
          ),
      ),
    ),
  ],
});
