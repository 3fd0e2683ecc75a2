/**
 * Dates as spreadsheet serials of the 1900 system: day 1 is 1900-01-01 and, as every spreadsheet keeps
 * the old mistake that 1900 was a leap year, serials are true days only from 61 (1900-03-01) on.
 * That is the first date taken here.
 */
export const MIN_SERIAL = 61;
/** 9999-12-31, the last date that spreadsheets have. */
export const MAX_SERIAL = 2958465;

const DAY_MS = 86400000;
const EPOCH_MS = Date.UTC(1899, 11, 30);

export interface CalendarDate {
  readonly year: number;
  /** 1 to 12 */
  readonly month: number;
  /** 1 to 31 */
  readonly day: number;
}

/** Serial of a calendar date. */
export const serialOf = ({ year, month, day }: CalendarDate): number => {
  const ms = new Date(0).setUTCFullYear(year, month - 1, day);
  return Math.round((ms - EPOCH_MS) / DAY_MS);
};

/** Calendar date of a serial. */
export function calendarDate(serial: number): CalendarDate {
  const d = new Date(EPOCH_MS + Math.floor(serial) * DAY_MS);
  return { year: d.getUTCFullYear(), month: d.getUTCMonth() + 1, day: d.getUTCDate() };
}

/** Serial of "yyyy-mm-dd"; undefined where the text is no such date. */
export function serialFromIsoText(text: string): number | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text.trim());
  if (!match) return undefined;
  return serialIfReal({ year: Number(match[1]), month: Number(match[2]), day: Number(match[3]) });
}

const MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];

/** 1 to 12 of a month's name or its first three letters or more; undefined for anything else. */
function monthNumber(word: string): number | undefined {
  const name = word.toLowerCase();
  const at = name.length < 3 ? -1 : MONTHS.findIndex((month) => month.startsWith(name));
  return at < 0 ? undefined : at + 1;
}

function serialIfReal(date: CalendarDate): number | undefined {
  const serial = serialOf(date);
  const found = calendarDate(serial);
  // A day that its month does not have leads into another month.
  return found.month === date.month && found.day === date.day ? serial : undefined;
}

/** Serial of a date that cannot be misread: "2026-06-01", "1 June 2026", "Jun 1, 2026"; undefined for any other text. */
export function serialFromText(text: string): number | undefined {
  const [, dayFirst, monthSecond, monthFirst, daySecond, year] =
    /^(?:(\d{1,2})\.? ([a-z]+)\.?,?|([a-z]+)\.? (\d{1,2}),?) (\d{4})$/i.exec(
      text.trim().replace(/\s+/g, ' '),
    ) ?? [];
  const month = monthNumber(monthSecond ?? monthFirst ?? '');
  if (month === undefined) return serialFromIsoText(text);
  return serialIfReal({ year: Number(year), month, day: Number(dayFirst ?? daySecond) });
}

/** The dates that a text of three numbers may be, as "yyyy-mm-dd": "06/01/2026" is 6 January or 1 June. */
export function datesMeant(text: string): readonly string[] {
  const [, one, other, year] = /^(\d{1,2})[/. -](\d{1,2})[/. -](\d{4})$/.exec(text.trim()) ?? [];
  if (year === undefined) return [];
  const meant = [
    [one, other],
    [other, one],
  ].map(([day, month]) =>
    Number(month) <= 12
      ? serialIfReal({ year: Number(year), month: Number(month), day: Number(day) })
      : undefined,
  );
  return [...new Set(meant.filter((serial) => serial !== undefined))].map(isoText);
}

/** "yyyy-mm-dd" of a serial. */
export function isoText(serial: number): string {
  const { year, month, day } = calendarDate(serial);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${year}-${two(month)}-${two(day)}`;
}

/** Day of the year, 1 to 366. */
export const dayOfYear = (serial: number): number =>
  Math.floor(serial) - serialOf({ year: calendarDate(serial).year, month: 1, day: 1 }) + 1;

/** Day of the week, Monday 1 to Sunday 7 (ISO 8601). */
export const isoWeekday = (serial: number): number => ((Math.floor(serial) + 5) % 7) + 1;

/** ISO 8601 week: Monday first, week 1 holds 4 January. */
export function isoWeek(serial: number): { year: number; week: number } {
  const thursday = Math.floor(serial) - isoWeekday(serial) + 4;
  return { year: calendarDate(thursday).year, week: Math.floor((dayOfYear(thursday) - 1) / 7) + 1 };
}

/** "2026-W53", the ISO 8601 week of a serial; sorts by time as text. */
export function isoWeekText(serial: number): string {
  const { year, week } = isoWeek(serial);
  return `${year}-W${String(week).padStart(2, '0')}`;
}
