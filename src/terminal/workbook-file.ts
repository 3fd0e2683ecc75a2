import { randomBytes } from 'node:crypto';
import { existsSync, realpathSync } from 'node:fs';
import { readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { Mistake } from './mistake';

const MAX_FILE_BYTES = 200 * 1024 * 1024;

/** Reads a workbook; a file that is not there or far too large becomes a sentence. */
export async function readWorkbookFile(path: string): Promise<Uint8Array> {
  const found = await stat(path).catch(() => undefined);
  if (!found) throw new Mistake(`There is no file ${path}.`);
  if (!found.isFile()) throw new Mistake(`${path} is no file.`);
  if (found.size > MAX_FILE_BYTES)
    throw new Mistake(`${path} is larger than 200 MB and was not opened.`);
  return readFile(path);
}

const samePlace = (a: string, b: string): boolean => {
  const real = (path: string): string =>
    existsSync(path) ? realpathSync(path) : join(realpathSync(dirname(resolve(path))), path);
  return resolve(a) === resolve(b) || (existsSync(b) && real(a) === real(b));
};

export interface OutputOptions {
  /** The file that was read: never written over, whatever is asked. */
  readonly input?: string;
  readonly force?: boolean;
}

/**
 * Writes a file in one step, so that it is never left half written. Refuses the input file, and an existing
 * file unless told otherwise.
 */
export async function writeOutputFile(
  path: string,
  bytes: Uint8Array | string,
  { input, force = false }: OutputOptions = {},
): Promise<void> {
  const folder = dirname(resolve(path));
  if (!existsSync(folder))
    throw new Mistake(`There is no folder ${dirname(path)} to write ${path} into.`);
  if (input !== undefined && samePlace(input, path)) {
    throw new Mistake(`${path} is the file that was read; give another name after --out.`);
  }
  if (!force && existsSync(path)) {
    throw new Mistake(`${path} is there already; give another name, or add --force to replace it.`);
  }
  const half = `${resolve(path)}.${randomBytes(4).toString('hex')}.part`;
  try {
    await writeFile(half, bytes, { flag: 'wx' });
    await rename(half, path);
  } catch (problem) {
    await rm(half, { force: true });
    const { code } = problem as NodeJS.ErrnoException;
    throw new Mistake(`${path} could not be written (${code ?? 'unknown reason'}).`);
  }
}
