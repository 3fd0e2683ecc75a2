/**
 * Growth in water whose temperature is known as a mean of each month. Warmth adds up day by day, each day at
 * its month's temperature, so that growth over a time is the same in one step and in many.
 */
import { daysToGrow, growingTemperature } from './growth';
import { calendarDate, serialOf } from './serial-date';
import type { Species } from './tables/species';

/** Mean water temperature of January to December, degC. */
export type MonthWater = readonly number[];

/** degC on a day, a date serial. */
export const waterOn = (months: MonthWater, day: number): number =>
  months[calendarDate(day).month - 1] as number;

/** degC x days that count for growth from the start of day `from` to the start of day `to`, date serials. */
export function warmthBetween(kind: Species, months: MonthWater, from: number, to: number): number {
  let sum = 0;
  let day = from;
  while (day < to) {
    const { year, month } = calendarDate(day);
    const nextMonth = serialOf(
      month === 12 ? { year: year + 1, month: 1, day: 1 } : { year, month: month + 1, day: 1 },
    );
    const end = Math.min(nextMonth, to);
    sum += (end - day) * growingTemperature(kind, months[month - 1] as number);
    day = end;
  }
  return sum;
}

/**
 * Days from one weight to another at the mean warmth of a whole year, g; Infinity where the fish never grow.
 * What a batch really takes depends on the season in which it is stocked.
 */
export function meanDaysToGrow(
  kind: Species,
  months: MonthWater,
  coefficient: number,
  { from, to }: { readonly from: number; readonly to: number },
): number {
  const start = serialOf({ year: 2001, month: 1, day: 1 });
  const mean = warmthBetween(kind, months, start, start + 365) / 365;
  return daysToGrow(from, to, mean, coefficient);
}

/** Share alive from one day to the next where `survival` is the share alive after `days`. */
export const dailySurvival = (survival: number, days: number): number =>
  Number.isFinite(days) && days > 0 ? survival ** (1 / days) : 1;
