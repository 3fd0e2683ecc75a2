import { describe, expect, it } from 'vitest';
import { isoText, isoWeekText, serialFromIsoText, serialOf } from '../../src/core/serial-date';

const serial = (year: number, month: number, day: number): number => serialOf({ year, month, day });

describe('dates in text', () => {
  it.each(['2026-03-01', ' 2026-03-01 ', '2024-02-29', '1999-12-31'])('reads %s', (text) => {
    expect(isoText(serialFromIsoText(text) as number)).toBe(text.trim());
  });

  // By the calendar: what rolls over into another month or year is no date.
  it.each([
    '2026-13-05',
    '2026-00-05',
    '2026-02-29',
    '2026-04-31',
    '2026-3-1',
    'on 2026-03-01',
    '2026-03-01 noon',
    '12026-03-01',
  ])('refuses %s', (text) => {
    expect(serialFromIsoText(text)).toBeUndefined();
  });
});

describe('weeks (ISO 8601: week 1 holds 4 January, Monday first)', () => {
  it.each([
    [2026, 1, 1, '2026-W01'],
    [2026, 3, 1, '2026-W09'],
    [2026, 3, 2, '2026-W10'],
    [2026, 12, 31, '2026-W53'],
    [2027, 1, 3, '2026-W53'],
    [2027, 1, 4, '2027-W01'],
    [2024, 12, 30, '2025-W01'],
  ])('%i-%i-%i lies in %s', (year, month, day, week) => {
    expect(isoWeekText(serial(year, month, day))).toBe(week);
  });
});
