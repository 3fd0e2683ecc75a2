import { any, call, when, type Formula, type Part } from '../plan/formula-parts';
import { EVAPORATION_HEAT } from '../core/month-heat';
import { MONTH_NAMES } from '../core/month-names';
import { BED_DEPTH } from './bed-size';
import { FREEZING } from './climate-of-wish';
import type { VariantPart } from './variant-line';
import { MEDIA_SURFACE, preset } from './water-size';
import { type LineTools, eats, month, places } from './variant-tools';

/** Steps month by month: what the fish eat, what the beds take, media and heat. */
export const monthSteps = ({ gill, place, fact, fish, line }: LineTools): VariantPart => ({
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
});
