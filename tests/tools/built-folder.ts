import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { builtOnce, root } from './built-once';

/** The build is one for a hosted copy, in a folder of a larger site; its pages work at any address. */
export const HOSTED_BASE = 'https://farm.example/tools/gillbed/';

async function build(folder: string): Promise<void> {
  await promisify(execFile)(
    process.execPath,
    [
      join(root, 'node_modules/webpack/bin/webpack.js'),
      ...['--mode', 'production', '--env', `base=${HOSTED_BASE}`],
      ...['--output-path', folder, '--fail-on-warnings'],
    ],
    { cwd: root, maxBuffer: 1 << 26 },
  ).catch((fault: { stdout?: string; stderr?: string }) => {
    throw new Error(`The build failed:\n${fault.stdout ?? ''}${fault.stderr ?? ''}`);
  });
}

/** The static folder as `npm run build -- --base …` makes it. */
export const builtFolder = (): Promise<string> => builtOnce('built', build);
