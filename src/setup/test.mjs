/** npm test: sets up what the tests need, then checks types, style and behaviour. */
import { join } from 'node:path';
import { ensurePackages } from './packages.mjs';
import { ensurePrograms } from './programs.mjs';
import { needNode, root, run } from './run.mjs';

needNode();
ensurePackages();
const env = ensurePrograms();

const checks = [
  ['npm', ['run', '--silent', 'typecheck']],
  ['npm', ['run', '--silent', 'lint']],
  [
    process.execPath,
    [
      join(root, 'node_modules/vitest/vitest.mjs'),
      ...['run', '--config', '.config/vitest.config.ts', '--root', '.'],
      ...process.argv.slice(2),
    ],
  ],
];

process.exitCode = checks.every(([program, args]) => run(program, args, env)) ? 0 : 1;
