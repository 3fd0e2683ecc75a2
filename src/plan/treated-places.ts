/**
 * Whether something from a tank or a bed still has to wait after a treatment, as a formula. The treatments with days
 * to wait stand in order of place and day; beside each stands until when its place waits by it and those before it, so
 * that a sale looks at one of them.
 */
import { any, call, type Condition, type Formula, part, type Part } from './formula-parts';
import { named, nth } from './names';
import { bedKey, BED_PLACES, ROW_PLACES } from './register-keys';

/** Number of the place that means all of the water; beds have their own numbers, tanks follow far behind. */
export const EVERYWHERE = 0;
const TANKS_FROM = 5000;
const NOWHERE = 4999;

export const placeOfTank = (tank: Formula): Formula => tank.plus(TANKS_FROM);

/** The number of a bed or else a tank by its name; of a name that is neither, that of no place. */
export const placeNamed = (name: Formula, otherwise: Part = NOWHERE): Formula => {
  const found = (list: 'Beds_name' | 'Tanks_name'): Formula =>
    call('MATCH', call('TRIM', name), named(list), 0);
  return call(
    'IFERROR',
    found('Beds_name'),
    call('IFERROR', placeOfTank(found('Tanks_name')), otherwise),
  );
};

/** A place and a day as one number. */
export const placeAndDay = (place: Formula, day: Formula): Formula =>
  place.times(BED_PLACES).plus(day.times(ROW_PLACES));

const waitsAt = (place: Formula, day: Formula): Condition =>
  call(
    'IFERROR',
    nth(
      'Treatments_until',
      call('MATCH', bedKey(place, day, ROW_PLACES - 1), named('Treatments_sorted'), 1),
    ),
    0,
  ).above(placeAndDay(place, day));

/** Something from a place has still to wait on a day. */
export const hasToWait = (place: Formula, day: Formula): Condition =>
  any(waitsAt(place, day), waitsAt(part(EVERYWHERE), day));
