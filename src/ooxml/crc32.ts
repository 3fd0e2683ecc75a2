const POLYNOMIAL = 0xedb88320;

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte;
  for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ POLYNOMIAL : sum >>> 1;
  return sum;
});

/** The check sum that the zip format keeps of each part; `before` is that of what came before these bytes. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let sum = ~before;
  for (let at = 0; at < bytes.length; at++) {
    sum = (sum >>> 8) ^ (TABLE[(sum ^ (bytes[at] as number)) & 0xff] as number);
  }
  return ~sum >>> 0;
}
