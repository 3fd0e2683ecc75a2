import { all, blankWithout, cases, joined, part, when, written } from '../plan/formula-parts';
import { EVEN } from './proposal';
import type { VariantPart } from './variant-line';
import type { LineTools } from './variant-tools';

/** What limits a variant, in words. */
export const limitsPart = ({ words, crops }: LineTools): VariantPart => ({
  title: 'What limits it',
  lines: [
    words('limits', 'What limits it', (at) =>
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
              when(
                all(at(id).isFilled, at(`${id}_months`).orZero.below(12)),
                joined(at(id), ': ', at(`${id}_months`).orZero, ' months. '),
                '',
              ),
            ),
            when(at('sold').below(10), 'Batches are too small for a steady sale. ', ''),
            cases(
              [
                [at('left').isBlank, 'A price is missing: whether it pays stays open.'],
                [at('left').orZero.below(0), 'It does not pay.'],
                [
                  at('left').minus(at('cropIncome')).plus(at('cropSeason')).below(0),
                  'It pays only if every crop can be sold all year.',
                ],
              ],
              'It pays.',
            ),
          ),
        ),
      ),
    ),
  ],
});
