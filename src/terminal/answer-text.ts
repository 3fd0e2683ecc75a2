import { GillError } from '../core/errors';
import { isoText } from '../core/serial-date';
import type { Answer } from '../engine/evaluate-formula';

const two = (value: number): string => String(value).padStart(2, '0');

function dateText(serial: number): string {
  const seconds = Math.round((serial - Math.floor(serial)) * 86400);
  const clock = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  const time = clock.map(two).join(':');
  if (serial < 1) return time;
  return seconds === 0 ? isoText(serial) : `${isoText(serial)}T${time}`;
}

/** A cell as a line of text: 15 digits as spreadsheets keep them, dates as yyyy-mm-dd. */
export function answerText({ value, isDate }: Answer): string {
  if (value instanceof GillError) return value.code;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return value;
  return isDate && value >= 0 ? dateText(value) : String(Number(value.toPrecision(15)));
}
