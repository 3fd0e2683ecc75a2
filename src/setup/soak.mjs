/** npm run soak: the long form of the tests that work on for long. */
import { needNode, run } from './run.mjs';

needNode();
process.exitCode = run(
  process.execPath,
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--config',
    '.config/vitest.config.ts',
    '--root',
    '.',
    '--testTimeout',
    '1800000',
    'tests/soak',
  ],
  { SOAK: 'long' },
)
  ? 0
  : 1;
