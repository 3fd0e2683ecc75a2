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
import { span } from '../plan/references';
import type { At, VariantPart } from './variant-line';
import { MONTHS_OF_YEAR, WEEKS_OF_YEAR, yearLabels } from '../plan/pays';
import type { LineTools } from './variant-tools';

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
  /** In the months in which it grows. */
  const seasonOf = (at: At, id: string): Formula =>
    incomeOf(at, id)
      .times(at(`${id}_months`).orZero)
      .over(MONTHS_OF_YEAR);
  const cropsBring = (at: At, of: typeof incomeOf): Formula =>
    blankWithout(
      [at('species')],
      blankIf(
        pricesOpen(at),
        crops.map((id) => of(at, id)).reduce((all, amount) => all.plus(amount)),
      ),
    );
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
      moneyLine('fishIncome', yearLabels.fish, (at) =>
        fish(at, blankWithout([at('fishPrice')], at('kilos').times(at('fishPrice')).times(12))),
      ),
      moneyLine('cropIncome', yearLabels.crops, (at) => cropsBring(at, seasonOf)),
      moneyLine('cropWeeks', yearLabels.everyWeek, (at) => cropsBring(at, incomeOf)),
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
        yearLabels.costs,
        (at) =>
          blankWithout(
            [at('feedCost'), at('fingerlingCost')],
            costs.map((id) => at(id).orZero).reduce((all, cost) => all.plus(cost)),
          ),
        { look: 'result' },
      ),
      moneyLine(
        'left',
        yearLabels.left,
        (at) =>
          blankWithout(
            [at('fishIncome'), at('cropIncome'), at('costs')],
            at('fishIncome').plus(at('cropIncome')).minus(at('costs')),
          ),
        { look: 'result' },
      ),
      line(
        'leastFish',
        yearLabels.leastFish,
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
                  .plus(seasonOf(at, 'c1'))
                  .over(
                    at('c1_sold').times(at('c1_months')).times(WEEKS_OF_YEAR).over(MONTHS_OF_YEAR),
                  ),
              ),
            ),
          ),
        {
          format: 'money',
          unit: currency,
          look: 'result',
          labelOf: (first, last) => {
            const names = span(first('c1'), last('c1'));
            const all = call('COUNTA', names);
            return joined(
              'Least price of ',
              when(call('COUNTIF', names, first('c1')).is(all), first('c1'), 'crop 1'),
              ' at which it pays',
            );
          },
        },
      ),
      words('open', 'Not counted', (at) =>
        fish(at, joined(...missing(at).map(([open, what]) => when(open, joined(what, '. '), '')))),
      ),
    ],
  };
}
