/** Batches that grow in short days, which warmth alone does not tell. */
import { SHORT_DAY } from '../core/season-limits';
import { isoText } from '../core/serial-date';
import { dayLength } from '../core/sun';
import type { Batch, PlannedBatch } from './season';

/** Share of the days from planting out to the first cut from which on a batch is named. */
const MUCH = 0.25;

/** Share of the days between two that are short. */
export function shareOfShortDays(latitude: number, from: number, to: number): number {
  let short = 0;
  for (let day = from; day < to; day++) if (dayLength(latitude, day) < SHORT_DAY) short++;
  return to > from ? short / (to - from) : 0;
}

/** Whether a batch stands in short days for long before its first cut. */
export const isInShortDays = (
  latitude: number,
  { plantedOut, firstCut }: Pick<Batch, 'plantedOut' | 'firstCut'>,
): boolean => shareOfShortDays(latitude, plantedOut, firstCut) >= MUCH;

/** For each crop, the batches that stand in short days for long, in a sentence. */
export function shortDayNotes(latitude: number, plantings: readonly PlannedBatch[]): string[] {
  const late = new Map<string, number[]>();
  for (const { crop, plantedOut, firstCut } of plantings) {
    if (!isInShortDays(latitude, { plantedOut, firstCut })) continue;
    late.set(crop, [...(late.get(crop) ?? []), firstCut]);
  }
  return [...late].map(([crop, cuts]) => {
    const [first, last] = [Math.min(...cuts), Math.max(...cuts)];
    const when =
      first === last ? `on ${isoText(first)}` : `from ${isoText(first)} to ${isoText(last)}`;
    return `${crop} first cut ${when} (${cuts.length} ${cuts.length === 1 ? 'planting' : 'plantings'}) grows in days shorter than ${SHORT_DAY} hours for a good part of its time: it may be later and less than the warmth says`;
  });
}
