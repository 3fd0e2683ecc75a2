import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

/** A file with one part changed; throws where the change changes nothing. */
export function planted(
  bytes: Uint8Array,
  path: string,
  change: (xml: string) => string,
): Uint8Array {
  const parts = unzipSync(bytes);
  const part = parts[path];
  if (!part) throw new Error(`The file has no part ${path}`);
  const before = strFromU8(part);
  const after = change(before);
  if (after === before) throw new Error(`Nothing was planted in ${path}`);
  return zipSync({ ...parts, [path]: strToU8(after) });
}

/** The text of a part. */
export const partText = (bytes: Uint8Array, path: string): string =>
  strFromU8(unzipSync(bytes)[path] ?? new Uint8Array());

export const partNames = (bytes: Uint8Array): string[] => Object.keys(unzipSync(bytes));
