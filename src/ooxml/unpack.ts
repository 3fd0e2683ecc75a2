import { UnreadableFile } from './unreadable-file';
import { type PackedPart, readZip, unpacked } from './zip';

/** Limits that an honest workbook stays under by far. */
const MAX_PARTS = 5000;
const MAX_BYTES = 400 * 1024 * 1024;
/** Packed files this far expanded are made to exhaust memory, not to hold a farm's records. */
const MAX_EXPANSION = 1000;

function refuseOtherKinds(bytes: Uint8Array): void {
  if (bytes.length === 0) throw new UnreadableFile('The file is empty.');
  const head = [...bytes.subarray(0, 4)].map((b) => b.toString(16).padStart(2, '0')).join('');
  if (head === 'd0cf11e0') {
    throw new UnreadableFile(
      'The file is encrypted or an old .xls: open it in its own program, take the password off and save it as .xlsx.',
    );
  }
  if (!head.startsWith('504b')) {
    throw new UnreadableFile('The file is no .xlsx workbook.');
  }
}

const DAMAGED = 'The file is damaged: its packing cannot be read to the end.';

function refuseBombs({ packed, size }: PackedPart): void {
  if (packed.length > 0 && size / packed.length > MAX_EXPANSION && size > 1e7) {
    throw new UnreadableFile(
      'A part of the file expands beyond reason, as files do that are made to fill the memory; it was not opened.',
    );
  }
}

/**
 * The parts of an .xlsx file by name, in their order in the file, packed as they lie there. Throws UnreadableFile
 * with a sentence for anything that is none, or whose list of parts is damaged.
 */
export function packedParts(bytes: Uint8Array): Map<string, PackedPart> {
  refuseOtherKinds(bytes);
  const parts = new Map<string, PackedPart>();
  let count = 0;
  let total = 0;
  try {
    for (const [name, part] of readZip(bytes)) {
      count += 1;
      total += part.size;
      if (count > MAX_PARTS || total > MAX_BYTES) {
        throw new UnreadableFile(
          'The file unpacks to more than a workbook of records can be; it was not opened.',
        );
      }
      refuseBombs(part);
      // Some writers separate folders as Windows does, or begin at the root.
      if (!name.endsWith('/')) parts.set(name.replaceAll('\\', '/').replace(/^\/+/, ''), part);
    }
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw problem;
    throw new UnreadableFile(DAMAGED);
  }
  const names = new Set([...parts.keys()].map((name) => name.toLowerCase()));
  if (!names.has('[content_types].xml') || !names.has('_rels/.rels')) {
    throw new UnreadableFile('The file is packed like a workbook but holds none.');
  }
  return parts;
}

/** Has whatever looks into packed parts say in a sentence that they are damaged. */
export function* soundly<Piece>(pieces: Iterable<Piece>): Generator<Piece> {
  try {
    yield* pieces;
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw problem;
    throw new UnreadableFile(DAMAGED);
  }
}

/** The bytes of one part. Throws UnreadableFile where its packing is damaged. */
export function unpackedPart(part: PackedPart): Uint8Array {
  try {
    return unpacked(part);
  } catch {
    throw new UnreadableFile(DAMAGED);
  }
}

/** The parts of an .xlsx file by name, in their order in the file, all of them unpacked. */
export const unpack = (bytes: Uint8Array): Map<string, Uint8Array> =>
  new Map([...packedParts(bytes)].map(([name, part]) => [name, unpackedPart(part)]));
