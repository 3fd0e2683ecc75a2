/** Whether something from a tank or a bed still has to wait after a treatment, as a formula. */
import { call, type Formula } from './formula-parts';
import { named } from './names';

/** Treatments for which something from a place still has to wait on a day. */
export const treatmentsAt = (place: Formula, day: Formula): Formula => {
  const where = named('Treatments_where');
  return call(
    'SUMPRODUCT',
    where
      .is(place)
      .plus(where.is('all'))
      .times(named('Treatments_date').above(0))
      .times(named('Treatments_date').atMost(day))
      .times(named('Treatments_free').above(day)),
  );
};
