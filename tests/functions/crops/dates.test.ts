import { addDays, differenceInCalendarDays, getISODay, getISOWeek, getISOWeekYear } from 'date-fns';
import { describe, expect, it } from 'vitest';
import { calendarDate, isoText, isoWeekday, serialOf } from '../../../src/core/serial-date';
import { stages } from '../../../src/core/sowing';
import { cropTable } from '../../../src/functions/crop-table';
import { cellOf, errorOf, numberOf } from '../../tools/card-value';

/**
 * Dates and weeks against date-fns, an independent library. It counts in local time; midday keeps clock
 * changes away from the day.
 */
const localDate = (serial: number): Date => {
  const { year, month, day } = calendarDate(serial);
  return new Date(year, month - 1, day, 12);
};
const serialOfLocal = (date: Date): number =>
  serialOf({ year: date.getFullYear(), month: date.getMonth() + 1, day: date.getDate() });

type Row = readonly unknown[];
function seriesOf(...args: (string | number)[]): Row[] {
  const rows = cellOf('SOW.SERIES', ...args);
  if (!Array.isArray(rows)) throw new Error(`SOW.SERIES gives ${String(rows)}`);
  return rows;
}

const years = [1900, 1904, 1999, 2000, 2004, 2009, 2015, 2020, 2024, 2026, 2027, 2032, 2100, 2400];
/** Four weeks on either side of the turn of each year, and all around the end of February. */
const grid = years.flatMap((year) => {
  const newYear = serialOf({ year: year + 1, month: 1, day: 1 });
  const march = serialOf({ year, month: 3, day: 1 });
  return [
    ...Array.from({ length: 57 }, (_, i) => newYear - 28 + i),
    ...Array.from({ length: 9 }, (_, i) => Math.max(61, march - 4 + i)),
  ];
});

const weekText = (date: Date): string =>
  `${getISOWeekYear(date)}-W${String(getISOWeek(date)).padStart(2, '0')}`;

