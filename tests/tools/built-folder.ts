import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

const root = fileURLToPath(new URL('../../', import.meta.url));
const cache = join(root, '.cache');
const folder = join(cache, 'built');
const stampFile = join(cache, 'built.stamp');
const lockFolder = join(cache, 'built.lock');
/** A lock older than this was left behind by a run that was stopped. */
const STALE_LOCK_MS = 600_000;

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
    join(root, 'package-lock.json'),
    join(root, 'tsconfig.json'),
  ]) {
    hash.update(file).update(await readFile(file));
  }
  return hash.digest('hex');
}

const isFresh = async (mark: string): Promise<boolean> =>
  (await readFile(stampFile, 'utf8').catch(() => '')) === mark;

async function takeLock(): Promise<boolean> {
  try {
    await mkdir(lockFolder);
    return true;
  } catch {
    const age = Date.now() - ((await stat(lockFolder).catch(() => undefined))?.mtimeMs ?? 0);
    if (age > STALE_LOCK_MS) await rm(lockFolder, { recursive: true, force: true });
    return false;
  }
}

/**
 * The static folder as `npm run build` makes it, of the sources as they are now. Test files run side by
 * side: the first one builds, the others wait, and nothing is built twice.
 */
export async function builtFolder(): Promise<string> {
  await mkdir(cache, { recursive: true });
  const mark = await sourcesMark();
  while (!(await isFresh(mark))) {
    if (!(await takeLock())) {
      await new Promise((resolve) => setTimeout(resolve, 500));
      continue;
    }
    try {
      if (await isFresh(mark)) break;
      await rm(folder, { recursive: true, force: true });
      await promisify(execFile)(
        process.execPath,
        [
          join(root, 'node_modules/webpack/bin/webpack.js'),
          ...['--mode', 'production', '--output-path', folder, '--fail-on-warnings'],
        ],
        { cwd: root, maxBuffer: 1 << 26 },
      );
      await writeFile(stampFile, mark);
    } finally {
      await rm(lockFolder, { recursive: true, force: true });
    }
  }
  return folder;
}
