import { unzipSync } from 'fflate';
import { UnreadableFile } from './unreadable-file';

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

/** The parts of an .xlsx file by name, in their order in the file. Throws UnreadableFile with a sentence for anything that is none, or is damaged. */
export function unpack(bytes: Uint8Array): Map<string, Uint8Array> {
  refuseOtherKinds(bytes);
  let count = 0;
  let total = 0;
  let unzipped: Record<string, Uint8Array>;
  try {
    unzipped = unzipSync(bytes, {
      filter: (part) => {
        count += 1;
        total += part.originalSize;
        if (count > MAX_PARTS || total > MAX_BYTES) {
          throw new UnreadableFile(
            'The file unpacks to more than a workbook of records can be; it was not opened.',
          );
        }
        if (
          part.size > 0 &&
          part.originalSize / part.size > MAX_EXPANSION &&
          part.originalSize > 1e7
        ) {
          throw new UnreadableFile(
            'A part of the file expands beyond reason, as files do that are made to fill the memory; it was not opened.',
          );
        }
        return !part.name.endsWith('/');
      },
    });
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw problem;
    throw new UnreadableFile('The file is damaged: its packing cannot be read to the end.');
  }
  // Some writers separate folders as Windows does, or begin at the root.
  const parts = new Map(
    Object.entries(unzipped).map(([name, part]) => [
      name.replaceAll('\\', '/').replace(/^\/+/, ''),
      part,
    ]),
  );
  const names = new Set([...parts.keys()].map((name) => name.toLowerCase()));
  if (!names.has('[content_types].xml') || !names.has('_rels/.rels')) {
    throw new UnreadableFile('The file is packed like a workbook but holds none.');
  }
  return parts;
}
