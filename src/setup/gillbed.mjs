/** npm run gillbed: the command line, with the packages that it needs. */
import { ensurePackages } from './packages.mjs';
import { needNode } from './run.mjs';

needNode();
ensurePackages();
const { tsImport } = await import('tsx/esm/api');
await tsImport('../terminal/main.ts', import.meta.url);
