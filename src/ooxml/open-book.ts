import { readArea, splitSheet } from '../plan/addresses';
import type { BookSnapshot } from '../plan/book-snapshot';
import type { NameModel } from '../plan/workbook-model';
import { atOnce, type Steps } from '../plan/in-steps';
import { readingSheets } from './open-sheets';
import { Package } from './package';
import { readWorkbookParts, type WorkbookParts } from './workbook-parts';

/** The 1904 system counts from a day that the 1900 system calls 1462. */
const DAYS_TO_1904 = 1462;

/** A whole .xlsx file as the farm is read from it. Throws UnreadableFile with a sentence. */
export const openBook = (bytes: Uint8Array): BookSnapshot => opened(bytes, false);

/** The same, as somebody needs it who follows a figure back to where it comes from. */
export const openTraced = (bytes: Uint8Array): BookSnapshot => opened(bytes, true);

function opened(bytes: Uint8Array, traced: boolean): BookSnapshot {
  const file = Package.open(bytes);
  return snapshotOf(file, readWorkbookParts(file), { traced });
}

/** A file whose parts are open already. */
export const snapshotOf = (
  file: Package,
  book: WorkbookParts,
  reading?: { readonly traced: boolean },
): BookSnapshot => atOnce(readingSnapshot(file, book, reading));

/** As `snapshotOf`, in steps. */
export function* readingSnapshot(
  file: Package,
  book: WorkbookParts,
  { traced }: { readonly traced: boolean } = { traced: true },
): Steps<BookSnapshot> {
  const { names, date1904 } = book;
  return {
    sheets: yield* readingSheets(file, book, { traced }),
    names: names.flatMap(({ name, text, element }): NameModel[] => {
      // A name of one sheet alone is none of the plan's.
      if (element.attributes['localSheetId'] !== undefined) return [];
      const { sheet, address } = splitSheet(text.replace(/^=/, ''));
      const area = readArea(address);
      return sheet === undefined || area === undefined ? [] : [{ name, sheet, area }];
    }),
    ...(date1904 && { dayShift: DAYS_TO_1904 }),
  };
}
