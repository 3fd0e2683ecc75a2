/** npm run soak: the long form of the tests that work on for long. */
import { needNode, run } from './run.mjs';

needNode();
const vitest = ['node_modules/vitest/vitest.mjs', 'run', '--root', '.'];
const config = ['--config', '.config/vitest.soak.config.ts'];
process.exitCode = run(process.execPath, [...vitest, ...config], { SOAK: 'long' }) ? 0 : 1;
