/** npm test: sets up what the tests need, then checks types, style and behaviour. */
import { join } from 'node:path';
import { ensurePackages } from './packages.mjs';
import { ensurePrograms } from './programs.mjs';
import { needNode, root, runBeside, runShown } from './run.mjs';

needNode();
ensurePackages();
const env = ensurePrograms();

// They fill the gaps in which the tests wait for the browser and for LibreOffice.
const readings = ['typecheck', 'lint'].map((script) =>
  runBeside('npm', ['run', '--silent', script], env),
);
const vitest = [
  join(root, 'node_modules/vitest/vitest.mjs'),
  ...['run', '--config', '.config/vitest.config.ts', '--root', '.'],
  ...process.argv.slice(2),
];
const passed = await runShown(process.execPath, vitest, env);
const read = await Promise.all(readings);
process.exitCode = passed && read.every(Boolean) ? 0 : 1;
