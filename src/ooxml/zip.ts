import { Deflate, deflateSync, Inflate, inflateSync, strFromU8, strToU8 } from 'fflate';
import { crc32 } from './crc32';
import type { Steps } from '../plan/in-steps';

/** A part as it lies in a zip file: its bytes are looked at once somebody asks for them. */
export interface PackedPart {
  /** A view of the file's own bytes. */
  readonly packed: Uint8Array;
  readonly method: number;
  /** Bytes that it unpacks to, as the file says. */
  readonly size: number;
  readonly crc: number;
}

const STORED = 0;
const DEFLATED = 8;
const END = 0x06054b50;
const ENTRY = 0x02014b50;
const LOCAL = 0x04034b50;
const END_64 = 0x06064b50;
const LOCATOR_64 = 0x07064b50;
const LARGEST = 0xffffffff;

const damaged = (): never => {
  throw new Error('no zip file to the end');
};

/** Where the list of parts begins and how many it has. */
function directoryOf(view: DataView): { at: number; count: number } {
  let end = view.byteLength - 22;
  while (end >= 0 && view.getUint32(end, true) !== END) {
    end -= 1;
    if (view.byteLength - end > 65_558) damaged();
  }
  if (end < 0) damaged();
  const locator = end - 20;
  if (locator >= 0 && view.getUint32(locator, true) === LOCATOR_64) {
    const far = Number(view.getBigUint64(locator + 8, true));
    if (view.getUint32(far, true) === END_64) {
      return {
        count: Number(view.getBigUint64(far + 32, true)),
        at: Number(view.getBigUint64(far + 48, true)),
      };
    }
  }
  return { count: view.getUint16(end + 8, true), at: view.getUint32(end + 16, true) };
}

/** Sizes and place that are too large for their own fields stand in an addition of kind 1. */
function largeOf(view: DataView, from: number, to: number, fields: readonly number[]): number[] {
  for (let at = from; at + 4 <= to; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) !== 1) continue;
    let next = at + 4;
    return fields.map((field) => {
      if (field !== LARGEST) return field;
      next += 8;
      return Number(view.getBigUint64(next - 8, true));
    });
  }
  return [...fields];
}

/** The parts of a zip file by name, in their order. Throws where it is damaged. */
export function* readZip(bytes: Uint8Array): Generator<readonly [name: string, part: PackedPart]> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { at: start, count } = directoryOf(view);
  let at = start;
  for (let n = 0; n < count; n++) {
    if (view.getUint32(at, true) !== ENTRY) damaged();
    const isUtf8 = (view.getUint16(at + 8, true) & 0x800) !== 0;
    const nameEnd = at + 46 + view.getUint16(at + 28, true);
    const extraEnd = nameEnd + view.getUint16(at + 30, true);
    const name = strFromU8(bytes.subarray(at + 46, nameEnd), !isUtf8);
    const fields = [24, 20, 42].map((field) => view.getUint32(at + field, true));
    const [size = 0, length = 0, local = 0] = largeOf(view, nameEnd, extraEnd, fields);
    const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    if (from + length > bytes.length) damaged();
    const method = view.getUint16(at + 10, true);
    if (method !== STORED && method !== DEFLATED) damaged();
    const packed = bytes.subarray(from, from + length);
    yield [name, { packed, method, size, crc: view.getUint32(at + 16, true) }];
    at = extraEnd + view.getUint16(at + 32, true);
  }
}

/** The bytes of a part. Throws where its packing is damaged. */
export const unpacked = ({ packed, method, size }: PackedPart): Uint8Array =>
  method === STORED ? packed : inflateSync(packed, { out: new Uint8Array(size) });

/** So many packed bytes are unpacked in one step: some tens of kilobytes of a sheet. */
const PACKED_STEP = 8_192;
const PLAIN_STEP = 65_536;

