import { EVAPORATION_HEAT } from '../core/month-heat';
import { MONTH } from '../core/stocking';
import {
  all,
  any,
  blankIf,
  blankWithout,
  call,
  cases,
  type Condition,
  type Formula,
  joined,
  not,
  part,
  type Part,
  sum,
  when,
  written,
} from '../plan/formula-parts';
import { type Gill, plainSpillCell } from '../plan/live-or-plain';
import { lineOf, nth } from '../plan/names';
import { span } from '../plan/references';
import { type QuantityId, shownIn, type UnitSystem } from '../plan/quantities';
import { MONTH_NAMES } from '../core/month-names';
import { ask } from './ask-functions';
import { BED_DEPTH } from './bed-size';
import { FREEZING, HOTTEST } from './climate-of-wish';
import { KWH_OF_A_WATT } from './costs-of-proposal';
import { MANY, SURVIVAL } from './fish-size';
import { EVEN } from './proposal';
import { cropSteps } from './variant-crop-lines';
import { type At, cropIds, type Place, type VariantLine, type VariantPart } from './variant-line';
import { typedParts } from './variant-typed-lines';
import {
  bores,
  LEAST_SETTLER,
  LIFT,
  MEDIA_SURFACE,
  MOST_LOSS,
  PIPE_LENGTH,
  preset,
  SETTLER_LOAD,
  SPARE,
} from './water-size';

/** The lines of the sheet Variants, part by part. */

const places = MONTH_NAMES.map((_, i) => i);
const WEEKS_OF_YEAR = (12 * MONTH) / 7;

/** Two digits up in the units that are shown, of a cell in metric units; metric again. */
function upShown(cell: Formula, quantity: QuantityId, system: UnitSystem): Formula {
  const { factor } = shownIn(quantity, system);
  const shown = factor === 1 ? cell : cell.over(factor);
  const up = call(
    'ROUNDUP',
    shown.times(1 - 1e-11),
    part(1).minus(call('INT', call('LOG10', shown))),
  );
  return when(cell.atMost(0), 0, factor === 1 ? up : up.times(factor));
}

/** The ten figures of a rotation, in the order of STOCK.ROTATION. */
const rotationIds = [
  'days',
  'weeks',
  'stocked',
  'sold',
  'batch',
  'litres',
  'standing',
  'feed',
  'peak',
  'fingerlings',
] as const;
const rotationPlace = (id: (typeof rotationIds)[number]): number => rotationIds.indexOf(id);

export interface LinesOf {
  readonly mode: 'live' | 'plain';
  readonly gill: Gill;
  readonly system: UnitSystem;
  readonly currency: string;
  readonly place: Place;
  readonly crops: number;
}

