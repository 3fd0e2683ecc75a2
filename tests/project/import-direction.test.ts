import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

/** The rooms in the order in which they may know each other: a file imports from its own room or earlier ones. */
const rooms = [
  'core',
  'functions',
  'plan',
  'records',
  'experience',
  'size',
  'ahead',
  'chances',
  'check',
  'why',
  'ooxml',
  'handover',
  'renew',
  'reference',
  'report',
  'guides',
  'engine',
  'sidebar',
  'hosts',
  'app',
  'terminal',
  'setup',
];

const source = resolve('src');

function files(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return files(path);
    return /\.(ts|js|mjs)$/.test(name) ? [path] : [];
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
  return resolved(path, namedIn(text))
    .filter((target) => rooms.indexOf(roomOf(target)) > own)
    .map((target) => `${relative(source, path)} imports ${relative(source, target)}`);
}

/** The file that an import means, without its ending. */
const bare = (path: string): string =>
  existsSync(join(path, 'index.ts')) ? join(path, 'index') : path.replace(/\.(ts|js|mjs)$/, '');

/** The first circle of files that import each other, beginning and ending with the same one. */
function circle(imports: ReadonlyMap<string, readonly string[]>): string[] | undefined {
  const done = new Set<string>();
  const walk = (file: string, way: readonly string[]): string[] | undefined => {
    if (way.includes(file)) return [...way.slice(way.indexOf(file)), file];
    if (done.has(file)) return undefined;
    for (const next of imports.get(file) ?? []) {
      const found = walk(next, [...way, file]);
      if (found) return found;
    }
    done.add(file);
    return undefined;
  };
  for (const file of imports.keys()) {
    const found = walk(file, []);
    if (found) return found;
  }
  return undefined;
}

describe('imports point one way', () => {
  const all = files(source);

  it('finds the sources', () => {
    expect(all.length).toBeGreaterThan(20);
    expect(all.flatMap(importsOf).length).toBeGreaterThan(50);
  });

  it('knows every room', () => {
    const unknown = readdirSync(source).filter((name) => !rooms.includes(name));
    expect(unknown).toEqual([]);
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
  ])('would notice %s of a later room', (_, text) => {
    const path = join(source, 'core', 'ammonia.ts');
    expect(backwards(path, text)).toEqual([
      `${join('core', 'ammonia.ts')} imports ${join('functions', 'card')}`,
    ]);
    expect(backwards(join(source, 'plan', 'plan.ts'), text)).toEqual([]);
  });

  it('has no circles of files, types included', () => {
    const imports = new Map(all.map((path) => [bare(path), importsOf(path).map(bare)]));
    expect(circle(imports)?.map((path) => relative(source, path))).toBeUndefined();
  });

  it('would notice a circle', () => {
    const imports = new Map([
      ['a', ['b', 'c']],
      ['b', []],
      ['c', ['d']],
      ['d', ['b', 'c']],
    ]);
    expect(circle(imports)).toEqual(['c', 'd', 'c']);
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

describe('file names', () => {
  it('are unique, so that an editor opens the right file by its name', () => {
    const names = [...files(source), ...files(resolve('tests'))].map((path) => basename(path));
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });
});
