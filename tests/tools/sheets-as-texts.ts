import type { SheetContents } from '../../src/engine/sheet-contents';
import type { PackedSheets } from '../../src/hosts/workbench/packed-sheets';

/** What sheets hold as texts, each in one. */
export const sheetsAsTexts = (contents: ReadonlyMap<string, SheetContents>): PackedSheets =>
  Object.fromEntries([...contents].map(([id, sheet]) => [id, { texts: [JSON.stringify(sheet)] }]));
