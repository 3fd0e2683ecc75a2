import type { CellPosition } from '@odoo/o-spreadsheet';

/** More rows than any sheet has. */
const ROWS = 2 ** 21;

export interface Zone {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

const cellsIn = ({ top, left, bottom, right }: Zone): number =>
  (bottom - top + 1) * (right - left + 1);

/** Something for single cells: a key that is a number costs nothing beside its entry. */
export class PlaceMap<T> {
  private readonly sheets = new Map<string, Map<number, T>>();

  get({ sheetId, col, row }: CellPosition): T | undefined {
    return this.sheets.get(sheetId)?.get(col * ROWS + row);
  }

  set({ sheetId, col, row }: CellPosition, entry: T): void {
    let sheet = this.sheets.get(sheetId);
    if (!sheet) this.sheets.set(sheetId, (sheet = new Map()));
    sheet.set(col * ROWS + row, entry);
  }

  delete({ sheetId, col, row }: CellPosition): void {
    this.sheets.get(sheetId)?.delete(col * ROWS + row);
  }

  *values(): Generator<T> {
    for (const sheet of this.sheets.values()) yield* sheet.values();
  }

  /** Those within an area, which may be far larger than what there is. */
  *within(sheetId: string, zone: Zone): Generator<T> {
    const sheet = this.sheets.get(sheetId);
    if (!sheet) return;
    const { top, left, bottom, right } = zone;
    if (cellsIn(zone) <= sheet.size) {
      for (let col = left; col <= right; col++) {
        for (let row = top; row <= bottom; row++) {
          const entry = sheet.get(col * ROWS + row);
          if (entry !== undefined) yield entry;
        }
      }
      return;
    }
    for (const [key, entry] of sheet) {
      const [col, row] = [Math.floor(key / ROWS), key % ROWS];
      if (col >= left && col <= right && row >= top && row <= bottom) yield entry;
    }
  }
}
