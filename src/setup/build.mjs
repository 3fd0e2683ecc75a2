/** npm run build [-- --base https://example.org/gillbed/]: one static folder, dist, to be put on any web space. */
import { parseArgs } from 'node:util';
import { ensurePackages } from './packages.mjs';
import { needNode, run, stop } from './run.mjs';

needNode();
let base;
try {
  ({ base } = parseArgs({ options: { base: { type: 'string' } } }).values);
} catch (thrown) {
  stop(`${thrown.message}. Only --base ADDRESS is taken.`);
}
ensurePackages();
if (base !== undefined) {
  const { tsImport } = await import('tsx/esm/api');
  const { hostedFolder } = await tsImport('../hosts/excel/hosted-manifest.ts', import.meta.url);
  try {
    base = hostedFolder(base);
  } catch (thrown) {
    stop(`${thrown.message}.`);
  }
}
const args = ['node_modules/webpack/bin/webpack.js', '--mode', 'production'];
if (base !== undefined) args.push('--env', `base=${base}`);
process.exit(run(process.execPath, args) ? 0 : 1);
