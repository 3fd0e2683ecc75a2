/**
 * Whether something from a tank or a bed still has to wait after a treatment, as a formula. The treatments with days
 * to wait stand in order of place and day; beside each stands until when its place waits by it and those before it, so
 * that a sale looks at one of them.
 */
import { any, call, type Condition, type Formula, part, type Part } from './formula-parts';
import { named, nth } from './names';
import { bedKey, BED_PLACES, ROW_PLACES } from './register-keys';

/**
 * Numbers of places: tanks have their own, beds follow behind all tanks, all of the water is the last, so that a sale
 * finds something before it in the order wherever anything was treated.
 */
const BEDS_FROM = 1000;
const NOWHERE = 8999;
export const EVERYWHERE = 9000;

/** The number of a tank or else a bed by its name; of a name that is neither, that of no place. */
export const placeNamed = (name: Formula, otherwise: Part = NOWHERE): Formula => {
  const found = (list: 'Beds_name' | 'Tanks_name'): Formula =>
    call('MATCH', call('TRIM', name), named(list), 0);
  return call(
    'IFERROR',
    found('Tanks_name'),
    call('IFERROR', found('Beds_name').plus(BEDS_FROM), otherwise),
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
