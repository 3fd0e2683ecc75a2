import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

/** The build is one for a hosted copy, in a folder of a larger site; its pages work at any address. */
export const HOSTED_BASE = 'https://farm.example/tools/gillbed/';

const root = fileURLToPath(new URL('../../', import.meta.url));
const cache = join(root, '.cache', 'built');
/** A lock older than this was left behind by a run that was stopped. */
const STALE_LOCK_MS = 600_000;
/** Builds of earlier sources, which no run can be using any more. */
const OLD_BUILD_MS = 3_600_000;

/** A mark of everything that goes into the build. */
async function sourcesMark(): Promise<string> {
  const hash = createHash('sha256');
  const entries = await readdir(join(root, 'src'), { recursive: true, withFileTypes: true });
  const files = entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  for (const file of [
    ...files,
    join(root, 'webpack.config.js'),
    join(root, 'manifest.xml'),
    join(root, 'package-lock.json'),
    join(root, 'tsconfig.json'),
  ]) {
    hash.update(file).update(await readFile(file));
  }
  return hash.digest('hex').slice(0, 16);
}

const ageOf = async (path: string): Promise<number> =>
  Date.now() - ((await stat(path).catch(() => undefined))?.mtimeMs ?? 0);

async function takeLock(lock: string): Promise<boolean> {
  try {
    await mkdir(lock);
    return true;
  } catch {
    if ((await ageOf(lock)) > STALE_LOCK_MS) await rm(lock, { recursive: true, force: true });
    return false;
  }
}

async function removeOldBuilds(): Promise<void> {
  for (const name of await readdir(cache)) {
    const path = join(cache, name);
    if ((await ageOf(path)) > OLD_BUILD_MS) await rm(path, { recursive: true, force: true });
  }
}

async function build(folder: string): Promise<void> {
  const half = `${folder}.part`;
  await rm(half, { recursive: true, force: true });
  await promisify(execFile)(
    process.execPath,
    [
      join(root, 'node_modules/webpack/bin/webpack.js'),
      ...['--mode', 'production', '--env', `base=${HOSTED_BASE}`],
      ...['--output-path', half, '--fail-on-warnings'],
    ],
    { cwd: root, maxBuffer: 1 << 26 },
  ).catch((fault: { stdout?: string; stderr?: string }) => {
    throw new Error(`The build failed:\n${fault.stdout ?? ''}${fault.stderr ?? ''}`);
  });
  await rename(half, folder);
}

/**
 * The static folder as `npm run build -- --base …` makes it, of the sources as they are now; other sources have a
 * folder of their own. Test files run side by side: the first one builds, the others wait, and nothing is
 * built twice.
 */
export async function builtFolder(): Promise<string> {
  await mkdir(cache, { recursive: true });
  const folder = join(cache, await sourcesMark());
  const lock = `${folder}.lock`;
  while (!existsSync(folder)) {
    if (!(await takeLock(lock))) {
      await new Promise((resolve) => setTimeout(resolve, 500));
      continue;
    }
    try {
      if (existsSync(folder)) break;
      await removeOldBuilds();
      await build(folder);
    } finally {
      await rm(lock, { recursive: true, force: true });
    }
  }
  return folder;
}
