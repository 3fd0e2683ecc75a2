import { unzipSync, zipSync, type Zippable } from 'fflate';

/** A file that cannot be worked on, with the sentence that says why. */
export class UnreadableFile extends Error {}

/** Limits that an honest workbook stays under by far. */
const MOST_PARTS = 5000;
const MOST_BYTES = 400 * 1024 * 1024;
/** Packed files this far expanded are made to exhaust memory, not to hold a farm's records. */
const MOST_EXPANSION = 1000;

/** The parts of an .xlsx file by name, in their order in the file. */
export type Parts = Map<string, Uint8Array>;

const text = (bytes: Uint8Array): string =>
  new TextDecoder('utf-8', { fatal: true, ignoreBOM: false }).decode(bytes);

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

/** Takes an .xlsx apart. Throws UnreadableFile with a sentence for anything that is none, or is damaged. */
export function openPackage(bytes: Uint8Array): Parts {
  refuseOtherKinds(bytes);
  let count = 0;
  let total = 0;
  let unzipped: Record<string, Uint8Array>;
  try {
    unzipped = unzipSync(bytes, {
      filter: (part) => {
        count += 1;
        total += part.originalSize;
        if (count > MOST_PARTS || total > MOST_BYTES) {
          throw new UnreadableFile(
            'The file unpacks to more than a workbook of records can be; it was not opened.',
          );
        }
        if (
          part.size > 0 &&
          part.originalSize / part.size > MOST_EXPANSION &&
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
  const parts: Parts = new Map(Object.entries(unzipped));
  if (!parts.has('[Content_Types].xml') || !parts.has('_rels/.rels')) {
    throw new UnreadableFile('The file is packed like a workbook but holds none.');
  }
  return parts;
}

/** Packs the parts again, in their order, at a fixed time so that equal input gives equal bytes. */
export function closePackage(parts: Parts): Uint8Array {
  const files: Zippable = {};
  for (const [name, bytes] of parts) files[name] = bytes;
  return zipSync(files, { level: 6, mtime: new Date(1980, 0, 1) });
}

/** A part as text; throws UnreadableFile where it is missing, not UTF-8 or declares entities. */
export function readPart(parts: Parts, name: string): string {
  const bytes = parts.get(name);
  if (!bytes) throw new UnreadableFile(`The file is damaged: its part ${name} is missing.`);
  let xml: string;
  try {
    xml = text(bytes);
  } catch {
    throw new UnreadableFile(`The file is damaged: its part ${name} is not written as text.`);
  }
  if (/<!DOCTYPE/i.test(xml)) {
    throw new UnreadableFile(
      `The part ${name} declares entities of its own, which no workbook needs; it was not opened.`,
    );
  }
  return xml;
}

export const writePart = (parts: Parts, name: string, xml: string): void => {
  parts.set(name, new TextEncoder().encode(xml));
};
