import { cellAddress, readArea, splitSheet } from '../plan/addresses';
import type { SheetSnapshot, SnapshotValue } from '../plan/book-snapshot';

export type { SheetSnapshot as OpenSheet, SnapshotValue as SheetValue };

/** Address of a cell by its place inside the sheet's used block. */
export function addressIn({ from }: SheetSnapshot, row: number, column: number): string {
  const corner = readArea(splitSheet(from).address);
  return cellAddress((corner?.row ?? 0) + row, (corner?.column ?? 0) + column);
}
