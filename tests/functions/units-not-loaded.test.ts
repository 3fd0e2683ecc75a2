import { expect, it } from 'vitest';
import { readNumberText, UnitsNotLoaded, useUnitConverter } from '../../src/functions/units';

// No converter is handed over before the first of these: they stand in a file, and so in a process, of their own.
it('asks for the converter where a text has a unit that needs it, and nowhere else', () => {
  expect(() => readNumberText('1 gal', 'L', 'volume')).toThrow(UnitsNotLoaded);
  expect(readNumberText('7.5', 'L', 'volume')).toBe(7.5);
  expect(readNumberText('7.5 L', 'L', 'volume')).toBe(7.5);
  expect(readNumberText('60 %', 'share', 'it')).toBe(0.6);
  useUnitConverter((value) => 2 * value);
  expect(readNumberText('1 gal', 'L', 'volume')).toBe(2);
});
