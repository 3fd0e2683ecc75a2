import type { WorkbookData } from '@odoo/o-spreadsheet';
import type { StoredValues } from './patches/open-with-stored-values';

type SheetData = WorkbookData['sheets'][number];

/** The most of a sheet: what its cells hold, how they look, and what its formulas gave. */
export interface SheetContents extends Pick<SheetData, 'cells' | 'styles' | 'formats' | 'borders'> {
  readonly values: StoredValues[string];
}

/** The contents of a sheet by its id; undefined for one that was not there. */
export type ContentsOf = (sheetId: string) => SheetContents | undefined;

/** A workbook whose sheets hold nothing, and what they held. */
export interface Apart<Data extends Partial<WorkbookData>> {
  readonly frame: Data;
  readonly contents: ReadonlyMap<string, SheetContents>;
}

/** Takes the contents of the sheets out of a workbook, so that each can come in by itself. */
export function takenApart<Data extends Partial<WorkbookData>>(
  data: Data,
  values: StoredValues,
): Apart<Data> {
  const contents = new Map<string, SheetContents>();
  const sheets = data.sheets?.map((sheet) => {
    const { cells = {}, styles = {}, formats = {}, borders = {} } = sheet as Partial<SheetData>;
    contents.set(sheet.id, { cells, styles, formats, borders, values: values[sheet.id] ?? {} });
    return { ...sheet, cells: {}, styles: {}, formats: {}, borders: {} };
  });
  return { frame: { ...data, ...(sheets && { sheets }) }, contents };
}

/** The workbook with its sheets' contents back in it. */
export const putTogether = <Data extends Partial<WorkbookData>>(
  frame: Data,
  contentsOf: ContentsOf,
): Data => ({
  ...frame,
  ...(frame.sheets && {
    sheets: frame.sheets.map((sheet) => {
      const found = contentsOf(sheet.id);
      if (!found) return sheet;
      const { cells, styles, formats, borders } = found;
      return { ...sheet, cells, styles, formats, borders };
    }),
  }),
});
