import { describe, expect, it } from 'vitest';
import { shareOfShortDays, shortDayNotes } from '../../src/ahead/short-days';
import { serialOf } from '../../src/core/serial-date';

const day = (month: number, date: number): number => serialOf({ year: 2026, month, day: date });

describe('batches in short days', () => {
  it('are counted by day length at the latitude of the farm, in both hemispheres', () => {
    // At 50 degrees the day of midwinter has about eight hours, that of midsummer sixteen.
    expect(shareOfShortDays(50, day(12, 1), day(12, 31))).toBe(1);
    expect(shareOfShortDays(50, day(6, 1), day(6, 30))).toBe(0);
    expect(shareOfShortDays(-50, day(6, 1), day(6, 30))).toBe(1);
    expect(shareOfShortDays(0, day(12, 1), day(12, 31))).toBe(0);
    expect(shareOfShortDays(50, day(6, 1), day(6, 1))).toBe(0);
  });

  it('are named crop by crop, with the days of their first cuts', () => {
    const batch = (crop: string, plantedOut: number, firstCut: number) => ({
      crop,
      bed: 'A',
      plants: 10,
      area: 1,
      sown: plantedOut - 20,
      plantedOut,
      firstCut,
      cleared: firstCut + 7,
    });
    const notes = shortDayNotes(50, [
      batch('lettuce', day(10, 20), day(12, 20)),
      batch('lettuce', day(11, 10), day(12, 28)),
      batch('lettuce', day(5, 1), day(6, 1)),
      batch('basil', day(6, 1), day(7, 1)),
    ]);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatch(/^lettuce first cut from 2026-12-20 to 2026-12-28 \(2 plantings\)/);
  });
});
