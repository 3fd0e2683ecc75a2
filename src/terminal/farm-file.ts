import { readFile } from 'node:fs/promises';
import { FarmFileError, readFarm, type Farm } from '../plan/farm';
import { Mistake } from './mistake';

/** What a file of JSON holds. */
export async function jsonFromFile(path: string): Promise<unknown> {
  const text = await readFile(path, 'utf8').catch((fault: NodeJS.ErrnoException) => {
    const why = fault.code === 'ENOENT' ? 'there is no such file' : fault.message;
    throw new Mistake(`${path} cannot be read: ${why}.`);
  });
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (fault) {
    throw new Mistake(`${path} is not JSON: ${(fault as Error).message}.`);
  }
}

/** A farm from its JSON; `name` stands before what is wrong with it. */
export function farmOf(json: unknown, name: string): Farm {
  try {
    return readFarm(json);
  } catch (fault) {
    if (fault instanceof FarmFileError) throw new Mistake(`${name}: ${fault.message}`);
    throw fault;
  }
}

/** A farm from a farm file. */
export const farmFromFile = async (path: string): Promise<Farm> =>
  farmOf(await jsonFromFile(path), path);
