import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { output, root } from './run.mjs';

export const MANIFEST = 'manifest.xml';

const APP_PATHS = 'HKLM\\SOFTWARE\\Microsoft\\Windows\\CurrentVersion\\App Paths\\excel.exe';

/** True where there is an Excel on this machine. */
export function hasExcel() {
  switch (process.platform) {
    case 'win32':
      return output('reg', ['query', APP_PATHS]) !== undefined;
    case 'darwin':
      return existsSync('/Applications/Microsoft Excel.app');
    default:
      return false;
  }
}

/**
 * Microsoft's own tool for putting an add-in into Excel, fetched when it is needed: it is large. Its parts
 * that would have to be built are for other kinds of add-in.
 */
const TOOL = ['--yes', '--ignore-scripts', 'office-addin-debugging@7.0.0'];

/** Runs the tool; true where it says that it is done, for its exit status is 0 in any case. */
function tool(args, done) {
  return new Promise((resolve) => {
    const child = spawn('npx', [...TOOL, ...args], {
      cwd: root,
      stdio: ['inherit', 'pipe', 'inherit'],
      // npx is a script on Windows.
      shell: process.platform === 'win32',
    });
    let said = '';
    child.stdout.on('data', (text) => {
      said += text;
      process.stdout.write(text);
    });
    child.on('error', () => resolve(false));
    child.on('close', () => resolve(said.includes(done) && !said.includes('Unable to')));
  });
}

export const putIntoExcel = () =>
  tool(['start', MANIFEST, 'desktop', '--app', 'excel', '--no-debug'], 'Started.');

export const takeOutOfExcel = () => tool(['stop', MANIFEST], 'Debugging has been stopped.');
