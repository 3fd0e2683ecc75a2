import { expect, it } from 'vitest';
import { callCard } from '../../src/functions/call';
import { findCard } from '../../src/functions/list';
import { readNumberText, UnitsNotLoaded, useUnitConverter } from '../../src/functions/units';

// No converter is handed over before the first of these: they stand in a file, and so in a process, of their own.
it('asks for the converter where a text has a unit that needs it, and nowhere else', () => {
  expect(() => readNumberText('1 gal', 'L', 'volume')).toThrow(UnitsNotLoaded);
  expect(readNumberText('7.5', 'L', 'volume')).toBe(7.5);
  expect(readNumberText('7.5 L', 'L', 'volume')).toBe(7.5);
  expect(readNumberText('60 %', 'share', 'it')).toBe(0.6);
  const card = findCard('FLOOD.MINUTES');
  if (!card) throw new Error('no card');
  // The host loads the converter and calls again: no cell shows an error meanwhile.
  expect(() => callCard(card, ['1 gal', 60])).toThrow(UnitsNotLoaded);
  expect(() => callCard(card, [[[100], ['1 gal']], 60])).toThrow(UnitsNotLoaded);
  expect(() => callCard(card, [[[100], [200]], '1 gal/h'])).toThrow(UnitsNotLoaded);
  useUnitConverter((value) => 2 * value);
  expect(readNumberText('1 gal', 'L', 'volume')).toBe(2);
});