describe(`dates and weeks, ${grid.length} days with leap years and week 53, against date-fns`, () => {
  it('agree on the ISO week of sowing and the day of the week', () => {
    const weeks = new Set<string>();
    for (const serial of grid) {
      const week = String(seriesOf(serial, 7, 1, 'lettuce')[0]?.[5]);
      expect(week).toBe(weekText(localDate(serial)));
      expect(isoWeekday(serial)).toBe(getISODay(localDate(serial)));
      weeks.add(week);
    }
    expect([...weeks].filter((week) => week.endsWith('W53')).length).toBeGreaterThan(4);
  });

  it('agree on sowing dates and stages, over 29 February and the turn of the year', () => {
    for (const serial of grid.filter((value) => value > 500)) {
      const sown = numberOf('SOW.DATE', serial, 'tomato');
      expect(sown).toBe(serialOfLocal(addDays(localDate(serial), -107)));
      expect(differenceInCalendarDays(localDate(serial), localDate(sown))).toBe(107);
      const clear = numberOf('SOW.STAGE', serial, 'lettuce', 'clear');
      expect(clear).toBe(serialOfLocal(addDays(localDate(serial), 51)));
      const picked = numberOf('SOW.STAGE', serial, 'kale', 'clear');
      expect(picked).toBe(serialOfLocal(addDays(localDate(serial), 145)));
    }
  });

  it('agree over a series of two years', () => {
    const rows = seriesOf('2026-01-05', 7, 104, 'kale');
    expect(rows.length).toBe(104);
    rows.forEach(([batch, sow, transplant, cut, clear, week], i) => {
      const date = addDays(new Date(2026, 0, 5, 12), 7 * i);
      expect(batch).toBe(i + 1);
      expect(sow).toBe(serialOfLocal(date));
      expect([transplant, cut, clear]).toEqual(
        [35, 85, 145].map((days) => serialOfLocal(addDays(date, days))),
      );
      expect(week).toBe(weekText(date));
    });
    const weeks = rows.map((row) => String(row[5]));
    expect(weeks).toEqual([...weeks].sort());
    expect(weeks).toContain('2026-W53');
  });

  it('take 1900-03-01 as the first day of all and 9999-12-31 as the last', () => {
    expect(serialOf({ year: 1900, month: 3, day: 1 })).toBe(61);
    expect(errorOf('SOW.STAGE', 60, 'lettuce', 'clear')).toMatch(/^#VALUE! sown must be a date/);
    expect(errorOf('SOW.DATE', 61 + 50, 'lettuce')).toMatch(/^#NUM! the sowing falls outside/);
    expect(numberOf('SOW.DATE', 61 + 51, 'lettuce')).toBe(61);
    expect(numberOf('SOW.STAGE', 2958465 - 51, 'lettuce', 'harvest')).toBe(2958465);
    expect(errorOf('SOW.STAGE', 2958465 - 50, 'lettuce', 'harvest')).toMatch(/^#NUM!/);
    expect(errorOf('SOW.SERIES', 2958465 - 57, 7, 2, 'lettuce')).toMatch(/^#NUM! the last batch/);
  });

  it('leave the time of day out', () => {
    expect(numberOf('SOW.STAGE', 46127.75, 'lettuce', 'first cut')).toBe(46178);
    expect(seriesOf(46127.75, 7, 1, 'lettuce')[0]?.[1]).toBe(46127);
  });
});

describe('round trips', () => {
  it('SOW.STAGE inverts SOW.DATE for every crop and stage that it has', () => {
    let tried = 0;
    for (const crop of cropTable.book.names) {
      for (const stage of stages) {
        const sown = cellOf('SOW.DATE', '2028-02-29', crop, stage);
        if (typeof sown !== 'number') {
          expect(errorOf('SOW.OFFSET', crop, stage)).toMatch(/^#NUM! /);
          continue;
        }
        expect(isoText(numberOf('SOW.STAGE', sown, crop, stage))).toBe('2028-02-29');
        expect(numberOf('SOW.OFFSET', crop, stage)).toBe(
          numberOf('SOW.STAGE', sown, crop, stage) - sown,
        );
        tried++;
      }
    }
    // All but the transplant of beans, radish and microgreens and the emergence of strawberry plugs and mint cuttings.
    expect(tried).toBe(46 * 4 - 5);
  });

  it('SOW.SERIES holds the dates that SOW.STAGE gives', () => {
    for (const crop of cropTable.book.names) {
      const [, sow, ...dates] = seriesOf('2027-12-20', 10, 3, crop)[2] ?? [];
      expect(sow).toBe(serialOf({ year: 2028, month: 1, day: 9 }));
      for (const [i, stage] of ['transplant', 'first cut', 'clear'].entries()) {
        const alone = cellOf('SOW.STAGE', Number(sow), crop, stage);
        expect(dates[i]).toBe(typeof alone === 'number' ? alone : 'sown in place');
      }
    }
  });
});

describe('how long a place is taken, by BED.PLANTS and by SOW.OFFSET', () => {
  it.each(cellOf('FACT.CROPS') as unknown as string[][])('%s: one answer', (crop) => {
    const inPlace = cellOf('FACT.CROP', crop, 'start') === 'in place';
    const from = inPlace ? 0 : numberOf('SOW.OFFSET', crop, 'transplant');
    const to = numberOf('SOW.OFFSET', crop, 'clear');
    expect(numberOf('BED.PLANTS', 7, crop)).toBeCloseTo(to - from, 9);
    // What is cut once is gone with the cut.
    const picked = to - numberOf('SOW.OFFSET', crop, 'first cut');
    const again = cellOf('FACT.CROP', crop, 'cut') === 'again';
    expect(picked).toBe(again ? numberOf('FACT.CROP', crop, 'harvest days') : 0);
  });
});
