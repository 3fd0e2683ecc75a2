/** Water of single days: the mean of a month's readings where there are some, the months' figures elsewhere. */
import type { MonthWater } from '../core/month-water';
import { growingTemperature } from '../core/growth';
import { calendarDate } from '../core/serial-date';
import type { Species } from '../core/tables/species';

/** Readings that a month needs before they count: one may be of an odd day. */
export const READINGS_OF_A_MONTH = 2;

export interface Reading {
  readonly date: number;
  readonly temperature?: number | undefined;
}

/** Water of a day, degC. */
export type WaterOfDays = (day: number) => number;

const monthOf = (day: number): number => {
  const { year, month } = calendarDate(day);
  return 12 * year + month - 1;
};

export function waterOfDays(readings: readonly Reading[], months: MonthWater): WaterOfDays {
  const sums = new Map<number, { count: number; sum: number }>();
  for (const { date, temperature } of readings) {
    if (temperature === undefined) continue;
    const month = monthOf(date);
    const so = sums.get(month) ?? { count: 0, sum: 0 };
    sums.set(month, { count: so.count + 1, sum: so.sum + temperature });
  }
  return (day) => {
    const month = monthOf(day);
    const read = sums.get(month);
    return read !== undefined && read.count >= READINGS_OF_A_MONTH
      ? read.sum / read.count
      : (months[month % 12] as number);
  };
}

/** Mean of the temperature that counts for growth from the start of one day to the start of another, degC. */
export function meanGrowingTemperature(
  kind: Species,
  water: WaterOfDays,
  from: number,
  to: number,
): number {
  let sum = 0;
  for (let day = Math.floor(from); day < to; day++) sum += growingTemperature(kind, water(day));
  return sum / Math.max(1, Math.ceil(to) - Math.floor(from));
}
