import { calendarDate } from './serial-date';

/** What a crop needs from planting out to the first cut, in heat. */
export interface HeatNeed {
  /** Mean air temperature at or below which it stands still, degC. */
  readonly base: number;
  /** Mean air temperature beyond which more warmth brings nothing, degC. */
  readonly cap: number;
  /** Sum of daily means above the base, degC day. */
  readonly sum: number;
}

/** Longest wait that is still called growing: two years. */
const MAX_WAIT = 730;

/** degC day of a day with this mean air temperature, degC. */
export const thermalDay = (mean: number, { base, cap }: HeatNeed): number =>
  Math.max(0, Math.min(mean, cap) - base);

/**
 * Days from `start` (a serial) until the heat that a crop needs has come together, walking the calendar
 * with the mean air temperature of each month (twelve, January first, degC). Undefined where two years
 * do not suffice: the crop will not be ready.
 */
export function daysToHeat(
  start: number,
  monthMeans: readonly number[],
  need: HeatNeed,
): number | undefined {
  let heat = 0;
  for (let day = 0; day <= MAX_WAIT; day++) {
    if (heat >= need.sum - 1e-9) return day;
    const { month } = calendarDate(start + day);
    heat += thermalDay(monthMeans[month - 1] ?? Number.NaN, need);
  }
  return undefined;
}
