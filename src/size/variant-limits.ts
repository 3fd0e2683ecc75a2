import {
  any,
  blankIf,
  blankWithout,
  cases,
  joined,
  part,
  when,
  written,
} from '../plan/formula-parts';
import { paysInWords } from '../plan/pays';
import { EVEN } from './proposal';
import type { VariantPart } from './variant-line';
import type { LineTools } from './variant-tools';

/** What limits a variant, in words. */
export const limitsPart = ({ words, crops, currency }: LineTools): VariantPart => ({
  title: 'What limits it',
  lines: [
    {
      ...words('limits', 'In words', (at) =>
        blankWithout(
          [at('species')],
          cases(
            [
              [at('harm').isFilled, joined(at('harm'), '.')],
              [at('days').isBlank, 'Type weights, tanks, and fish to sell or crops.'],
            ],
            joined(
              when(
                at('kilos').orZero.below(at('wanted').orZero),
                'The tanks that are there hold no more fish. ',
                '',
              ),
              when(
                at('called').is(0),
                'Nothing takes up what the fish leave: no beds. ',
                cases(
                  [
                    [
                      at('share').orZero.above(1 + EVEN),
                      joined(
                        'Beds: ',
                        written(at('share').minus(1), '0 %'),
                        ' more feed than they take up. ',
                      ),
                    ],
                    [
                      at('share').orZero.below(1 - EVEN),
                      joined(
                        'Fish: ',
                        written(part(1).minus(at('share')), '0 %'),
                        ' of the feed for the beds is missing. ',
                      ),
                    ],
                  ],
                  'Feed and beds are even. ',
                ),
              ),
              ...crops.map((id) =>
                blankIf(
                  any(at(id).isBlank, at(`${id}_months`).orZero.atLeast(12)),
                  joined(
                    'By the air, ',
                    at(id),
                    ' grows in ',
                    at(`${id}_months`).orZero,
                    ' of 12 months. ',
                  ),
                ),
              ),
              when(at('sold').below(10), 'Batches are too small for a steady sale. ', ''),
              paysInWords({
                left: at('left'),
                everyWeek: blankWithout(
                  [at('left')],
                  at('left').plus(at('cropWeeks')).minus(at('cropIncome')),
                ),
                currency,
              }),
            ),
          ),
        ),
      ),
      lines: 20,
    },
  ],
});
