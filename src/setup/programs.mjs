import { existsSync } from 'node:fs';
import { output, run, stop } from './run.mjs';

const inPath = (name) =>
  output(process.platform === 'win32' ? 'where' : 'which', [name])?.split(/\r?\n/)[0] || undefined;

const firstOf =
  (...places) =>
  () =>
    places
      .map((place) => (/[/\\]/.test(place) ? existsSync(place) && place : inPath(place)))
      .find(Boolean);

/** What the tests need besides packages: how it is found, and Debian's package for it. */
const programs = [
  {
    name: 'Chromium',
    variable: 'CHROMIUM',
    debian: 'chromium',
    find: firstOf(
      'chromium',
      'chromium-browser',
      'google-chrome',
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
      'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
    ),
  },
  {
    name: 'LibreOffice Calc (soffice)',
    variable: 'SOFFICE',
    debian: 'libreoffice-calc-nogui',
    find: firstOf('soffice', '/Applications/LibreOffice.app/Contents/MacOS/soffice'),
  },
  {
    name: 'Poppler (pdftoppm)',
    variable: 'PDFTOPPM',
    debian: 'poppler-utils',
    find: firstOf('pdftoppm'),
  },
  {
    name: 'the font Carlito',
    debian: 'fonts-crosextra-carlito',
    find: () => /Carlito/.test(output('fc-list', [':', 'family']) ?? ''),
  },
];

const given = ({ variable }) => variable !== undefined && process.env[variable];
const isMissing = (program) => !given(program) && !program.find();

const mayInstall = () => process.getuid?.() === 0 && inPath('apt-get') !== undefined;

/** Finds the programs, or installs them from Debian's packages where it may, or stops with a sentence. */
export function ensurePrograms() {
  let missing = programs.filter(isMissing);
  if (missing.length > 0 && mayInstall()) {
    const packages = missing.map(({ debian }) => debian);
    console.log(`Installing ${packages.join(', ')} (apt-get) …`);
    const env = { DEBIAN_FRONTEND: 'noninteractive' };
    run('apt-get', ['-qq', 'update'], env);
    run('apt-get', ['-qq', 'install', '-y', '--no-install-recommends', ...packages], env);
    missing = programs.filter(isMissing);
  }
  if (missing.length > 0) {
    stop(
      `The tests need ${missing.map(({ name }) => name).join(', ')}: install ${
        missing.length === 1 ? 'it' : 'them'
      } (on Debian: apt-get install ${missing.map(({ debian }) => debian).join(' ')}) and run them again.`,
    );
  }
  return Object.fromEntries(
    programs
      .filter(({ variable }) => variable !== undefined)
      .map((program) => [program.variable, given(program) || program.find()]),
  );
}
