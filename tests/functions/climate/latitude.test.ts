import { describe, expect, it } from 'vitest';
import { errorOf, numberOf } from '../../tools/card-value';

// A day in June: north and south differ, so a sign that is lost shows.
const DATE = '2026-06-21';
const hours = (latitude: string | number): number => numberOf('SUN.HOURS', latitude, DATE);

describe('a latitude in text', () => {
  it.each([
    ['33.9 S', -33.9],
    ['33.9S', -33.9],
    [' 33.9° s ', -33.9],
    ['33.9  °  S', -33.9],
    ['52 N', 52],
    ['52°n', 52],
    ['0 S', 0],
    ['-33.9', -33.9],
  ])('"%s" is %f', (text, degrees) => {
    expect(hours(text)).toBe(hours(degrees));
  });

  it.each(['-33.9 S', '-33.9 N'])('refuses a sign beside a letter: "%s"', (text) => {
    expect(errorOf('SUN.HOURS', text, DATE)).toBe(
      `#VALUE! latitude takes either a sign or a letter, such as -33.9 or "33.9 S"; got "${text}"`,
    );
  });

  it.each(['S', '33.9 South', 'N 33.9', '33.9 x S', '95 N'])('refuses "%s"', (text) => {
    expect(errorOf('SUN.HOURS', text, DATE)).toMatch(/^#(?:VALUE|NUM)! latitude/);
  });
});
