import type { Model, WorkbookData } from '@odoo/o-spreadsheet';
import { exportedFrame, exportingCells, LooksByNumber } from '../../engine/patches/exported-data';
import { isLink, resultOf } from '../../engine/patches/open-with-stored-values';
import { partly, type Steps } from '../../plan/in-steps';
import { cellAddress } from '../../plan/addresses';
import type { SheetTexts } from './packed-sheets';

/** A workbook of the grid with what its sheets hold as texts. */
export interface PackedGrid {
  readonly frame: WorkbookData;
  readonly sheets: Readonly<Record<string, SheetTexts>>;
  /** Whether what formulas give is in them: it is left out where one may give something else another day. */
  readonly hasValues: boolean;
}

/** So many entries stand in one text. */
const ENTRIES = 2_000;

/** A record written a few entries at a time, each few in a text of their own. */
class Texts {
  private entries: string[] = [];

  constructor(
    private readonly name: string,
    private readonly made: string[],
  ) {}

  add(key: string, entry: unknown): void {
    this.entries.push(`${JSON.stringify(key)}:${JSON.stringify(entry)}`);
    if (this.entries.length === ENTRIES) this.end();
  }

  end(): void {
    this.made.push(`{${JSON.stringify(this.name)}:{${this.entries.join(',')}}}`);
    this.entries = [];
  }
}

/** The grid as it is kept in this browser, in steps: no second workbook is made of it. Nothing may change between. */
export function* packingGrid(model: Model, wantsValues: boolean): Steps<PackedGrid> {
  const frame = exportedFrame(model);
  yield 0;
  const looks = new LooksByNumber();
  const sheets: Record<string, SheetTexts> = {};
  let hasValues = wantsValues;
  const valuesAt: { readonly texts: string[]; readonly from: number; readonly to: number }[] = [];
  for (const [n, sheet] of frame.sheets.entries()) {
    const texts: string[] = [];
    const valueTexts: string[] = [];
    const cells = new Texts('cells', texts);
    const values = new Texts('values', valueTexts);
    const zones = yield* partly(
      exportingCells(model, sheet.id, looks, ({ cell, position, text }) => {
        const address = cellAddress(position.row, position.col);
        if (text !== '') cells.add(address, text);
        if (!hasValues || !cell.isFormula || isLink(model.getters, position)) return;
        const result = resultOf(model.getters, cell, position);
        if (result === undefined) hasValues = false;
        else values.add(address, result);
      }),
      n / frame.sheets.length,
      (n + 1) / frame.sheets.length,
    );
    cells.end();
    values.end();
    texts.push(JSON.stringify({ ...zones, borders: sheet.borders }));
    const from = texts.length;
    texts.push(...valueTexts);
    valuesAt.push({ texts, from, to: texts.length });
    sheets[sheet.id] = { texts };
    Object.assign(sheet, { cells: {}, styles: {}, formats: {}, borders: {} });
  }
  if (!hasValues) {
    for (const { texts, from, to } of valuesAt) texts.splice(from, to - from, '{"values":{}}');
  }
  Object.assign(frame, { styles: looks.styles.entries, formats: looks.formats.entries });
  return { frame, sheets, hasValues };
}
