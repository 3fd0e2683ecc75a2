/** npm run test:long: in full what `npm test` takes a few of, and the tests that take too long for it. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ensurePackages } from './packages.mjs';
import { ensurePrograms } from './programs.mjs';
import { needNode, root, runShown } from './run.mjs';

needNode();
ensurePackages();
const env = ensurePrograms();

const isLong = (name) =>
  name.endsWith('.long.test.ts') ||
  readFileSync(join(root, 'tests', name), 'utf8').includes("/tools/how-many'");
const files = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
  .map((name) => name.replaceAll('\\', '/'))
  .filter((name) => name.endsWith('.test.ts') && isLong(name))
  .map((name) => `tests/${name}`);
const vitest = [
  join(root, 'node_modules/vitest/vitest.mjs'),
  ...['run', '--config', '.config/vitest.config.ts', '--root', '.'],
  ...(process.argv.length > 2 ? process.argv.slice(2) : files),
];
process.exitCode = (await runShown(process.execPath, vitest, { ...env, TESTS: 'long' })) ? 0 : 1;
