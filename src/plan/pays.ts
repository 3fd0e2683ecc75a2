import { MONTH } from '../core/stocking';
import { cases, type Formula, joined, written, call } from './formula-parts';

/** Whether a farm pays, in a year: the sheets Money and Variants ask it in the same words. */

export const MONTHS_OF_YEAR = 12;
export const WEEKS_OF_YEAR = (MONTHS_OF_YEAR * MONTH) / 7;

export const yearLabels = {
  fish: 'Fish bring',
  crops: 'Crops bring in the months in which they grow',
  everyWeek: 'Crops would bring, sold in every week',
  costs: 'All costs',
  left: 'Left in a year',
  leastFish: 'Least price of fish at which it pays',
} as const;

/** What is left in a year, and what would be if every crop were sold in every week. */
export interface Year {
  readonly left: Formula;
  readonly everyWeek: Formula;
  readonly currency: string;
}

/** Below half a unit of the currency nothing is missing. */
const EVEN = -0.5;

export function paysInWords({ left, everyWeek, currency }: Year): Formula {
  const amount = (value: Formula): Formula =>
    joined(written(call('MAX', 0, value), '0'), ` ${currency} a year`);
  const missing = joined('It does not pay: ', amount(left.negative()), ' are missing.');
  return cases(
    [
      [
        left.isBlank,
        'Whether it pays stays open: the fish to sell, the air of the months, or a price of fish, feed, fingerlings or crops is not said yet.',
      ],
      [left.atLeast(EVEN), joined('It pays: ', amount(left), ' are left.')],
      [
        everyWeek.orZero.atLeast(EVEN),
        joined(
          missing,
          ' If every crop grew and sold in every week, ',
          amount(everyWeek),
          ' would be left.',
        ),
      ],
    ],
    missing,
  );
}
