import { blankWithout, call, type Condition, type Formula, type Part } from './formula-parts';
import { named, nth } from './names';

/** What formulas ask of the months of the Site sheet, any of which may still be blank. */
type MonthName = 'Month_water' | 'Month_high' | 'Month_low' | 'Month_humidity';

/** Some of the months are not said yet. */
export const isOpen = (name: MonthName): Condition => call('COUNT', named(name)).below(12);

/** The month's figure; blank, and not 0, where it is not said. */
export const inMonth = (name: MonthName, month: Part): Formula =>
  blankWithout([nth(name, month)], nth(name, month));

export const monthNow = (name: MonthName): Formula =>
  inMonth(name, call('MONTH', named('Farm_date')));