/** What follows, and the steps on the way to it. */
export function variantParts({ mode, gill, system, currency, place, crops: count }: LinesOf): {
  readonly typed: readonly VariantPart[];
  readonly water: VariantPart;
  readonly outcome: readonly VariantPart[];
  readonly steps: readonly VariantPart[];
} {
  const crops = cropIds(count);
  const month = (id: string, i: number): string => `${id}${i + 1}`;
  const allMonths = (at: At, id: string): Formula => span(at(month(id, 0)), at(month(id, 11)));
  const losses = (at: At): Formula => span(at('loss1'), at(`loss${bores.length}`));
  const total = (at: At, step: string): Formula => {
    const cells = crops.map((id) => at(`${id}_${step}`).orZero);
    return cells.slice(1).reduce((all, one) => all.plus(one), cells[0] as Formula);
  };
  const ofKind = (at: At, kind: string): Formula =>
    blankWithout(
      [at('species')],
      crops
        .map((id) => when(at(`${id}_bed`).is(kind), at(`${id}_area`).orZero, 0))
        .reduce((all, one) => all.plus(one)),
    );
  const fact = (at: At, name: Parameters<typeof nth>[0]): Formula => nth(name, at('line'));
  /** Nothing where the fish cannot be reckoned with. */
  const fish = (at: At, formula: Part): Formula => blankWithout([at('days')], formula);
  const rotation = (at: At, kilos: Part, row: number, cell: (row: number) => Formula): Formula => {
    const args: Part[] = [
      kilos,
      at('harvest'),
      at('start'),
      at('mean'),
      at('species'),
      SURVIVAL,
      at('density'),
      at('tanks'),
    ];
    return mode === 'live'
      ? call('INDEX', gill('STOCK.ROTATION', ...args), row + 1, 2)
      : plainSpillCell('STOCK.ROTATION', args, row, 1, (line) => cell(line).text);
  };
  const line = (
    id: string,
    label: string,
    quantity: QuantityId,
    formula: (at: At) => Formula,
    more: Partial<VariantLine> = {},
  ): VariantLine => ({ id, label, quantity, look: 'computed', formula, ...more });
  const moneyLine = (
    id: string,
    label: string,
    formula: (at: At) => Formula,
    more: Partial<VariantLine> = {},
  ): VariantLine =>
    line(id, label, 'number', formula, { format: 'money', unit: `${currency} a year`, ...more });
  const words = (id: string, label: string, formula: (at: At) => Formula): VariantLine => ({
    id,
    label,
    look: 'verdict',
    words: true,
    formula,
  });

  const water: VariantPart = {
    title: 'Water of the months',
    remark: 'By the air and what it is held at; type over it where you know better.',
    lines: places.map((i) => ({
      id: month('w', i),
      label: `Water in ${MONTH_NAMES[i]}`,
      quantity: 'temperature',
      look: 'preset',
      wish: ['months', i, 'water'],
      rule: {
        rule: { kind: 'number', min: 0, max: 110 },
        message: 'Type the temperature of the water in this month.',
      },
      formula: (at) =>
        blankWithout(
          [at('species'), place.mean(i)],
          call('MIN', HOTTEST, call('MAX', place.mean(i), at('heat').orZero, FREEZING)),
        ),
    })),
  };

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

  const outcome: readonly VariantPart[] = [
    {
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
                  ],
                  'It pays.',
                ),
              ),
            ),
          ),
        ),
      ],
    },
    {
      title: 'Fish and beds',
      lines: [
        line(
          'kilos',
          'Fish to sell',
          'massMonth',
          (at) => {
            const most = part(MANY).times(at('own')).over(at('many5'));
            return blankWithout(
              [at('many0')],
              cases(
                [
                  [all(at('wanted').isFilled, at('own').isFilled), call('MIN', at('wanted'), most)],
                  [at('wanted').isFilled, at('wanted')],
                  [at('own').isFilled, most],
                  [at('bareFeed').above(0), at('bareFeed').times(MANY).over(at('many7'))],
                ],
                '',
              ),
            );
          },
          { look: 'result' },
        ),
        line('standing', 'Fish just before a harvest', 'mass', (at) =>
          fish(
            at,
            rotation(at, at('kilos'), rotationPlace('standing'), (row) =>
              at(rotationIds[row] as string),
            ),
          ),
        ),
        line(
          'feed',
          'Feed in the mean of the year',
          'feedDay',
          (at) =>
            fish(
              at,
              rotation(at, at('kilos'), rotationPlace('feed'), (row) =>
                at(rotationIds[row] as string),
              ),
            ),
          { look: 'result' },
        ),
        line('called', 'Feed that the beds call for', 'feedDay', (at) =>
          blankWithout([at('used')], total(at, 'feed')),
        ),
        line(
          'share',
          'Feed over what the beds call for',
          'share',
          (at) => fish(at, blankIf(at('called').orZero.is(0), at('feed').over(at('called')))),
          { look: 'result' },
        ),
        line('fingerlings', 'Fingerlings a year', 'count', (at) =>
          fish(
            at,
            rotation(at, at('kilos'), rotationPlace('fingerlings'), (row) =>
              at(rotationIds[row] as string),
            ),
          ),
        ),
        line('tankSize', 'Water in each tank', 'volume', (at) =>
          fish(at, when(at('own').isFilled, at('own'), upShown(at('litres'), 'volume', system))),
        ),
        line('rafts', 'Rafts', 'area', (at) => ofKind(at, 'raft')),
        line('gravel', 'Gravel beds', 'area', (at) => ofKind(at, 'gravel')),
        line('films', 'Film channels', 'area', (at) => ofKind(at, 'film')),
        line('beds', 'All beds', 'area', (at) => blankWithout([at('species')], total(at, 'area')), {
          look: 'result',
        }),
      ],
    },
    {
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
              call(
                'MAX',
                at('beds').times(place.thirsts()).plus(at('surface').times(place.opens())),
              ),
            ).plus(at('allWater').times(preset('Plant_discharge'))),
          ),
        ),
        line('media', 'Filter media', 'volume', (at) =>
          fish(at, upShown(at('mediaNeed'), 'volume', system)),
        ),
        line('settler', 'Settlers', 'area', (at) =>
          fish(
            at,
            when(at('gravelKind').is('gravel'), 0, upShown(at('settlerNeed'), 'area', system)),
          ),
        ),
        line('flow', 'Flow of the pumps', 'flow', (at) =>
          fish(at, at('oneFlow').times(at('tanks'))),
        ),
        line('airTank', 'Air for each tank', 'airFlow', (at) =>
          fish(at, upShown(at('airNeed'), 'airFlow', system)),
        ),
        line('watts', 'Power of pumps and blower', 'power', (at) =>
          fish(at, at('pumpWatts').plus(at('blowerWatts'))),
        ),
        line(
          'power',
          'Power a year',
          'energy',
          (at) => fish(at, at('watts').times(KWH_OF_A_WATT)),
          { look: 'result' },
        ),
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
    },
    {
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
        moneyLine('cropIncome', 'Crops bring', (at) =>
          blankWithout(
            [at('species')],
            blankIf(
              pricesOpen(at),
              crops.map((id) => incomeOf(at, id)).reduce((all, one) => all.plus(one)),
            ),
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
          fish(
            at,
            joined(...missing(at).map(([open, what]) => when(open, joined(what, '. '), ''))),
          ),
        ),
      ],
    },
  ];

  const steps: readonly VariantPart[] = [
    {
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
          line(
            `many${row}`,
            `Rotation for ${MANY} kg a month: ${rotationIds[row]}`,
            'number',
            (at) =>
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
                rotation(at, at('kilos'), rotationPlace(id), (row) =>
                  at(rotationIds[row] as string),
                ),
              ),
          ),
        ),
      ],
    },
    ...crops.map((id, i): VariantPart => ({
      title: `Steps: crop ${i + 1}`,
      lines: cropSteps(id, { gill, system, place }),
    })),
    {
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
                .reduce((all, one) => all.plus(one)),
            ),
          ),
        ),
        {
          ...words('gravelKind', 'Gravel of the beds', (at) => {
            const has = (kind: string): Condition =>
              any(
                ...crops.map((id) =>
                  all(at(`${id}_months`).orZero.above(0), at(`${id}_bed`).is(kind)),
                ),
              );
            return blankWithout(
              [at('species')],
              when(
                all(has('gravel'), not(has('raft')), not(has('film'))),
                'gravel',
                'clean gravel',
              ),
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
          fish(at, call('MIN', bores.length, call('COUNTIF', losses(at), `>${MOST_LOSS}`).plus(1))),
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
          fish(at, call('MAX', LEAST_SETTLER, at('flow').over(1000 * SETTLER_LOAD))),
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
        line('airNeed', 'Air of a tank, not rounded', 'airFlow', (at) =>
          fish(
            at,
            gill(
              'AIR.DIFFUSED',
              at('oxygen'),
              preset('Plant_stone_depth'),
              call('MIN', 40, at('warmest')),
              preset('Plant_oxygen'),
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
          fish(
            at,
            gill('AIR.BLOWER', at('airTank').times(at('tanks')), preset('Plant_stone_depth')),
          ),
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
    },
    {
      title: 'Steps: month by month',
      lines: [
        ...places.map((i) =>
          line(month('e', i), `Feed over the mean, ${MONTH_NAMES[i]}`, 'share', (at) =>
            fish(at, eats(gill, at, at(month('w', i))).over(at('eatsMean'))),
          ),
        ),
        ...places.map((i) =>
          line(
            month('b', i),
            `Ammonia that the beds take, g, ${MONTH_NAMES[i]}`,
            'number',
            (at) => {
              const level = fact(at, 'Fish_tan_most');
              const of = (area: Formula, kind: string, ...more: Part[]): Formula =>
                gill('FILTER.BEDS', area, kind, at(month('w', i)), level, ...more);
              return fish(
                at,
                of(at('rafts'), 'raft').plus(
                  of(
                    at('gravel'),
                    'gravel',
                    when(at('gravelKind').is('gravel'), 1, 0),
                    BED_DEPTH.gravel as number,
                  ),
                ),
              );
            },
            { format: 'one' },
          ),
        ),
        ...places.map((i) =>
          line(month('m', i), `Filter media for ${MONTH_NAMES[i]}`, 'volume', (at) =>
            fish(
              at,
              when(
                at(month('e', i)).is(0),
                0,
                gill(
                  'FILTER.MEDIA',
                  call(
                    'MAX',
                    0,
                    gill('LOAD.TAN', at('peak').times(at(month('e', i))), at('used')).minus(
                      at(month('b', i)),
                    ),
                  ),
                  MEDIA_SURFACE,
                  undefined,
                  at(month('w', i)),
                  fact(at, 'Fish_tan_most'),
                ),
              ),
            ),
          ),
        ),
        ...places.map((i) =>
          line(month('h', i), `Heat of the tanks in ${MONTH_NAMES[i]}`, 'energy', (at) => {
            const day = (m: number): Formula => call('DATE', call('YEAR', place.date()), m, 1);
            const days = day(i + 2).minus(day(i + 1));
            const degrees = at(month('w', i));
            return fish(
              at,
              when(
                any(degrees.atMost(place.mean(i)), degrees.atMost(FREEZING)),
                0,
                gill(
                  'HEAT.MONTH',
                  at('sides'),
                  preset('Plant_tank_loss'),
                  0,
                  0,
                  degrees,
                  place.high(i),
                  place.low(i),
                  days,
                ).plus(
                  at('surface')
                    .times(place.open(i))
                    .times(days)
                    .times(EVAPORATION_HEAT / 3.6),
                ),
              ),
            );
          }),
        ),
      ],
    },
  ];
  return { typed: typedParts(system, crops, currency), water, outcome, steps };
}

const eats = (gill: Gill, at: At, degrees: Formula): Formula =>
  gill('FEED.DAY', 1000, at('start').plus(at('harvest')).over(2), at('species'), degrees);

const fittings = (): number =>
  ask('FLOW.FITTINGS', preset('Pump_elbows'), null, null, null, preset('Pump_valves'), null, 1, 1);