/** The bytes of a part in pieces. Throws where its packing is damaged or it is larger than the file says. */
export function* unpackedPieces({ packed, method, size }: PackedPart): Generator<Uint8Array> {
  if (method === STORED) {
    for (let at = 0; at < packed.length; at += PLAIN_STEP) {
      yield packed.subarray(at, at + PLAIN_STEP);
    }
    return;
  }
  let pieces: Uint8Array[] = [];
  let total = 0;
  const inflate = new Inflate((piece) => {
    total += piece.length;
    if (total > size) damaged();
    pieces.push(piece);
  });
  for (let at = 0; at < packed.length; at += PACKED_STEP) {
    inflate.push(packed.subarray(at, at + PACKED_STEP), at + PACKED_STEP >= packed.length);
    yield* pieces;
    pieces = [];
  }
}

const LEVEL = 6;

/** Packs what is given in pieces. */
export function* packedPieces(pieces: Iterable<Uint8Array>, length: number): Steps<PackedPart> {
  const out: Uint8Array[] = [];
  const deflate = new Deflate({ level: LEVEL }, (piece) => out.push(piece));
  let [size, crc] = [0, 0];
  for (const piece of pieces) {
    deflate.push(piece);
    crc = crc32(piece, crc);
    size += piece.length;
    yield Math.min(1, size / length);
  }
  deflate.push(new Uint8Array(0), true);
  return { packed: joined(out), method: DEFLATED, size, crc };
}

/** Packs what is small. */
export const packed = (bytes: Uint8Array): PackedPart => ({
  packed: deflateSync(bytes, { level: LEVEL }),
  method: DEFLATED,
  size: bytes.length,
  crc: crc32(bytes),
});

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    out.set(piece, at);
    at += piece.length;
  }
  return out;
}

/** The first moment that the format knows, in every time zone: equal parts give equal files. */
const FIRST_DAY = (1 << 21) | (1 << 16);

/** A zip file of packed parts. */
export function writeZip(parts: Iterable<readonly [name: string, part: PackedPart]>): Uint8Array {
  const files = [...parts].map(([name, part]) => ({ name, bytes: strToU8(name), part }));
  const heads = files.reduce((sum, { bytes }) => sum + 76 + 2 * bytes.length, 22);
  const out = new Uint8Array(files.reduce((sum, { part }) => sum + part.packed.length, heads));
  const view = new DataView(out.buffer);
  /** What both heads of a part say alike, from the version that reads it to the lengths. */
  const head = (at: number, file: (typeof files)[number]): void => {
    view.setUint16(at, 20, true);
    view.setUint16(at + 2, file.bytes.length === file.name.length ? 0 : 0x800, true);
    view.setUint16(at + 4, file.part.method, true);
    view.setUint32(at + 6, FIRST_DAY, true);
    view.setUint32(at + 10, file.part.crc, true);
    view.setUint32(at + 14, file.part.packed.length, true);
    view.setUint32(at + 18, file.part.size, true);
    view.setUint16(at + 22, file.bytes.length, true);
  };
  let at = 0;
  const places = files.map((file) => {
    const place = at;
    view.setUint32(at, LOCAL, true);
    head(at + 4, file);
    out.set(file.bytes, at + 30);
    out.set(file.part.packed, at + 30 + file.bytes.length);
    at += 30 + file.bytes.length + file.part.packed.length;
    return place;
  });
  const directory = at;
  files.forEach((file, n) => {
    view.setUint32(at, ENTRY, true);
    view.setUint16(at + 4, 20, true);
    head(at + 6, file);
    view.setUint32(at + 42, places[n] as number, true);
    out.set(file.bytes, at + 46);
    at += 46 + file.bytes.length;
  });
  view.setUint32(at, END, true);
  view.setUint16(at + 8, files.length, true);
  view.setUint16(at + 10, files.length, true);
  view.setUint32(at + 12, at - directory, true);
  view.setUint32(at + 16, directory, true);
  return out;
}
