import { wrongValue } from '../core/errors';
import type { Farm } from '../plan/farm';
import type { MonthMeans } from './crop-season';

/** A figure without which nothing can be planned ahead; a farm that does not say it yet is told so. */
export function needed<T>(value: T | undefined, what: string): T {
  if (value === undefined)
    throw wrongValue(`${what} is missing in the farm; nothing is planned ahead without it`);
  return value;
}

/** Mean air of each month where the crops stand, degC. */
export const airMeans = (farm: Farm): MonthMeans =>
  farm.months.map(({ high, low }) =>
    // As Site rounds it: a mean of degrees Fahrenheit would lie a hair beside a limit that it stands on.
    Number(
      (
        (needed(high, 'the air by day of a month') + needed(low, 'the air by night of a month')) /
        2
      ).toFixed(6),
    ),
  );

/** Mean water of each month, degC. */
export const monthWater = (farm: Farm): readonly number[] =>
  farm.months.map(({ water }) => needed(water, 'the water of a month'));
