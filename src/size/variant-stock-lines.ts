import { all, blankIf, blankWithout, call, cases, part, when } from '../plan/formula-parts';
import { MANY } from './fish-size';
import type { VariantPart } from './variant-line';
import { upShown, rotationIds, rotationPlace, type LineTools } from './variant-tools';

/** Fish and beds of a variant. */
export const stockPart = ({
  system,
  total,
  ofKind,
  fish,
  rotation,
  line,
}: LineTools): VariantPart => ({
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
          rotation(at, at('kilos'), rotationPlace('feed'), (row) => at(rotationIds[row] as string)),
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
});
