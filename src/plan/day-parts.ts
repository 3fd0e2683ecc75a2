import { call, type Formula, madeElsewhere, part } from './formula-parts';
import { named } from './names';

/** Days of a year before each month, and of all twelve. */
export const daysBefore = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365] as const;
const daysBeforeList = madeElsewhere(`{${daysBefore.slice(0, 12).join(',')}}`);

/** A day as its year after the plan's, its month, the days before it in the month, and leap days since. */
export interface DayParts {
  readonly years: Formula;
  readonly month: Formula;
  readonly days: Formula;
  readonly leap: Formula;
}

const yearOfPlan = call('YEAR', named('Farm_date'));

export const yearsAfter = (day: Formula): Formula => call('YEAR', day).minus(yearOfPlan);

/** Leap days between the first of the year of the plan and a day. */
export const leapDays = (day: Formula, { years, month, days }: Omit<DayParts, 'leap'>): Formula =>
  day
    .minus(call('DATE', yearOfPlan, 1, 1))
    .minus(part(365).times(years))
    .minus(call('INDEX', daysBeforeList, 1, month))
    .minus(days);
