import type { WorkbookData } from '@odoo/o-spreadsheet';

type SheetData = WorkbookData['sheets'][number];
type Zones = Record<string, number>;

const highest = (entries: Record<number, unknown>): number =>
  Math.max(0, ...Object.keys(entries).map(Number));

const moved = <T>(entries: Record<number, T>, by: number): Record<number, T> =>
  Object.fromEntries(Object.entries(entries).map(([id, entry]) => [Number(id) + by, entry]));

const zonesMoved = (zones: Zones, by: number): Zones =>
  Object.fromEntries(Object.entries(zones).map(([zone, id]) => [zone, id + by]));

/** A workbook with another one's sheets behind its own. Names and ids of the two must differ. */
export function joinWorkbooks(first: WorkbookData, second: Partial<WorkbookData>): WorkbookData {
  const styles = highest(first.styles);
  const formats = highest(first.formats);
  const borders = highest(first.borders);
  const sheets = (second.sheets ?? []).map((sheet): SheetData => ({
    ...sheet,
    styles: zonesMoved(sheet.styles, styles),
    formats: zonesMoved(sheet.formats, formats),
    borders: zonesMoved(sheet.borders, borders),
  }));
  return {
    ...first,
    sheets: [...first.sheets, ...sheets],
    styles: { ...first.styles, ...moved(second.styles ?? {}, styles) },
    formats: { ...first.formats, ...moved(second.formats ?? {}, formats) },
    borders: { ...first.borders, ...moved(second.borders ?? {}, borders) },
    namedRanges: { ...first.namedRanges, ...second.namedRanges },
  };
}
