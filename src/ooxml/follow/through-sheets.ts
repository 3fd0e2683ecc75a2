import { placeAddress } from '../../plan/addresses';
import type { Package } from '../package';
import { readSheetCells } from '../sheet-cells';
import type { WorkbookParts } from '../workbook-parts';

const THROUGH = /(?:'[^'[\]]+:[^']+'|[\p{L}\p{N}_.]+:[\p{L}_][\p{L}\p{N}_.]*)!/u;

/** A cell or a name whose formula reckons through several sheets in a row, in words; undefined where there is none. */
export function readsThroughSheets(file: Package, book: WorkbookParts): string | undefined {
  for (const sheet of book.sheets) {
    if (!THROUGH.test(file.text(sheet.part))) continue;
    const { rows } = readSheetCells(file, sheet.part);
    for (const cell of rows.flatMap((row) => row.cells)) {
      if (THROUGH.test(cell.formula ?? '')) return `${sheet.name}!${placeAddress(cell)}`;
    }
  }
  const name = book.names.find(({ text }) => THROUGH.test(text));
  return name && `the name "${name.name}"`;
}
