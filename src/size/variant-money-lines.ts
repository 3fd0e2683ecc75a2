import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  joined,
  when,
  type Condition,
  type Formula,
} from '../plan/formula-parts';
import { MONTH } from '../core/stocking';
import { shownIn } from '../plan/quantities';
import type { At, VariantPart } from './variant-line';
import { WEEKS_OF_YEAR, type LineTools } from './variant-tools';

/** What a variant costs to build and in a year, what it brings, and the least prices at which it pays. */
export function moneyPart({
  system,
  currency,
  crops,
  fish,
  line,
  moneyLine,
  words,
}: LineTools): VariantPart {
  const incomeOf = (at: At, id: string): Formula =>
    at(`${id}_sold`)
      .orZero.times(at(`${id}_price`).orZero)
      .times(WEEKS_OF_YEAR);
  const pricesOpen = (at: At): Condition =>
    any(...crops.map((id) => all(at(`${id}_sold`).orZero.above(0), at(`${id}_price`).isBlank)));
  const missing = (at: At): readonly (readonly [Condition, string])[] => [
    [at('powerPrice').isBlank, 'Power'],
    [all(at('heatNeed').orZero.above(0), at('heatPrice').isBlank), 'Heat'],
    [any(at('work').isBlank, at('workPrice').isBlank), 'Work'],
    [at('wear').isBlank, 'What was built'],
  ];
  const built: readonly (readonly [string, string])[] = [
    ['buildTank', 'tankWater'],
    ['buildRaft', 'rafts'],
    ['buildGravel', 'gravel'],
    ['buildFilm', 'films'],
    ['buildMedia', 'media'],
    ['buildSump', 'sump'],
  ];
  const costs = [
    'feedCost',
    'fingerlingCost',
    'powerCost',
    'heatCost',
    'workCost',
    'wear',
    'other',
  ];
  return {
    title: 'Money',
    lines: [
      line(
        'build',
        'To build, as far as priced',
        'number',
        (at) =>
          fish(
            at,
            blankIf(
              all(...built.map(([price]) => at(price).isBlank), at('buildRest').isBlank),
              built.reduce(
                (all, [price, amount]) => all.plus(at(price).orZero.times(at(amount).orZero)),
                at('buildRest').orZero,
              ),
            ),
          ),
        { format: 'money', unit: currency, look: 'result' },
      ),
      moneyLine('fishIncome', 'Fish bring', (at) =>
        fish(at, blankWithout([at('fishPrice')], at('kilos').times(at('fishPrice')).times(12))),
      ),
      moneyLine('cropIncome', 'Crops bring, sold in every week of the year', (at) =>
        blankWithout(
          [at('species')],
          blankIf(
            pricesOpen(at),
            crops.map((id) => incomeOf(at, id)).reduce((all, one) => all.plus(one)),
          ),
        ),
      ),
      moneyLine('cropSeason', 'Crops bring in the months in which they grow alone', (at) =>
        blankWithout(
          [at('cropIncome')],
          crops
            .map((id) =>
              incomeOf(at, id)
                .times(at(`${id}_months`).orZero)
                .over(12),
            )
            .reduce((all, one) => all.plus(one)),
        ),
      ),
      moneyLine('feedCost', 'Feed', (at) =>
        fish(
          at,
          blankWithout(
            [at('feedPrice')],
            at('feed')
              .over(1000)
              .times(12 * MONTH)
              .times(at('feedPrice')),
          ),
        ),
      ),
      moneyLine('fingerlingCost', 'Fingerlings', (at) =>
        fish(
          at,
          blankWithout([at('fingerlingPrice')], at('fingerlings').times(at('fingerlingPrice'))),
        ),
      ),
      moneyLine('powerCost', 'Power', (at) =>
        fish(at, blankWithout([at('powerPrice')], at('power').times(at('powerPrice')))),
      ),
      moneyLine('heatCost', 'Heat', (at) =>
        fish(at, blankWithout([at('heatPrice')], at('heatNeed').times(at('heatPrice')))),
      ),
      moneyLine('workCost', 'Work', (at) =>
        blankWithout(
          [at('work'), at('workPrice')],
          at('work').times(at('workPrice')).times(WEEKS_OF_YEAR),
        ),
      ),
      moneyLine('wear', 'Wear of what was built', (at) =>
        blankWithout([at('build'), at('years')], at('build').over(at('years'))),
      ),
      moneyLine('other', 'All other costs', (at) =>
        blankWithout([at('otherCosts')], at('otherCosts').times(12)),
      ),
      moneyLine(
        'costs',
        'All costs, as far as said',
        (at) =>
          blankWithout(
            [at('feedCost'), at('fingerlingCost')],
            costs.map((id) => at(id).orZero).reduce((all, one) => all.plus(one)),
          ),
        { look: 'result' },
      ),
      moneyLine(
        'left',
        'Left in a year',
        (at) =>
          blankWithout(
            [at('fishIncome'), at('cropIncome'), at('costs')],
            at('fishIncome').plus(at('cropIncome')).minus(at('costs')),
          ),
        { look: 'result' },
      ),
      line(
        'leastFish',
        'Least price of fish at which it pays',
        'pricePerMass',
        (at) =>
          blankWithout(
            [at('cropIncome'), at('costs')],
            call('MAX', 0, at('costs').minus(at('cropIncome')).over(at('kilos').times(12))),
          ),
        { unit: `${currency} ${shownIn('pricePerMass', system).unit}`, look: 'result' },
      ),
      line(
        'leastCrop',
        'Least price of crop 1 at which it pays',
        'number',
        (at) =>
          blankWithout(
            [at('fishIncome'), at('cropIncome'), at('costs')],
            blankIf(
              at('c1_sold').orZero.is(0),
              call(
                'MAX',
                0,
                at('costs')
                  .minus(at('fishIncome'))
                  .minus(at('cropIncome'))
                  .plus(incomeOf(at, 'c1'))
                  .over(at('c1_sold').times(WEEKS_OF_YEAR)),
              ),
            ),
          ),
        { format: 'money', unit: currency, look: 'result' },
      ),
      words('open', 'Not counted', (at) =>
        fish(at, joined(...missing(at).map(([open, what]) => when(open, joined(what, '. '), '')))),
      ),
    ],
  };
}
