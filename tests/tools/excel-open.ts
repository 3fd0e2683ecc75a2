import { afterEach, expect } from 'vitest';
import { type LibraryFile, loadLibrary } from './excel-library';
import { Witness, type WitnessOptions } from './excel-witness';

export interface ExcelOptions extends WitnessOptions {
  readonly library?: LibraryFile;
}

let current: Witness | undefined;

/** Opens an Excel for one test, which fails where any misuse of the library or of Excel was found. */
export function openExcel({ library, ...options }: ExcelOptions = {}): Witness {
  current = new Witness(loadLibrary(library), options);
  return current;
}

afterEach(() => {
  const faults = current?.host.faults ?? [];
  current = undefined;
  expect(faults).toEqual([]);
});
