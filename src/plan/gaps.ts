import { any, blankUnless, call, type Condition, type Formula, part } from './formula-parts';
import { isOpen } from './month-cells';
import { type FigureName, named } from './names';

/** What of a farm is not said, and what stays blank without it: a sentence each, blank once it is said. */

const oneBlank = (name: FigureName): Condition => named(name).isBlank;

const gaps: readonly (readonly [missing: Condition, says: string])[] = [
  [
    oneBlank('Farm_latitude'),
    'Latitude: day length, sun, shadow, water that evaporates, heat and light stay blank.',
  ],
  [
    oneBlank('Farm_altitude'),
    'Altitude: sea level is taken until it is said; high up water holds less oxygen.',
  ],
  [
    isOpen('Month_water'),
    'Water of the months: growth, feed and everything that rests on them stay blank.',
  ],
  [
    any(isOpen('Month_high'), isOpen('Month_low')),
    'Air of the months: seasons, water use and heat stay blank.',
  ],
  [isOpen('Month_humidity'), 'Air humidity: vapour pressure deficit and drying stay blank.'],
  [
    oneBlank('Stock_species'),
    'Species of the fish: the rotation, and the protein of the feed, stay blank.',
  ],
  [oneBlank('Stock_wanted'), 'Fish to sell: the rotation stays blank.'],
  [
    any(
      oneBlank('Stock_start_weight'),
      oneBlank('Stock_harvest_weight'),
      oneBlank('Stock_survival'),
    ),
    'Weights and survival of the fish: the rotation stays blank.',
  ],
  [
    call('COUNT', named('Tanks_volume')).is(0),
    'Tanks: what stands in them, pumps and air stay blank.',
  ],
  [call('COUNTA', named('Beds_name')).is(0), 'Beds: what grows where stays blank.'],
  [
    call('COUNTA', named('Sowing_crop')).is(0),
    'Market: nothing is sown, and the crops bring nothing.',
  ],
  [oneBlank('Water_total'), 'All the water: doses and make-up water stay blank.'],
  [oneBlank('Sump_volume'), 'Sump: whether it takes what drains back stays open.'],
  [oneBlank('Filter_media'), 'Filter media: whether the filter is large enough stays open.'],
  [
    any(oneBlank('Money_feed_price'), oneBlank('Money_fish_price'), oneBlank('Money_fingerling')),
    'Prices of feed, fish and fingerlings: costs, income and what is left stay blank.',
  ],
  [
    part(0).below(
      call('COUNT', named('Sowing_wanted')).minus(call('COUNT', named('Sowing_price'))),
    ),
    'Prices of crops: what the crops bring, and what is left, stay blank.',
  ],
];

export const gapsOf = (): readonly Formula[] =>
  gaps.map(([missing, says]) => blankUnless(missing, says));
