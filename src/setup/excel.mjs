/**
 * npm run excel: the add-in for Excel on this machine, served over https on localhost:3000.
 * npm run excel:stop ends it, takes it out of Excel and takes back the trust in its certificate.
 */
import { createServer } from 'node:net';
import { removeCertificate, trustedCertificate } from './certificate.mjs';
import { hasExcel, MANIFEST, putIntoExcel, takeOutOfExcel } from './excel-desktop.mjs';
import { ensurePackages } from './packages.mjs';
import { needNode, stop } from './run.mjs';
import { askToStop, listenForStop, recordChange, pendingChanges } from './running.mjs';

const HOST = 'localhost';
const PORT = 3000;
const BASE = `https://${HOST}:${PORT}/`;

const byHand = `To add it by hand, with this running: on Windows put ${MANIFEST} into a shared folder and name that folder under File > Options > Trust Center > Trust Center Settings > Trusted Add-in Catalogs, on a Mac copy ${MANIFEST} into ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef, on the web choose Home > Add-ins > More Settings > Upload My Add-in; then look for Gillbed among the add-ins.`;

/** True where nothing else listens there. */
const isFree = (port) =>
  new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen(port, HOST, () => probe.close(() => resolve(true)));
  });

/** A certificate that this machine trusts where there is an Excel for it; otherwise the server makes its own. */
async function certificate(forExcel) {
  if (!forExcel) {
    console.log(
      `No Excel was found here, so that nothing on this machine is made to trust the certificate: for Excel on the web, open ${BASE}pane.html in the browser once and accept it.`,
    );
    return {};
  }
  const { made, options, why } = await trustedCertificate();
  if (made) recordChange({ certificate: true });
  if (why) console.log(why);
  return options ?? {};
}

async function serve(forExcel) {
  if (!(await isFree(PORT))) {
    stop(
      `Port ${PORT}, to which ${MANIFEST} points, is taken by another program: end it (npm run excel:stop, if it is an earlier one of these) and start again.`,
    );
  }
  const { default: webpack } = await import('webpack');
  const { default: DevServer } = await import('webpack-dev-server');
  const { default: configurations } = await import('../../webpack.config.js');
  const all = await configurations({ base: BASE }, { mode: 'development' });
  // The pane, and the pages to which Excel's help leads; the workbench is not built, to be ready soon.
  const served = all
    .filter(({ name }) => name === 'excel' || name === 'reference')
    .map((one) => ({ ...one, dependencies: [] }));
  console.log('Building the add-in …');
  const compiler = webpack(served);
  const server = new DevServer(
    {
      host: HOST,
      port: PORT,
      server: { type: 'https', options: await certificate(forExcel) },
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
  listenForStop(() => void server.stop().then(() => process.exit(0)));
  await server.start();
  try {
    await built;
  } catch (thrown) {
    await server.stop();
    stop(thrown.message);
  }
}

async function start() {
  ensurePackages();
  const forExcel = hasExcel();
  await serve(forExcel);
  console.log(`The add-in: ${BASE}pane.html (Ctrl+C ends it, npm run excel:stop undoes it)`);
  if (forExcel && (await putIntoExcel())) {
    recordChange({ sideloaded: true });
    console.log('Excel opens with Gillbed in it.');
  } else console.log(byHand);
}

async function undo() {
  if (await askToStop()) console.log('The server has ended.');
  const { sideloaded, certificate: made } = pendingChanges();
  if (sideloaded) {
    const out = await takeOutOfExcel();
    if (out) recordChange({ sideloaded: false });
    console.log(
      out
        ? 'Gillbed was taken out of Excel.'
        : 'Gillbed could not be taken out of Excel (see above): remove it there among the add-ins.',
    );
  }
  if (made) {
    const why = await removeCertificate();
    if (why === undefined) recordChange({ certificate: false });
    console.log(why ?? 'The certificate that was made for it is gone.');
  }
  console.log('Nothing runs any more; an add-in added by hand is removed where it was added.');
}

needNode();
await (process.argv[2] === 'stop' ? undo() : start());
