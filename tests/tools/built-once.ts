import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../', import.meta.url));
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

async function removeOldBuilds(cache: string): Promise<void> {
  for (const name of await readdir(cache)) {
    const path = join(cache, name);
    if ((await ageOf(path)) > OLD_BUILD_MS) await rm(path, { recursive: true, force: true });
  }
}

/**
 * A folder of what `build` makes of the sources as they are now; other sources have a folder of their own. Test
 * files run side by side: the first one builds, the others wait, and nothing is built twice.
 */
export async function builtOnce(
  what: string,
  build: (folder: string) => Promise<void>,
): Promise<string> {
  const cache = join(root, '.cache', what);
  await mkdir(cache, { recursive: true });
  const folder = join(cache, await sourcesMark());
  const lock = `${folder}.lock`;
  while (!existsSync(folder)) {
    if (!(await takeLock(lock))) {
      await new Promise((resolve) => setTimeout(resolve, 200));
      continue;
    }
    try {
      if (existsSync(folder)) break;
      await removeOldBuilds(cache);
      const half = `${folder}.part`;
      await rm(half, { recursive: true, force: true });
      await build(half);
      await rename(half, folder);
    } finally {
      await rm(lock, { recursive: true, force: true });
    }
  }
  return folder;
}
