import { strFromU8, strToU8, unzlibSync, zlibSync } from 'fflate';
import { atOnce, partly, type Steps } from '../../plan/in-steps';
import type { ContentsOf, SheetContents } from '../../engine/sheet-contents';

/** A sheet's contents in texts of JSON, of which each holds some of its entries: as they are kept in this browser. */
export interface SheetTexts {
  readonly texts: readonly string[];
}

/** A sheet's contents as text, which is copied and fetched far sooner than the cells that it is unpacked into. */
export type PackedSheet =
  | SheetTexts
  /** In one, as earlier builds of the page kept it. */
  | { readonly json: string }
  /** The same packed for the way over a network: zlib (RFC 1950) in base64 (RFC 4648). */
  | { readonly packed: string };

/** By the id of the sheet. */
export type PackedSheets = Readonly<Record<string, PackedSheet>>;

const packedBy = (
  pack: (contents: SheetContents) => PackedSheet,
  contents: ReadonlyMap<string, SheetContents>,
): PackedSheets => Object.fromEntries([...contents].map(([id, content]) => [id, pack(content)]));

/** What texts hold together, in steps. */
function* wholeOf(texts: readonly string[]): Steps<Record<string, object>> {
  const whole: Record<string, object> = {};
  for (const [n, text] of texts.entries()) {
    for (const [name, entries] of Object.entries(JSON.parse(text) as Record<string, object>)) {
      Object.assign((whole[name] ??= {}), entries);
    }
    yield n / texts.length;
  }
  return whole;
}

/** As small as can be, for a file of the build. */
export const packedSheets = (contents: ReadonlyMap<string, SheetContents>): PackedSheets =>
  packedBy((sheetContents) => {
    const bytes = zlibSync(strToU8(JSON.stringify(sheetContents)), { level: 9 });
    return { packed: btoa(strFromU8(bytes, true)) };
  }, contents);

function* unpacking(sheet: PackedSheet): Steps<SheetContents> {
  if ('texts' in sheet) return (yield* wholeOf(sheet.texts)) as unknown as SheetContents;
  const json =
    'json' in sheet ? sheet.json : strFromU8(unzlibSync(strToU8(atob(sheet.packed), true)));
  return JSON.parse(json) as SheetContents;
}

/** Unpacks a sheet when it is asked for. */
export const unpackedSheets =
  (sheets: PackedSheets): ContentsOf =>
  (id) => {
    const sheet = sheets[id];
    return sheet && atOnce(unpacking(sheet));
  };

/** All sheets, in steps. */
export function* unpackingSheets(sheets: PackedSheets): Steps<ContentsOf> {
  const contents = new Map<string, SheetContents>();
  const all = Object.entries(sheets);
  for (const [n, [id, sheet]] of all.entries()) {
    contents.set(id, yield* partly(unpacking(sheet), n / all.length, (n + 1) / all.length));
  }
  return (id) => contents.get(id);
}

/** More letters than a sheet should have that comes in when it is looked at. */
const LARGE = 1_000_000;

/** Whether a sheet is so large that the page has to say that it comes in. */
export const hasLargeSheet = (sheets: PackedSheets): boolean =>
  Object.values(sheets).some(
    (sheet) => 'texts' in sheet && sheet.texts.reduce((sum, { length }) => sum + length, 0) > LARGE,
  );
