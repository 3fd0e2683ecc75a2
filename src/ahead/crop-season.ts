import { growingAir } from '../core/season-limits';
import { calendarDate, isoText } from '../core/serial-date';
import { pickingDays } from '../core/sowing';
import { type Crop, usual } from '../core/tables/crops';
import { daysToHeat } from '../core/thermal-time';
import type { Batch, NoBatch } from './season';

/** Mean air temperature of each month (January first), degC. */
export type MonthMeans = readonly number[];

function meanOver(from: number, to: number, means: MonthMeans): number {
  let sum = 0;
  const days = Math.max(1, to - from);
  for (let day = 0; day < days; day++) {
    sum += means[calendarDate(from + day).month - 1] ?? Number.NaN;
  }
  return sum / days;
}

/** The dates of a batch planted out on a day, its time in the bed by the warmth of the months. */
export function batchPlantedOn(crop: Crop, plantedOut: number, means: MonthMeans): Batch | NoBatch {
  const inPlace = crop.start === 'in place';
  const nursery = usual(crop, 'transplant_days');
  const emerged = plantedOut + (inPlace ? nursery : 0);
  const days = daysToHeat(emerged, means, {
    base: usual(crop, 'base_temp'),
    cap: usual(crop, 'cap_temp'),
    sum: usual(crop, 'degree_days'),
  });
  if (days === undefined) {
    const season = `too cold for ${crop.name} ever to be cut`;
    return { why: `${season} (planted out on ${isoText(plantedOut)})`, season };
  }
  const firstCut = emerged + days;
  return {
    sown: plantedOut - (inPlace ? 0 : nursery),
    plantedOut,
    firstCut,
    cleared: firstCut + pickingDays(crop),
  };
}

/** The dates of a batch planted out on a day, or why the months do not allow it. */
export function seasonableBatch(
  crop: Crop,
  plantedOut: number,
  means: MonthMeans,
  inWords: (degrees: number) => string = (degrees) => `${Number(degrees.toFixed(1))} °C`,
): Batch | NoBatch {
  const batch = batchPlantedOn(crop, plantedOut, means);
  if ('why' in batch) return batch;
  // A mean that stands on a limit lies a hair beside it where it was typed in degrees Fahrenheit.
  const mean = Number(meanOver(plantedOut, batch.firstCut, means).toFixed(6));
  const [coldest, warmest] = growingAir(crop);
  if (mean >= coldest && mean <= warmest) return batch;
  const season =
    mean < coldest
      ? `too cold for ${crop.name} (less than ${inWords(coldest)} of mean air in the bed)`
      : `too hot for ${crop.name} (more than ${inWords(warmest)} of mean air in the bed)`;
  return { why: `${season}: planted out on ${isoText(plantedOut)}, ${inWords(mean)}`, season };
}
