import { afterEach, expect } from 'vitest';
import { Witness, type WitnessOptions } from './excel-witness';

let current: Witness | undefined;

/** Opens an Excel for one test, which fails where any misuse of the library or of Excel was found. */
export function openExcel(options: WitnessOptions = {}): Witness {
  current = new Witness(options);
  return current;
}

afterEach(() => {
  const faults = current?.host.faults ?? [];
  current = undefined;
  expect(faults).toEqual([]);
});
