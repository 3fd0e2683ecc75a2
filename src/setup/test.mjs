/** npm test: sets up what the tests need, then checks types, style and behaviour. */
import { join } from 'node:path';
import { ensurePackages } from './packages.mjs';
import { ensurePrograms } from './programs.mjs';
import { needNode, root, run, runBeside } from './run.mjs';

needNode();
ensurePackages();
const env = ensurePrograms();

// Each of these keeps one core busy; the tests take two.
const readings = await Promise.all(
  ['typecheck', 'lint'].map((script) => runBeside('npm', ['run', '--silent', script], env)),
);
const vitest = [
  join(root, 'node_modules/vitest/vitest.mjs'),
  ...['run', '--config', '.config/vitest.config.ts', '--root', '.'],
  ...process.argv.slice(2),
];
process.exitCode = readings.every(Boolean) && run(process.execPath, vitest, env) ? 0 : 1;
