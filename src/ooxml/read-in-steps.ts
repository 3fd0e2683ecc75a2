import type { Steps } from '../plan/in-steps';
import type { Package } from './package';
import type { XmlElement, XmlReading } from './read-xml';

/** Reads a part piece by piece as it is unpacked, and says how far it is; gives its root element. */
export function* readInSteps(file: Package, part: string, reading: XmlReading): Steps<XmlElement> {
  const length = Math.max(1, file.length(part));
  let done = 0;
  for (const piece of file.pieces(part)) {
    reading.write(piece);
    done += piece.length;
    yield Math.min(1, done / length);
  }
  return reading.close();
}
