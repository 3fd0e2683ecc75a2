import { strFromU8, strToU8, unzlibSync, zlibSync } from 'fflate';
import type { Steps } from '../../plan/in-steps';
import type { ContentsOf, SheetContents } from '../../engine/sheet-contents';

/** A sheet's contents as text, which is copied and fetched far sooner than the cells that it is unpacked into. */
export type PackedSheet =
  | { readonly json: string }
  /** The same packed for the way over a network: zlib (RFC 1950) in base64 (RFC 4648). */
  | { readonly packed: string };

/** By the id of the sheet. */
export type PackedSheets = Readonly<Record<string, PackedSheet>>;

const packedBy = (
  pack: (contents: SheetContents) => PackedSheet,
  contents: ReadonlyMap<string, SheetContents>,
): PackedSheets => Object.fromEntries([...contents].map(([id, content]) => [id, pack(content)]));

/** So many entries are written in one step. */
const ENTRIES = 2_000;

/** What `JSON.stringify` gives, in steps. */
function* jsonOf(contents: SheetContents): Steps<string> {
  const parts: string[] = [];
  for (const [name, entries] of Object.entries(contents)) {
    const texts: string[] = [];
    for (const [key, entry] of Object.entries(entries as object)) {
      const json = JSON.stringify(entry) as string | undefined;
      if (json !== undefined) texts.push(`${JSON.stringify(key)}:${json}`);
      if (texts.length % ENTRIES === 0) yield 0;
    }
    parts.push(`${JSON.stringify(name)}:{${texts.join(',')}}`);
  }
  return `{${parts.join(',')}}`;
}

/** To be kept in this browser; in steps. */
export function* writingTexts(contents: ReadonlyMap<string, SheetContents>): Steps<PackedSheets> {
  const sheets: Record<string, PackedSheet> = {};
  for (const [id, sheetContents] of contents) sheets[id] = { json: yield* jsonOf(sheetContents) };
  return sheets;
}

/** As small as can be, for a file of the build. */
export const packedSheets = (contents: ReadonlyMap<string, SheetContents>): PackedSheets =>
  packedBy((sheetContents) => {
    const bytes = zlibSync(strToU8(JSON.stringify(sheetContents)), { level: 9 });
    return { packed: btoa(strFromU8(bytes, true)) };
  }, contents);

function unpacked(sheet: PackedSheet): SheetContents {
  const json =
    'json' in sheet ? sheet.json : strFromU8(unzlibSync(strToU8(atob(sheet.packed), true)));
  return JSON.parse(json) as SheetContents;
}

/** Unpacks a sheet when it is asked for. */
export const unpackedSheets =
  (sheets: PackedSheets): ContentsOf =>
  (id) => {
    const sheet = sheets[id];
    return sheet && unpacked(sheet);
  };
