import { cropFigure, monthsGrown, weeksInBed } from '../plan/crop-figures';
import {
  blankUnless,
  blankWithout,
  call,
  cases,
  type Formula,
  part,
  when,
} from '../plan/formula-parts';
import type { Gill } from '../plan/live-or-plain';
import { lineOf } from '../plan/names';
import { shownIn, type UnitSystem } from '../plan/quantities';
import { LB } from '../plan/units-per-plant';
import { BED_WIDTH, MIN_LENGTH, FILE_LENGTH, MAX_BEDS, MAX_LENGTH, NARROW } from './bed-size';
import { LENGTH_STEP, LENGTH_STEP_US } from './figure-words';
import type { At, Place, VariantLine } from './variant-line';

/** From a crop of a variant to its beds and the feed that they call for, step by step. */

const WEEK = 7;
const YEAR_DAYS = 52 * WEEK;

const roundUp = (value: Formula): Formula => call('ROUNDUP', value, 0);

export interface CropSteps {
  readonly gill: Gill;
  readonly system: UnitSystem;
  readonly place: Place;
}

export function cropSteps(id: string, { gill, system, place }: CropSteps): readonly VariantLine[] {
  const { factor } = shownIn('length', system);
  const step = (
    name: string,
    label: string,
    formula: (of: At, at: At) => Formula,
    more: Partial<VariantLine> = {},
  ): VariantLine => ({
    id: `${id}_${name}`,
    label: `${label}, ${id.replace('c', 'crop ')}`,
    quantity: 'number',
    look: 'computed',
    formula: (at) => formula((other) => at(`${id}_${other}`), at),
    ...more,
  });
  /** Nothing where the crop is not said whole, or does not grow there. */
  const grown = (of: At, formula: Formula | number): Formula =>
    blankUnless(of('months').orZero.above(0), formula);
  return [
    step('line', 'Line in Crops', (of, at) =>
      blankWithout([at(id), of('bed'), of('week'), of('unit')], lineOf('Crop', at(id))),
    ),
    step(
      'months',
      'Months in which it grows',
      (of) => {
        const fact = (name: Parameters<typeof cropFigure>[0]): Formula =>
          cropFigure(name, of('line'));
        return blankWithout(
          [of('line')],
          when(
            call('SEARCH', of('bed'), fact('beds')).isNumber,
            monthsGrown(of('line'), place.means()),
            0,
          ),
        );
      },
      { format: 'whole' },
    ),
    step('sold', 'Sold a week', (of) => grown(of, of('week'))),
    step(
      'plants',
      'Plants a week',
      (of) => {
        const kilos = cropFigure('kg_per_plant', of('line'));
        const each = (weight: 'bunch_weight' | 'piece_weight'): Formula =>
          kilos.times(1000).over(cropFigure(weight, of('line')));
        return grown(
          of,
          of('week').over(
            cases(
              [
                [of('gives').isFilled, of('gives')],
                [of('unit').is('kg'), kilos],
                [of('unit').is('lb'), kilos.over(LB)],
                [of('unit').is('bunch'), each('bunch_weight')],
              ],
              each('piece_weight'),
            ),
          ),
        );
      },
      { format: 'one' },
    ),
    step('bare', 'Area for it', (of, at) => grown(of, gill('BED.AREA', of('plants'), at(id))), {
      quantity: 'area',
    }),
    step(
      'every',
      'Days between sowings',
      (of) => {
        const own = cropFigure('sow_every', of('line'));
        const half = call('ROUND', cropFigure('harvest_days', of('line')).over(2 * WEEK), 0).times(
          WEEK,
        );
        return grown(
          of,
          cases(
            [
              [own.isFilled, call('ROUND', own, 0)],
              [cropFigure('cut', of('line')).is('once'), WEEK],
            ],
            call('MIN', YEAR_DAYS, call('MAX', WEEK, half)),
          ),
        );
      },
      { format: 'whole' },
    ),
    step(
      'batches',
      'Batches that stand',
      (of) => grown(of, roundUp(weeksInBed(of('line')).times(WEEK).over(of('every')).minus(1e-6))),
      { format: 'whole' },
    ),
    step(
      'width',
      'Width of a bed',
      (of, at) =>
        grown(
          of,
          when(
            of('bare').below(BED_WIDTH ** 2),
            NARROW,
            call(
              'MAX',
              BED_WIDTH,
              of('bare').over(call('INT', part(MAX_BEDS).over(at('kept'))).times(FILE_LENGTH)),
            ),
          ),
        ),
      { quantity: 'length' },
    ),
    step(
      'count',
      'Beds',
      (of, at) =>
        grown(
          of,
          call(
            'MIN',
            call('INT', part(MAX_BEDS).over(at('kept'))),
            call(
              'MAX',
              1,
              roundUp(of('bare').over(of('width').times(MAX_LENGTH)).minus(1e-9)),
              call(
                'MIN',
                of('batches'),
                call('MAX', 1, call('INT', of('bare').over(of('width').times(MIN_LENGTH)))),
              ),
            ),
          ),
        ),
      { format: 'whole' },
    ),
    step(
      'length',
      'Length of a bed',
      (of) => {
        const unit = system === 'US' ? LENGTH_STEP_US * factor : LENGTH_STEP;
        const pieces = roundUp(
          of('bare')
            .over(of('count').times(of('width')).times(unit))
            .minus(1e-9),
        );
        return grown(of, call('MIN', FILE_LENGTH, call('MAX', 1, pieces).times(unit)));
      },
      { quantity: 'length' },
    ),
    step(
      'area',
      'Area of its beds',
      (of) => grown(of, of('count').times(of('length')).times(of('width'))),
      { quantity: 'area' },
    ),
    step(
      'feed',
      'Feed that its beds call for',
      (of, at) =>
        grown(
          of,
          blankWithout(
            [at('used')],
            gill(
              'FEED.WANTED',
              of('area'),
              at(id),
              when(of('bed').is('gravel'), at('gravelKind'), of('bed')),
              at('used'),
            ),
          ),
        ),
      { quantity: 'feedDay' },
    ),
    step(
      'bareFeed',
      'Feed for the area alone',
      (of) => grown(of, blankWithout([of('feed')], of('feed').times(of('bare')).over(of('area')))),
      { quantity: 'feedDay' },
    ),
  ];
}
