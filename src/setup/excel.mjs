/**
 * npm run excel: the add-in for Excel on this machine, served over https on localhost:3000.
 * npm run excel:stop takes it out of Excel again.
 */
import { existsSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { ensurePackages } from './packages.mjs';
import { needNode, root, run, stop } from './run.mjs';

const HOST = 'localhost';
const PORT = 3000;
const MANIFEST = 'manifest.xml';

const byHand = `To add it by hand, with this running: on Windows put ${MANIFEST} into a shared folder and name that folder under File > Options > Trust Center > Trusted Add-in Catalogs, on a Mac copy ${MANIFEST} into ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef, on the web choose Home > Add-ins > More Settings > Upload My Add-in; then look for Gillbed among the add-ins.`;

/** Puts the add-in into Excel and takes it out; it builds parts of its own, so that it comes only if wished. */
const debugging = join(root, 'node_modules/office-addin-debugging/cli.js');
const mayHaveExcel = process.platform === 'win32' || process.platform === 'darwin';
const debug = (verb, ...more) =>
  mayHaveExcel &&
  existsSync(debugging) &&
  run(process.execPath, [debugging, verb, MANIFEST, ...more]);

/** True where nothing else listens there. */
const isFree = (port) =>
  new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen(port, HOST, () => probe.close(() => resolve(true)));
  });

/** A certificate that this machine trusts where that can be had; the server's own, with what to do, otherwise. */
async function certificate() {
  if (!mayHaveExcel) {
    console.log(
      `The certificate is made for this machine and trusted by nobody yet: open https://${HOST}:${PORT} in the browser once and accept it.`,
    );
    return {};
  }
  const { getHttpsServerOptions } = await import('office-addin-dev-certs');
  try {
    return await getHttpsServerOptions();
  } catch (thrown) {
    console.log(
      `The certificate could not be made trusted (${thrown.message}): run "npx office-addin-dev-certs install", allow it, and start again.`,
    );
    return {};
  }
}

async function serve() {
  if (!(await isFree(PORT))) {
    stop(
      `Port ${PORT}, to which ${MANIFEST} points, is taken by another program: end it (perhaps an earlier npm run excel) and start again.`,
    );
  }
  const { default: webpack } = await import('webpack');
  const { default: DevServer } = await import('webpack-dev-server');
  const { default: configurations } = await import('../../webpack.config.js');
  const excel = (await configurations({}, { mode: 'development' })).find(
    ({ name }) => name === 'excel',
  );
  // The other pages are not built here, so that there is nothing to wait for.
  console.log('Building the add-in …');
  const compiler = webpack({ ...excel, dependencies: [] });
  const server = new DevServer(
    {
      host: HOST,
      port: PORT,
      server: { type: 'https', options: await certificate() },
      // Excel on the web fetches the functions' list from another origin.
      headers: { 'Access-Control-Allow-Origin': '*' },
      hot: false,
      liveReload: false,
      static: false,
      client: false,
    },
    compiler,
  );
  const built = new Promise((resolve, reject) => {
    compiler.hooks.done.tap('excel', (stats) =>
      stats.hasErrors()
        ? reject(new Error('The add-in could not be built; see above.'))
        : resolve(),
    );
  });
  await server.start();
  try {
    await built;
  } catch (thrown) {
    await server.stop();
    stop(thrown.message);
  }
}

needNode();
if (process.argv[2] === 'stop') {
  if (debug('stop')) console.log('Gillbed was taken out of Excel.');
  else {
    console.log(
      'Nothing was put into Excel from here; an add-in that was added by hand is removed where it was added. A server that still runs ends with Ctrl+C.',
    );
  }
} else {
  ensurePackages();
  await serve();
  console.log(`The add-in: https://${HOST}:${PORT}/pane.html (Ctrl+C ends it)`);
  if (debug('start', 'desktop', '--no-debug')) console.log('Excel opens with Gillbed in it.');
  else console.log(byHand);
}
