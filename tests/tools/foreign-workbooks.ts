import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

import { unpack } from '../../src/ooxml/unpack';

export interface NamedWorkbook {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const read = (folder: string): NamedWorkbook[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.xlsx'))
    .sort()
    .map((name) => ({ name, bytes: new Uint8Array(readFileSync(join(folder, name))) }));

/** Workbooks of other writers, which stand in the project. */
export const writersWorkbooks = (): NamedWorkbook[] => read(resolve('tests/ooxml/workbooks'));

/** Where the test workbooks of other projects lie beside this one; undefined where they are not there. */
export const foreignFolder = ['..', '../..']
  .map((up) => resolve(up, 'shared/foreign-workbooks/files'))
  .find(existsSync);

export const foreignWorkbooks = (): NamedWorkbook[] =>
  foreignFolder === undefined ? [] : read(foreignFolder);

const same = (a: Uint8Array, b: Uint8Array | undefined): boolean =>
  b !== undefined && a.length === b.length && a.every((byte, i) => byte === b[i]);

/** The parts in which two files differ, and those that only one of them has. */
export function changedParts(before: Uint8Array, after: Uint8Array): string[] {
  const [old, now] = [unpack(before), unpack(after)];
  return [
    ...[...old].flatMap(([name, bytes]) => (same(bytes, now.get(name)) ? [] : [name])),
    ...[...now.keys()].filter((name) => !old.has(name)),
  ];
}
