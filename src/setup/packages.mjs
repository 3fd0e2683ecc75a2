import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, run, stop } from './run.mjs';

function readLock(...path) {
  try {
    return JSON.parse(readFileSync(join(root, ...path), 'utf8')).packages;
  } catch {
    return undefined;
  }
}

/** True where every package of package-lock.json is installed in its version. */
function upToDate() {
  const wanted = readLock('package-lock.json');
  const installed = readLock('node_modules', '.package-lock.json');
  if (!wanted) stop('package-lock.json cannot be read; restore it from the repository.');
  if (!installed) return false;
  return Object.entries(wanted).every(
    ([path, { version, optional, devOptional }]) =>
      // What is optional may be for another kind of machine.
      path === '' || optional || devOptional || installed[path]?.version === version,
  );
}

/** Installs the packages where they are missing or others than package-lock.json names. */
export function ensurePackages() {
  if (upToDate()) return;
  console.log('Installing packages (npm ci) …');
  // Warnings about packages that ask for a later Node than they need would only worry.
  if (!run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'])) {
    stop('The packages could not be installed; see what npm says above.');
  }
}
