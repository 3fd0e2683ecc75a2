/** npm start: the workbench on this machine, with what it needs installed first. */
import { ensurePackages } from './packages.mjs';
import { needNode } from './run.mjs';

needNode();
ensurePackages();

// Only now are the packages there.
const { default: webpack } = await import('webpack');
const { default: DevServer } = await import('webpack-dev-server');
const { default: configurations } = await import('../../webpack.config.js');

const all = await configurations({}, { mode: 'development' });
const served = all.filter(({ name }) => name === 'workbench' || name === 'reference');
const interactive = process.stdout.isTTY === true && !process.env.CI;

console.log('Building the workbench …');
const compiler = webpack(served);
const server = new DevServer(
  {
    host: 'localhost',
    port: 'auto',
    open: interactive,
    hot: false,
    static: false,
    client: { overlay: false, logging: 'warn' },
  },
  compiler,
);
const built = new Promise((resolve) => {
  compiler.hooks.done.tap('start', (stats) => stats.hasErrors() || resolve());
});
await server.start();
await built;
console.log(`Gillbed workbench: http://localhost:${server.options.port}`);
