/** Switches of own figures as cells of an open workbook. */
import { serialFromIsoText } from '../core/serial-date';
import { noAnswer } from '../core/errors';
import type { CellPlace } from '../plan/book-snapshot';
import { type OwnFigureRow, rowKey } from '../plan/own-figure-rows';
import type { BookReading } from '../plan/read-book';

type Row = Pick<OwnFigureRow, 'figure' | 'of' | 'part'> & Readonly<Record<string, unknown>>;

export interface SwitchedCell extends CellPlace {
  readonly value: string | number | undefined;
  /** What stood there before. */
  readonly before: string | number | undefined;
}

/** What a row says beside what it is of. */
const FIELDS = [
  'unit',
  'batches',
  'mean',
  'lowest',
  'highest',
  'low',
  'high',
  'weight',
  'upTo',
  'use',
  'few',
] as const;

export const rowsOfFile = (file: Readonly<Record<string, unknown>>): readonly Row[] =>
  (file['ownFigures'] ?? []) as readonly Row[];

/**
 * Cells by which a workbook comes to hold the own figures of `file`, which differs from what it holds in some of its
 * rows. Throws a sentence where it has no line for one, or where a formula stands in the way.
 */
export function switchedCells(
  { file: now, places }: Pick<BookReading, 'file' | 'places'>,
  file: Readonly<Record<string, unknown>>,
  { dayShift = 0 }: { readonly dayShift?: number | undefined } = {},
): SwitchedCell[] {
  const lines = rowsOfFile(now);
  return rowsOfFile(file).flatMap((row) => {
    const at = lines.findIndex((line) => rowKey(line) === rowKey(row));
    const line = lines[at];
    if (line === undefined) {
      throw noAnswer(
        `the sheet Own figures has no line for ${row.figure}${row.of === undefined ? '' : ` of ${row.of}`}: renew the plan, which counts the registers again`,
      );
    }
    return FIELDS.flatMap((field): SwitchedCell[] => {
      if (line[field] === row[field]) return [];
      const place = places.get(`ownFigures[${at}].${field}`);
      if (place === undefined || place.formula !== undefined) {
        throw noAnswer(
          `the sheet Own figures has no cell of its own for ${row.figure}, ${field}: renew the plan`,
        );
      }
      const inCell = (value: unknown): string | number | undefined =>
        field === 'upTo' && typeof value === 'string'
          ? (serialFromIsoText(value) as number) - dayShift
          : (value as string | number | undefined);
      const { sheet, row: r, column } = place;
      return [{ sheet, row: r, column, value: inCell(row[field]), before: inCell(line[field]) }];
    });
  });
}
