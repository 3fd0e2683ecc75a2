import { strToU8, zipSync } from 'fflate';
import { unpack } from '../../src/ooxml/unpack';

/** The same file with another text in some of its parts; throws where an edit changes nothing. */
export function editedParts(
  bytes: Uint8Array,
  edits: Readonly<Record<string, (xml: string) => string>>,
): Uint8Array {
  const parts = unpack(bytes);
  for (const [name, edit] of Object.entries(edits)) {
    const before = new TextDecoder().decode(parts.get(name));
    const after = edit(before);
    if (after === before) throw new Error(`Nothing changed in ${name}`);
    parts.set(name, strToU8(after));
  }
  return zipSync(Object.fromEntries(parts));
}
