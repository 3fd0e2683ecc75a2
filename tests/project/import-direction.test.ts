import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

/** The rooms in the order in which they may know each other: a file imports from its own room or earlier ones. */
const rooms = [
  'core',
  'functions',
  'reference',
  'guides',
  'plan',
  'ahead',
  'check',
  'handover',
  'engine',
  'hosts',
  'sidebar',
  'terminal',
];
/** Entry pages put a host and the sidebar together, so they stand above both. */
const entries = /-entry\.ts$|[\\/]workbench[\\/]page\.ts$/;

const source = resolve('src');

function files(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return files(path);
    return /\.ts$/.test(name) ? [path] : [];
  });
}

const roomOf = (path: string): string => relative(source, path).split(/[\\/]/)[0] ?? '';

/** Everything a file names as an import: types, re-exports and what is loaded later too. */
const namedIn = (text: string): string[] =>
  ts.preProcessFile(text).importedFiles.map(({ fileName }) => fileName);
const named = (path: string): string[] => namedIn(readFileSync(path, 'utf8'));

const resolved = (path: string, names: readonly string[]): string[] =>
  names.filter((name) => name.startsWith('.')).map((name) => resolve(dirname(path), name));
const importsOf = (path: string): string[] => resolved(path, named(path));

/** What a file with this text imports from a later room. */
function backwards(path: string, text: string): string[] {
  const own = rooms.indexOf(roomOf(path));
  if (own < 0 || entries.test(path)) return [];
  return resolved(path, namedIn(text))
    .filter((target) => rooms.indexOf(roomOf(target)) > own)
    .map((target) => `${relative(source, path)} imports ${relative(source, target)}`);
}

describe('imports point one way', () => {
  const all = files(source);

  it('finds the sources', () => {
    expect(all.length).toBeGreaterThan(20);
    expect(all.flatMap(importsOf).length).toBeGreaterThan(50);
  });

  it(`goes through ${rooms.join(' <- ')} only forwards`, () => {
    const wrong = all.flatMap((path) => backwards(path, readFileSync(path, 'utf8')));
    expect(wrong).toEqual([]);
  });

  // Each plants one fault.
  it.each([
    ['an import', "import { card } from '../functions/card';"],
    ['a type', "import type { Card } from '../functions/card';"],
    ['a re-export', "export { card } from '../functions/card';"],
    ['what is loaded later', "const later = import('../functions/card');"],
    ['for its effect', "import '../functions/card';"],
  ])('would see %s of a later room', (_, text) => {
    const path = join(source, 'core', 'ammonia.ts');
    expect(backwards(path, text)).toEqual([
      `${join('core', 'ammonia.ts')} imports ${join('functions', 'card')}`,
    ]);
    expect(backwards(join(source, 'plan', 'plan.ts'), text)).toEqual([]);
  });

  it('keeps the core free of every library', () => {
    const wrong = all
      .filter((path) => roomOf(path) === 'core')
      .filter((path) => named(path).some((name) => !name.startsWith('.')));
    expect(wrong).toEqual([]);
  });

  it('keeps the spreadsheet engine inside its own room and the workbench', () => {
    const wrong = all
      .filter((path) => named(path).includes('@odoo/o-spreadsheet'))
      .map((path) => relative(source, path).replaceAll('\\', '/'))
      .filter((path) => !/^(engine|hosts\/workbench)\//.test(path));
    expect(wrong).toEqual([]);
  });
});
