import { readFileSync } from 'node:fs';

/** Width and height in pixels, which stand at bytes 16 and 20 of a PNG file (ISO/IEC 15948). */
export function pngSize(path: string): readonly [width: number, height: number] {
  const bytes = readFileSync(path);
  if (bytes.toString('latin1', 1, 4) !== 'PNG') throw new Error(`${path} is no PNG file`);
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}
