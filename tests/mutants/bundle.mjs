/** All fast tests and what they import, as one script that can be run again and again. */
import { build } from 'esbuild';
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';

/** The arithmetic and the cards: no browser, no LibreOffice, no build. */
const FOLDERS = ['tests/core', 'tests/functions', 'tests/reference'];
/** What else looks at files of these rooms. */
const ALSO = ['tests/handover/calls.test.ts', 'tests/project/catalogue.test.ts'];
/** The slow ones come after all that may spare them the work. */
const LAST = [
  'tests/functions/every-card.test.ts',
  'tests/functions/plain-in-another-engine.test.ts',
];

const testFiles = () =>
  FOLDERS.flatMap((folder) =>
    readdirSync(folder, { recursive: true }).map((name) => `${folder}/${name}`),
  )
    .concat(ALSO)
    .filter((path) => path.endsWith('.test.ts'))
    .sort((a, b) => LAST.indexOf(a) - LAST.indexOf(b) || (a < b ? -1 : 1));

/** In a script the address of each file is written out. */
const addresses = {
  name: 'addresses',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]tests[\\/].*\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8').replaceAll(
        'import.meta.url',
        JSON.stringify(pathToFileURL(path).href),
      ),
      loader: 'ts',
    }));
  },
};

/** What `require` gives for a package that was imported: its default too, where that is all it has. */
function asRequired(module) {
  const marks = ['default', 'module.exports', '__esModule'];
  const names = Object.keys(module).filter((name) => !marks.includes(name));
  return names.length === 0 ? module.default : { ...module, __esModule: true };
}

/**
 * Builds the script from the working folder. Returns a function that runs it and gives its tests;
 * packages are loaded once, the project's own files anew each time. `plugins` of esbuild may change files.
 */
export async function bundled(plugins = []) {
  const entry = [
    "import { collected, inFile, startCollecting } from 'vitest';",
    'startCollecting();',
    "require('./tests/tools/fixed-seed.ts');",
    // One counterexample is enough: looking for a smaller one takes long.
    "const fc = require('fast-check').default;",
    'fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });',
    ...testFiles().map((path) => `inFile('${path}'); require('./${path}');`),
    'module.exports = collected();',
  ].join('\n');
  const { outputFiles, metafile } = await build({
    stdin: { contents: entry, resolveDir: process.cwd(), sourcefile: 'entry.cjs', loader: 'js' },
    bundle: true,
    write: false,
    metafile: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    packages: 'external',
    alias: { vitest: resolve('tests/mutants/collect.mjs') },
    plugins: [addresses, ...plugins],
    logLevel: 'error',
  });
  const packages = new Map();
  for (const { imports } of Object.values(metafile.inputs))
    for (const { path, external } of imports)
      if (external && !path.startsWith('.') && !packages.has(path))
        packages.set(path, asRequired(await import(path)));
  const script = new Script(
    `(function (require, module) {\n${outputFiles[0].text}\nreturn module.exports;})`,
  );
  return () => script.runInThisContext()((name) => packages.get(name), { exports: {} });
}
